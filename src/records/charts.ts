import { sql } from 'kysely';
import type { ReadingChart } from '../schema/reading.ts';
import type { Database } from './database.ts';
import { maxMinBetween, probeNumber } from './readings.ts';

const HOUR_MS = 3_600_000;
/** Lengths of a stretch that read well on a time axis, ms; beyond them whole multiples of an hour. */
const STEPS = [1, 1000, 5000, 15_000, 60_000, 120_000, 300_000, 600_000, 900_000, 1_800_000];
export const MOST_BUCKETS = 4000;

interface Bucket {
  bucket: number;
  n: number;
  low: number;
  total: number;
  high: number;
  humidity: number | null;
}

/** Shortest stretch that cuts [fromMs, toMs) into at most `buckets`. */
export function bucketLength(fromMs: number, toMs: number, buckets: number): number {
  // One more bucket appears when the range does not begin on a stretch's edge.
  const wanted = (toMs - fromMs) / Math.max(1, Math.min(buckets, MOST_BUCKETS) - 1);
  return STEPS.find((step) => step >= wanted) ?? Math.ceil(wanted / HOUR_MS) * HOUR_MS;
}

/** Readings of one probe in [fromMs, toMs) as at most `buckets` (never over 4,000) stretches; long ranges from the hourly sums. */
export async function readingChart(
  database: Database,
  probeId: string,
  fromMs: number,
  toMs: number,
  buckets: number,
): Promise<ReadingChart> {
  const bucketMs = bucketLength(fromMs, toMs, buckets);
  const probe = await probeNumber(database, probeId);
  const maxMin = await maxMinBetween(database, probeId, fromMs, toMs);
  const rows =
    probe === undefined
      ? []
      : bucketMs >= HOUR_MS
        ? await fromHours(database, probe, fromMs, toMs, bucketMs / HOUR_MS)
        : await fromReadings(database, probe, fromMs, toMs, bucketMs);
  return {
    probeId,
    bucketMs,
    count: rows.reduce((sum, row) => sum + row.n, 0),
    atMs: rows.map((row) => row.bucket * bucketMs),
    minC: rows.map((row) => row.low),
    meanC: rows.map((row) => row.total / row.n),
    maxC: rows.map((row) => row.high),
    humidity: rows.map((row) => row.humidity),
    maxMin,
  };
}

async function fromHours(
  database: Database,
  probe: number,
  fromMs: number,
  toMs: number,
  hours: number,
): Promise<Bucket[]> {
  const each = sql.lit(hours);
  const answer = await sql<Bucket>`
    select hour / ${each} as bucket, cast(sum(count) as bigint) as n, min(min_c) as low, sum(sum_c) as total, max(max_c) as high,
      case when sum(humidity_count) > 0 then sum(humidity_sum) / sum(humidity_count) end as humidity
    from reading_hours
    where probe = ${probe} and hour >= ${Math.floor(fromMs / HOUR_MS)} and hour < ${Math.ceil(toMs / HOUR_MS)}
    group by hour / ${each} order by 1`.execute(database.kysely);
  return answer.rows;
}

async function fromReadings(
  database: Database,
  probe: number,
  fromMs: number,
  toMs: number,
  bucketMs: number,
): Promise<Bucket[]> {
  const each = sql.lit(bucketMs);
  const range = sql`probe = ${probe} and at_ms >= ${fromMs} and at_ms < ${toMs}`;
  const corrected = await sql`select 1 from reading_corrections where ${range} limit 1`.execute(database.kysely);
  // Corrections are rare: only a range that holds some pays for looking them up.
  const counted =
    corrected.rows.length === 0
      ? sql`readings where ${range} and quality <> 2`
      : sql`(select r.at_ms, coalesce(c.temp_c, r.temp_c) as temp_c,
          case when c.probe is null then r.humidity else c.humidity end as humidity, coalesce(c.quality, r.quality) as quality
        from readings r left join reading_corrections c on c.probe = r.probe and c.at_ms = r.at_ms and c.part =
          (select max(part) from reading_corrections n where n.probe = r.probe and n.at_ms = r.at_ms)
        where r.probe = ${probe} and r.at_ms >= ${fromMs} and r.at_ms < ${toMs}) as counted where quality <> 2`;
  const answer = await sql<Bucket>`
    select at_ms / ${each} as bucket, count(*) as n, min(temp_c) as low, sum(temp_c) as total, max(temp_c) as high,
      avg(humidity) as humidity
    from ${counted} group by at_ms / ${each} order by 1`.execute(database.kysely);
  return answer.rows;
}
