import { readingSchema } from '../schema/reading.ts';
import { announce } from './announce.ts';
import type { Database } from './database.ts';
import { notAnExport } from './export.ts';
import { RecordProblem } from './problem.ts';
import { QUALITY_CODES, SOURCE_CODES, storeReadings } from './reading-store.ts';
import { instantProblem, probeNumber } from './readings.ts';
import type { ReadingRow } from './tables.ts';

const ROWS_AT_ONCE = 20_000;

/** The cells of one line of a part with readings, as they stand there. */
interface ReadingLine {
  /** Counted as an editor counts, the heading being 1. */
  number: number;
  at: string;
  tempC: string;
  humidity: string;
  quality: string;
  source: string;
}

/** One line object, filled anew for each line after the heading: a part may hold millions. */
function* linesOf(text: string): Generator<ReadingLine> {
  const line: ReadingLine = { number: 1, at: '', tempC: '', humidity: '', quality: '', source: '' };
  const heading = text.indexOf('\r\n');
  for (let from = heading < 0 ? text.length : heading + 2; from < text.length; ) {
    const found = text.indexOf('\r\n', from);
    const end = found < 0 ? text.length : found;
    let start = from;
    const cell = () => {
      const comma = text.indexOf(',', start);
      const to = comma < 0 || comma > end ? end : comma;
      const value = text.slice(start, to);
      start = Math.min(end, to + 1);
      return value;
    };
    line.number += 1;
    line.at = cell();
    line.tempC = cell();
    line.humidity = cell();
    line.quality = cell();
    line.source = text.slice(start, end);
    yield line;
    from = end + 2;
  }
}

/** Checks every line of a part with readings without keeping any; returns how many there are. Throws RecordProblem with the line. */
export function checkReadings(name: string, probeId: string, text: string, nowMs: number): number {
  let count = 0;
  for (const { number, at, tempC, humidity, quality, source } of linesOf(text)) {
    const checked = readingSchema.safeParse({
      probeId,
      at,
      tempC: tempC.trim() === '' ? Number.NaN : Number(tempC),
      ...(humidity === '' ? {} : { humidity: Number(humidity) }),
      quality,
      source,
    });
    if (!checked.success) throw notAnExport(`${name}, ${number}`);
    const what = instantProblem(Date.parse(at), nowMs);
    if (what !== undefined) throw new RecordProblem('invalid', what, [{ where: `${name}, ${number}`, what }]);
    count += 1;
  }
  return count;
}

/** Stores the readings of a part that checkReadings let pass, each once, through one block of rows. Returns how many were new. */
export async function takeReadings(database: Database, probeId: string, text: string): Promise<number> {
  const probe = await probeNumber(database, probeId);
  // No reading, no number.
  if (probe === undefined) return 0;
  const rows: ReadingRow[] = [];
  let [count, taken, fromMs] = [0, 0, Number.POSITIVE_INFINITY];
  const store = async () => {
    rows.length = count;
    taken += await storeReadings(database, rows);
    count = 0;
  };
  for (const line of linesOf(text)) {
    let row = rows[count];
    if (!row) {
      row = { probe, atMs: 0, tempC: 0, humidity: null, quality: 0, source: 0 };
      rows.push(row);
    }
    row.atMs = Date.parse(line.at);
    row.tempC = Number(line.tempC);
    row.humidity = line.humidity === '' ? null : Number(line.humidity);
    row.quality = (QUALITY_CODES as readonly string[]).indexOf(line.quality);
    row.source = (SOURCE_CODES as readonly string[]).indexOf(line.source);
    fromMs = Math.min(fromMs, row.atMs);
    count += 1;
    if (count === ROWS_AT_ONCE) await store();
  }
  await store();
  if (taken > 0) announce(database, { kind: 'readings', probeIds: [probeId], fromMs });
  return taken;
}
