import type { Reading, SingleReading } from '../schema/reading.ts';
import { say } from '../wording/say.ts';
import { csvCell } from './csv-cells.ts';
import type { Database } from './database.ts';
import { QUALITY_CODES, SOURCE_CODES } from './reading-store.ts';
import { probeNumber } from './readings.ts';

/** The most single readings of one answer; a file is made of many such pages. */
export const MOST_SINGLE = 5000;

/** Every reading of one probe in [fromMs, toMs) as it came, oldest first, with the correction that counts instead. */
export async function singleReadings(
  database: Database,
  probeId: string,
  fromMs: number,
  toMs: number,
  limit = MOST_SINGLE,
): Promise<SingleReading[]> {
  const probe = await probeNumber(database, probeId);
  if (probe === undefined) return [];
  const base = await database.kysely
    .selectFrom('readings')
    .selectAll()
    .where('probe', '=', probe)
    .where('atMs', '>=', fromMs)
    .where('atMs', '<', toMs)
    .orderBy('atMs')
    .limit(limit)
    .execute();
  const lastMs = base.at(-1)?.atMs;
  if (lastMs === undefined) return [];
  const corrections = await database.kysely
    .selectFrom('readingCorrections')
    .selectAll()
    .where('probe', '=', probe)
    .where('atMs', '>=', fromMs)
    .where('atMs', '<=', lastMs)
    .orderBy('part')
    .execute();
  const latest = new Map(corrections.map((row) => [row.atMs, row]));
  return base.map((row) => {
    const put = latest.get(row.atMs);
    return {
      reading: {
        probeId,
        at: new Date(row.atMs).toISOString(),
        tempC: row.tempC,
        ...(row.humidity === null ? {} : { humidity: row.humidity }),
        quality: QUALITY_CODES[row.quality]!,
        source: SOURCE_CODES[row.source]!,
      } satisfies Reading,
      ...(put ? { correction: { tempC: put.tempC, quality: QUALITY_CODES[put.quality]!, reason: put.reason } } : {}),
    };
  });
}

/** The readings of some probes in [fromMs, toMs) as a CSV file (RFC 4180), page by page: what counts, what came, and why they differ. */
export async function* readingsFile(
  database: Database,
  probes: readonly { readonly id: string; readonly name: string }[],
  fromMs: number,
  toMs: number,
): AsyncGenerator<string> {
  const columns = ['probe', 'at', 'temperature', 'humidity', 'quality', 'source', 'came', 'reason'] as const;
  yield `\uFEFF${columns.map((column) => csvCell(say(`records.file.${column}`))).join(',')}\r\n`;
  for (const probe of probes) {
    let nextMs = fromMs;
    for (;;) {
      const page = await singleReadings(database, probe.id, nextMs, toMs);
      if (page.length === 0) break;
      yield page
        .map(({ reading, correction }) =>
          [
            probe.name,
            reading.at,
            correction?.tempC ?? reading.tempC,
            reading.humidity,
            correction?.quality ?? reading.quality,
            reading.source,
            correction ? reading.tempC : undefined,
            correction?.reason,
          ]
            .map(csvCell)
            .join(','),
        )
        .join('\r\n')
        .concat('\r\n');
      nextMs = Date.parse(page.at(-1)!.reading.at) + 1;
    }
  }
}
