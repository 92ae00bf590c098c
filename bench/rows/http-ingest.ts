import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import SqliteConnection from 'better-sqlite3';
import { furnish, kill, send, serverProcess } from '../../test/faults/harness.ts';
import { id } from '../../test/records/given.ts';
import type { MakeRows } from '../row.ts';

const READINGS = 400_000;
const IN_BATCH = 10_000;
const AT_ONCE = 2;
const START_MS = Date.parse('2020-01-01T00:00:00Z');

const batchOf = (from: number) =>
  Array.from({ length: IN_BATCH }, (_, i) => ({
    probeId: id(3),
    at: new Date(START_MS + (from + i) * 60_000).toISOString(),
    tempC: Math.round((5 + 3 * Math.sin((from + i) / 300)) * 100) / 100,
    quality: 'good',
    source: 'http',
  }));

/** Readings a second over HTTP, each batch checked, stored once and on the disk before it is answered. */
async function overHttp(): Promise<number> {
  const folder = mkdtempSync(join(tmpdir(), 'stillwinter-bench-'));
  const server = await serverProcess(folder);
  await furnish(server.address);
  const batches = Array.from({ length: READINGS / IN_BATCH }, (_, i) => batchOf(i * IN_BATCH));
  let next = 0;
  const from = performance.now();
  const worker = async () => {
    for (let batch = batches[next++]; batch; batch = batches[next++]) {
      const answer = await send(server.address, 'POST', 'readings', batch);
      const { stored } = (await answer.json()) as { stored: number };
      if (stored !== IN_BATCH) throw new Error(`stored ${stored} of ${IN_BATCH}`);
    }
  };
  await Promise.all(Array.from({ length: AT_ONCE }, worker));
  const seconds = (performance.now() - from) / 1000;
  await kill(server);
  rmSync(folder, { recursive: true });
  return READINGS / seconds;
}

/** The floor: the same rows into the same layout by the driver alone, without HTTP, JSON, checks or hourly sums. */
function byDriverAlone(): number {
  const folder = mkdtempSync(join(tmpdir(), 'stillwinter-bench-'));
  const file = new SqliteConnection(join(folder, 'plain.sqlite'));
  file.pragma('journal_mode = WAL');
  file.pragma('synchronous = FULL');
  file.exec(
    'create table readings (probe integer not null, at_ms integer not null, temp_c real not null, quality integer not null, source integer not null, primary key (probe, at_ms)) strict, without rowid',
  );
  const insert = file.prepare('insert into readings values (1, ?, ?, 0, 2)');
  const run = file.transaction((from: number) => {
    for (let i = 0; i < IN_BATCH; i++) insert.run(START_MS + (from + i) * 60_000, 5 + 3 * Math.sin((from + i) / 300));
  });
  const from = performance.now();
  for (let at = 0; at < READINGS; at += IN_BATCH) run.immediate(at);
  const seconds = (performance.now() - from) / 1000;
  file.close();
  rmSync(folder, { recursive: true });
  return READINGS / seconds;
}

export const rows: MakeRows = async () => {
  const ours = await overHttp();
  const floor = byDriverAlone();
  const row = { name: 'http-ingest', value: Math.round(ours), unit: 'readings/s' };
  return [
    { ...row, peer: '', ratio: null, note: `batches of ${IN_BATCH}, durable before the answer, SQLite` },
    {
      ...row,
      peer: 'better-sqlite3 alone, same layout',
      ratio: ours / floor,
      note: `the floor: ${Math.round(floor)} readings/s`,
    },
  ];
};
