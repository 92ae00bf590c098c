import { type CreateTableBuilder, type Kysely, sql } from 'kysely';
import type { DatabaseKind, Tables } from '../tables.ts';

/** One step of the schema. It runs in a transaction of its own, together with the note that it ran. */
export interface Migration {
  readonly name: string;
  up(kysely: Kysely<Tables>, kind: DatabaseKind): Promise<void>;
}

type ColumnType = 'text' | 'integer' | 'real' | 'blob';
/** `text`, `integer!` (not null), `text! -> animals.id` (reference). */
type ColumnSpec = string;

const TYPES: Record<DatabaseKind, Record<ColumnType, string>> = {
  sqlite: { text: 'text', integer: 'integer', real: 'real', blob: 'blob' },
  // Whole numbers hold epoch ms, so eight bytes; `real` would be four bytes and turn 5.1 into 5.0999999.
  postgres: { text: 'text', integer: 'bigint', real: 'double precision', blob: 'bytea' },
};

/** Makes one table of the same columns on either database; on SQLite STRICT, so that a number in a text column is refused. */
export async function table(
  kysely: Kysely<Tables>,
  kind: DatabaseKind,
  name: string,
  columns: Record<string, ColumnSpec>,
  options: { key?: readonly string[]; withoutRowid?: boolean; unique?: readonly (readonly string[])[] } = {},
): Promise<void> {
  let builder: CreateTableBuilder<string, string> = kysely.schema.createTable(name);
  for (const [column, spec] of Object.entries(columns)) {
    const [typePart = '', reference] = spec.split(' -> ');
    const notNull = typePart.endsWith('!');
    const type = typePart.replace('!', '') as ColumnType;
    builder = builder.addColumn(column, sql.raw(TYPES[kind][type]), (definition) => {
      let made = column === 'id' ? definition.primaryKey() : definition;
      if (notNull || column === 'id') made = made.notNull();
      return reference ? made.references(reference) : made;
    });
  }
  if (options.key) builder = builder.addPrimaryKeyConstraint(`${name}_key`, [...options.key]);
  for (const [index, unique] of (options.unique ?? []).entries())
    builder = builder.addUniqueConstraint(`${name}_unique_${index + 1}`, [...unique]);
  if (kind === 'sqlite')
    builder = builder.modifyEnd(sql.raw(options.withoutRowid ? 'strict, without rowid' : 'strict'));
  await builder.execute();
}

export async function index(
  kysely: Kysely<Tables>,
  name: string,
  on: string,
  columns: readonly string[],
): Promise<void> {
  await kysely.schema
    .createIndex(name)
    .on(on)
    .columns([...columns])
    .execute();
}
