import { fileBytes } from '../../src/intake/csv/file-bytes.ts';
import { importFile } from '../../src/intake/csv/import.ts';
import { saveImported } from '../../src/intake/csv/save.ts';
import { openDatabase } from '../../src/records/database.ts';
import { GROUP, SCOPE, smallGroup } from '../records/given.ts';

// Imports one file into a fresh database and says how long it took and how much memory at most.
const [folder = '', path = ''] = process.argv.slice(2);
const database = await openDatabase({ dataFolder: folder });
await smallGroup(database);
const from = performance.now();
const nowMs = Date.UTC(2030, 0, 1);
const file = await importFile(fileBytes(path), { zone: GROUP.zone, nowMs, probeName: 'Lid' });
const { stored } = await saveImported(database, { ...SCOPE, nowMs }, file);
const seconds = (performance.now() - from) / 1000;
const mostBytes = process.resourceUsage().maxRSS * 1024;
const summed = await database.kysely
  .selectFrom('readingHours')
  .select((e) => e.fn.sum<number>('count').as('count'))
  .executeTakeFirstOrThrow();
await database.close();
console.log(JSON.stringify({ stored, hours: summed.count, seconds, mostBytes }));
