import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import pg from 'pg';
import { openDatabase } from '../../src/records/database.ts';
import { loadDemonstration } from '../../src/records/demo/story.ts';
import { moveDatabase } from '../../src/records/move.ts';

/**
 * The demonstration group moved from SQLite to PostgreSQL, and from there into another SQLite file: rows and checksums of every table at each
 * stop. Needs STILLWINTER_TEST_POSTGRES_URL. Exit 1 when a sum differs.
 */
const url = process.env.STILLWINTER_TEST_POSTGRES_URL;
if (!url) throw new Error('Set STILLWINTER_TEST_POSTGRES_URL to a PostgreSQL on which a database may be made');
const folder = mkdtempSync(join(tmpdir(), 'stillwinter-moved-'));
const name = `stillwinter_moved_${process.pid}`;
const admin = new pg.Client({ connectionString: url });
await admin.connect();
await admin.query(`create database ${name}`);
const address = new URL(url);
address.pathname = `/${name}`;
const first = await openDatabase({ dataFolder: join(folder, 'first') });
await loadDemonstration(first, Date.parse('2026-12-10T12:00:00Z'));
const server = await openDatabase({ dataFolder: '', databaseUrl: address.href });
const there = await moveDatabase(first, server);
const last = await openDatabase({ dataFolder: join(folder, 'last') });
const back = new Map((await moveDatabase(server, last)).map((table) => [table.table, table]));
const differing = there.filter((table) => back.get(table.table)?.sha256 !== table.sha256);
console.log(
  'SQLite → PostgreSQL → another SQLite file; each move compares every table before it says that it is done.\n',
);
console.log('| table | rows | in PostgreSQL (sha-256) | in the last file |\n| --- | --- | --- | --- |');
for (const { table, rows, sha256 } of there) {
  const other = back.get(table);
  console.log(`| ${table} | ${rows} | ${sha256.slice(0, 16)} | ${other?.sha256 === sha256 ? 'the same' : 'DIFFERS'} |`);
}
const rows = there.reduce((sum, table) => sum + table.rows, 0);
console.log(`\n${there.length} tables, ${rows} rows; ${differing.length} differ.`);
for (const database of [first, server, last]) await database.close();
await admin.query(`drop database ${name}`);
await admin.end();
rmSync(folder, { recursive: true });
process.exit(differing.length === 0 ? 0 : 1);
