import type { BatteryLevel } from '../schema/reading.ts';
import { announce } from './announce.ts';
import type { Database } from './database.ts';
import { numberProbes, probeNumber } from './readings.ts';

const HOUR_MS = 3_600_000;
/** A level that flickers by a per cent or two makes at most one row in this time. */
const LEAST_APART_MS = HOUR_MS;
/** A level that stays the same is written down again after this long, so that its age tells whether the probe still says it. */
const SAME_AGAIN_MS = 24 * HOUR_MS;
const MOST_LISTED = 400;

/** What a probe said of its battery: percent from 0 to 100, its own judgement of whether it is low, or both. */
export interface SaidBattery {
  readonly probeId: string;
  readonly atMs: number;
  readonly percent?: number;
  readonly low?: boolean;
}

/**
 * Keeps levels that are news: another whole per cent, at most once an hour, or the same after a day. What is older than the newest is left.
 * A thermometer that says its per cent and its judgement in turns is held to both: what it left out stands as it last said it.
 * `known` holds the newest level of each probe from one call to the next, so that the same level a minute later costs no look into the database.
 */
export async function keepBatteries(
  database: Database,
  groupId: string,
  said: readonly SaidBattery[],
  known = new Map<string, SaidBattery>(),
): Promise<void> {
  const changed = new Set<string>();
  const rows: { probe: number; atMs: number; percent: number | null; low: number | null }[] = [];
  // What is known only counts once it is on the disk.
  const latest = new Map<string, SaidBattery>();
  for (const one of said) {
    const last = latest.get(one.probeId) ?? known.get(one.probeId) ?? (await newestOf(database, one.probeId));
    if (last) latest.set(one.probeId, last);
    const level: SaidBattery = {
      ...last,
      ...one,
      ...(one.percent === undefined ? {} : { percent: Math.round(one.percent) }),
    };
    const same = last?.percent === level.percent && last?.low === level.low;
    const apartMs = last ? one.atMs - last.atMs : Number.POSITIVE_INFINITY;
    const news = last && same ? apartMs >= SAME_AGAIN_MS : apartMs >= LEAST_APART_MS;
    if (!news) continue;
    const probe = (await probeNumber(database, one.probeId)) ?? (await numbered(database, groupId, one.probeId));
    if (probe === undefined) continue;
    rows.push({
      probe,
      atMs: level.atMs,
      percent: level.percent ?? null,
      low: level.low === undefined ? null : Number(level.low),
    });
    latest.set(one.probeId, level);
    if (!same) changed.add(one.probeId);
  }
  if (rows.length > 0)
    await database.kysely
      .insertInto('batteryLevels')
      .values(rows)
      .onConflict((conflict) => conflict.doNothing())
      .execute();
  for (const [probeId, level] of latest) known.set(probeId, level);
  if (changed.size > 0) announce(database, { kind: 'batteries', probeIds: [...changed] });
}

async function numbered(database: Database, groupId: string, probeId: string): Promise<number | undefined> {
  await database.kysely.transaction().execute((transaction) => numberProbes(transaction, groupId));
  return probeNumber(database, probeId);
}

async function newestOf(database: Database, probeId: string): Promise<SaidBattery | undefined> {
  const [level] = await listed(database, probeId, 1);
  return level && { probeId, atMs: Number(level.atMs), ...saidIn(level) };
}

const listed = (database: Database, probeId: string, limit: number) =>
  database.kysely
    .selectFrom('batteryLevels')
    .innerJoin('probeNumbers', 'probeNumbers.number', 'batteryLevels.probe')
    .select(['batteryLevels.atMs', 'batteryLevels.percent', 'batteryLevels.low'])
    .where('probeNumbers.probeId', '=', probeId)
    .orderBy('batteryLevels.atMs', 'desc')
    .limit(limit)
    .execute();

/** What a probe said of its battery, newest first: as many as the last 400 rows. */
export async function batteryLevels(database: Database, probeId: string): Promise<BatteryLevel[]> {
  const rows = await listed(database, probeId, MOST_LISTED);
  return rows.map((row) => ({ at: new Date(Number(row.atMs)).toISOString(), ...saidIn(row) }));
}

const saidIn = ({ percent, low }: { percent: number | null; low: number | null }) => ({
  ...(percent === null ? {} : { percent: Number(percent) }),
  ...(low === null ? {} : { low: Number(low) === 1 }),
});
