import { readingSchema } from '../schema/reading.ts';
import { announce } from './announce.ts';
import type { Database } from './database.ts';
import { notAnExport } from './export.ts';
import type { ExportArchive } from './export-archive.ts';
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

/** Does something with every line after the heading. The line is one object filled anew each time: a part may hold millions. */
async function eachLine(archive: ExportArchive, name: string, use: (line: ReadingLine) => void | Promise<void>) {
  const line: ReadingLine = { number: 0, at: '', tempC: '', humidity: '', quality: '', source: '' };
  for await (const text of archive.pieces(name))
    for (const { number } of linesOf(text, line)) {
      if (number === 1) continue;
      const waiting = use(line);
      if (waiting) await waiting;
    }
}

/** Fills the line with each line of a text, counting on. */
function* linesOf(text: string, line: ReadingLine): Generator<ReadingLine> {
  for (let from = 0; from < text.length; ) {
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
export async function checkReadings(
  archive: ExportArchive,
  name: string,
  probeId: string,
  nowMs: number,
): Promise<number> {
  let count = 0;
  await archive.check(name);
  await eachLine(archive, name, ({ number, at, tempC, humidity, quality, source }) => {
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
  });
  return count;
}

/** Stores the readings of a part that checkReadings let pass, each once, through one block of rows. Returns how many were new. */
export async function takeReadings(
  database: Database,
  archive: ExportArchive,
  name: string,
  probeId: string,
): Promise<number> {
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
  await eachLine(archive, name, (line) => {
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
    return count === ROWS_AT_ONCE ? store() : undefined;
  });
  await store();
  if (taken > 0) announce(database, { kind: 'readings', probeIds: [probeId], fromMs });
  return taken;
}
