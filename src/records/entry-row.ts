import type { EntryKind } from './kinds.ts';
import type { EntryRow } from './tables.ts';

type Cell = string | number | null;

/** The columns of a thing; a field that is absent is null. */
export function columnsOf(kind: EntryKind, thing: object): Record<string, Cell> {
  const given = thing as Record<string, unknown>;
  const columns: Record<string, Cell> = {};
  for (const [field, form] of Object.entries(kind.fields)) {
    const value = given[field];
    if (form === 'instant') columns[`${field}Ms`] = value === undefined ? null : Date.parse(value as string);
    else if (value === undefined) columns[field] = null;
    else if (form === 'json') columns[field] = JSON.stringify(value);
    else if (form === 'flag') columns[field] = value ? 1 : 0;
    else columns[field] = value as string | number;
  }
  return columns;
}

/** The thing as it is sent: id, its fields (null ones left out), and its revision. */
export function thingOf<T extends { id: string }>(kind: EntryKind<T>, row: EntryRow): T & { revision: number } {
  const thing: Record<string, unknown> = { id: row.id };
  for (const [field, form] of Object.entries(kind.fields)) {
    const value = row[form === 'instant' ? `${field}Ms` : field];
    if (value === null || value === undefined) continue;
    if (form === 'instant') thing[field] = new Date(value as number).toISOString();
    else if (form === 'json') thing[field] = JSON.parse(value as string);
    else if (form === 'flag') thing[field] = value === 1;
    else thing[field] = value;
  }
  thing.revision = row.revision;
  return thing as T & { revision: number };
}
