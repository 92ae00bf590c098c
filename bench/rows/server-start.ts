import { once } from 'node:events';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import SqliteConnection from 'better-sqlite3';
import { databaseFile } from '../../src/records/database.ts';
import { furnish, kill, send, serverProcess } from '../../test/faults/harness.ts';
import { id } from '../../test/records/given.ts';
import type { MakeRows } from '../row.ts';

const READINGS = 10_000_000;
const PROBES = 20;
const EACH = READINGS / PROBES;
const STEP_MS = 60_000;
const START_MS = Date.parse('2025-10-01T00:00:00Z');
const CHARTS = 60;

/** A database with ten million readings of twenty probes, a minute apart, with their hourly sums. */
async function fill(folder: string): Promise<void> {
  const server = await serverProcess(folder);
  await furnish(server.address);
  for (let n = 0; n < PROBES; n++) {
    const probe = { id: id(500 + n), name: `Probe ${n}`, offsetC: 0, expectedIntervalS: 60 };
    await send(server.address, 'POST', 'probes', probe);
    const first = {
      probeId: probe.id,
      at: new Date(START_MS).toISOString(),
      tempC: 5,
      quality: 'good',
      source: 'http',
    };
    await send(server.address, 'POST', 'readings', [first]);
  }
  // A usual end: the compiled code is kept for the next start.
  const gone = once(server.process, 'exit');
  server.process.kill('SIGTERM');
  await gone;
  const file = new SqliteConnection(databaseFile(folder));
  file.pragma('synchronous = OFF');
  const numbers = file.prepare('select number from probe_numbers').pluck().all() as number[];
  const insert = file.prepare('insert into readings values (?, ?, ?, null, 0, 2) on conflict do nothing');
  for (const number of numbers)
    file.transaction(() => {
      for (let i = 0; i < EACH; i++) insert.run(number, START_MS + i * STEP_MS, 5 + Math.sin(i / 700));
    })();
  file.exec(`delete from reading_hours;
    insert into reading_hours (probe, hour, count, min_c, sum_c, max_c, humidity_sum, humidity_count)
    select probe, at_ms / 3600000, count(*), min(temp_c), sum(temp_c), max(temp_c), 0.0, 0 from readings group by 1, 2`);
  file.pragma('wal_checkpoint(truncate)');
  file.close();
}

const median = (values: number[]): number => values.sort((a, b) => a - b)[Math.floor(values.length / 2)]!;

async function chartMs(address: string): Promise<number> {
  const times: number[] = [];
  for (let i = 0; i < CHARTS; i++) {
    const spanMs = [1, 7, 30, 120, 340][i % 5]! * 86_400_000;
    const from = START_MS + ((i * 7919) % 100) * 0.01 * (EACH * STEP_MS - spanMs);
    const range = `from=${new Date(from).toISOString()}&to=${new Date(from + spanMs).toISOString()}`;
    const began = performance.now();
    await (await fetch(`${address}/api/v1/readings?probeId=${id(500 + (i % PROBES))}&${range}`)).arrayBuffer();
    times.push(performance.now() - began);
  }
  return median(times);
}

/** The most memory a process has had, as Linux counts it (VmHWM of proc(5)); undefined elsewhere. */
function peakMb(pid: number | undefined): number | undefined {
  const status = `/proc/${pid}/status`;
  const kb = existsSync(status) ? /VmHWM:\s+(\d+)/.exec(readFileSync(status, 'utf8'))?.[1] : undefined;
  return kb === undefined ? undefined : Math.round(Number(kb) / 1024);
}

export const rows: MakeRows = async () => {
  const folder = mkdtempSync(join(tmpdir(), 'stillwinter-bench-'));
  await fill(folder);
  const starts: number[] = [];
  for (let i = 0; i < 3; i++) {
    const from = performance.now();
    const server = await serverProcess(folder);
    await fetch(`${server.address}/health`);
    starts.push((performance.now() - from) / 1000);
    await kill(server);
  }
  const server = await serverProcess(folder);
  const chart = await chartMs(server.address);
  const memoryMb = peakMb(server.process.pid);
  await kill(server);
  // What has to be waited for where the whole file is checked before the first answer.
  const from = performance.now();
  const file = new SqliteConnection(databaseFile(folder), { readonly: true });
  file.pragma('integrity_check');
  file.close();
  const check = (performance.now() - from) / 1000;
  rmSync(folder, { recursive: true });
  const start = Number(median(starts).toFixed(3));
  return [
    {
      name: 'server-start',
      value: start,
      unit: 's',
      peer: '',
      ratio: null,
      note: 'process start to first answer, 10,000,000 readings',
    },
    {
      name: 'server-start',
      value: start,
      unit: 's',
      peer: 'integrity check before the first answer',
      ratio: (start + check) / start,
    },
    {
      name: 'chart-query',
      value: Number(chart.toFixed(1)),
      unit: 'ms',
      peer: '',
      ratio: null,
      note: 'median of one day to eleven months, over HTTP',
    },
    ...(memoryMb === undefined
      ? []
      : [
          {
            name: 'server-memory',
            value: memoryMb,
            unit: 'MB',
            peer: '',
            ratio: null,
            note: 'peak of the server with 10,000,000 readings, integrity check and charts included',
          },
        ]),
  ];
};
