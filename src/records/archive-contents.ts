import type { ArchiveContents } from '../schema/archive.ts';
import type { Database } from './database.ts';
import type { Row } from './dump.ts';
import { notAnExport } from './export.ts';
import { openArchive, parsed } from './export-archive.ts';

/** What an export holds, without taking anything in. Throws RecordProblem. */
export async function archiveContents(
  database: Database,
  archive: Uint8Array,
  groupId: string,
): Promise<Omit<ArchiveContents, 'id' | 'bytes'>> {
  const { format, part } = openArchive(archive);
  const rows = (table: string): Row[] => {
    const list = parsed(table, part(`json/${table}.json`));
    if (!Array.isArray(list)) throw notAnExport(table);
    return list as Row[];
  };
  const animals = rows('animals').map((row) => ({ id: String(row.id), name: String(row.name) }));
  const here = await database.kysely.selectFrom('animals').select('id').where('groupId', '=', groupId).execute();
  const known = new Set(here.map((row) => row.id));
  const groupName = format.animalId === undefined ? rows('groups')[0]?.name : undefined;
  const counted = (is: (name: string) => boolean) =>
    format.parts.filter(({ name }) => is(name)).reduce((sum, one) => sum + one.rows, 0);
  const photographs = counted((name) => name === 'json/photographs.json');
  const readings = counted((name) => name.startsWith('readings/'));
  const aside = ['json/groups.json', 'json/photographBytes.json', 'json/changes.json', 'json/weatherHours.json'];
  return {
    exportedAt: format.exportedAt,
    ...(typeof groupName === 'string' ? { groupName } : {}),
    animals: animals.map((animal) => ({ ...animal, known: known.has(animal.id) })),
    records: counted((name) => name.startsWith('json/') && !aside.includes(name)),
    photographs,
    readings,
  };
}
