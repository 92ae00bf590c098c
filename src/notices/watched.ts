import { dayInZone, instantInZone } from '../measure/zone.ts';
import { estimateMass } from '../physiology/mass-estimator.ts';
import { forecastMass } from '../physiology/mass-forecast.ts';
import type { Database } from '../records/database.ts';
import { readingsBetween } from '../records/readings.ts';
import type { WatchDiaryKind, WatchEntry, WatchSetup } from '../winter/watch-types.ts';

const DAY_MS = 86_400_000;

/** A stay as the watch sees it. */
export interface WatchedStay {
  readonly groupId: string;
  readonly stayId: string;
  readonly animalId: string;
  readonly zone: string;
  /** The probe in the box whose readings count; a box without one is read by hand. */
  readonly probeId?: string;
  readonly setup: WatchSetup;
}

const watchedDiary: ReadonlySet<string> = new Set<WatchDiaryKind>([
  'lid-opened',
  'touch-response',
  'no-touch-response',
  'urine',
  'awake-signs',
]);

/** Every stay that is going on: begun, not ended, its animal not yet woken. */
export async function watchedStays(database: Database, nowMs: number): Promise<WatchedStay[]> {
  const { kysely } = database;
  const rows = await kysely
    .selectFrom('stays')
    .innerJoin('groups', 'groups.id', 'stays.groupId')
    .select([
      'stays.id',
      'stays.groupId',
      'stays.animalId',
      'stays.boxId',
      'stays.fromDay',
      'stays.toDay',
      'groups.zone',
      'groups.temperatureUnit',
      'groups.massUnit',
    ])
    .where('stays.deletedAtMs', 'is', null)
    .execute();
  const watched: WatchedStay[] = [];
  for (const row of rows) {
    const today = dayInZone(nowMs, row.zone);
    const fromDay = String(row.fromDay);
    if (fromDay > today || (row.toDay !== null && String(row.toDay) < today)) continue;
    const animalId = String(row.animalId);
    const dayStart = instantInZone(fromDay, row.zone);
    const [probe, start, wentDown, woken, plan] = await Promise.all([
      kysely
        .selectFrom('probes')
        .select(['id', 'expectedIntervalS'])
        .where('boxId', '=', String(row.boxId))
        .where('deletedAtMs', 'is', null)
        .orderBy('id')
        .executeTakeFirst(),
      kysely
        .selectFrom('measurements')
        .select(['massG', 'atMs'])
        .where('animalId', '=', animalId)
        .where('deletedAtMs', 'is', null)
        .where('massG', 'is not', null)
        .where('atMs', '<', dayStart + DAY_MS)
        .where('atMs', '>', dayStart - 14 * DAY_MS)
        .orderBy('atMs', 'desc')
        .executeTakeFirst(),
      kysely
        .selectFrom('diaryEntries')
        .select('atMs')
        .where('animalId', '=', animalId)
        .where('kind', '=', 'went-down')
        .where('deletedAtMs', 'is', null)
        .where('atMs', '>=', dayStart - DAY_MS)
        .orderBy('atMs')
        .executeTakeFirst(),
      kysely
        .selectFrom('diaryEntries')
        .select('atMs')
        .where('animalId', '=', animalId)
        .where('kind', '=', 'woken')
        .where('deletedAtMs', 'is', null)
        .where('atMs', '>=', dayStart)
        .executeTakeFirst(),
      kysely
        .selectFrom('plans')
        .select('plan')
        .where('animalId', '=', animalId)
        .orderBy('madeAtMs', 'desc')
        .executeTakeFirst(),
    ]);
    if (woken) continue;
    const wakeDay = plan ? wakeDayOf(plan.plan) : undefined;
    watched.push({
      groupId: row.groupId,
      stayId: row.id,
      animalId,
      zone: row.zone,
      ...(probe ? { probeId: probe.id } : {}),
      setup: {
        stayId: row.id,
        fromMs: wentDown ? Number(wentDown.atMs) : instantInZone(fromDay, row.zone, 12),
        ...(start ? { startMassG: Number(start.massG) } : {}),
        ...(wakeDay ? { plannedWakeMs: instantInZone(wakeDay, row.zone, 9) } : {}),
        ...(probe ? { expectedIntervalS: Number(probe.expectedIntervalS) } : {}),
        temperatureUnit: row.temperatureUnit === 'F' ? 'F' : 'C',
        massUnit: row.massUnit === 'oz' ? 'oz' : 'g',
      },
    });
  }
  return watched;
}

/** The planned day of waking in a stored plan. */
function wakeDayOf(plan: string): string | undefined {
  const body = JSON.parse(plan) as { wakeDay?: unknown };
  return typeof body.wakeDay === 'string' ? body.wakeDay : undefined;
}

/** Readings of a probe after an instant that count, oldest first. */
export async function readingsSince(
  database: Database,
  probeId: string,
  afterMs: number,
  nowMs: number,
): Promise<{ atMs: number; tempC: number }[]> {
  const readings = await readingsBetween(database, probeId, afterMs + 1, nowMs + DAY_MS);
  return readings
    .filter((reading) => reading.quality === 'good')
    .map((reading) => ({ atMs: Date.parse(reading.at), tempC: reading.tempC }));
}

/** Everything recorded about a stay, in the order of time. */
export async function entriesOf(database: Database, stay: WatchedStay, nowMs: number): Promise<WatchEntry[]> {
  const { kysely } = database;
  const { fromMs } = stay.setup;
  const entries: WatchEntry[] = [];
  if (stay.probeId) {
    for (const reading of await readingsSince(database, stay.probeId, fromMs, nowMs))
      entries.push({ kind: 'reading', ...reading });
    const spans = await kysely
      .selectFrom('maxMinReadings')
      .innerJoin('probeNumbers', 'probeNumbers.number', 'maxMinReadings.probe')
      .select([
        'maxMinReadings.fromAtMs',
        'maxMinReadings.toAtMs',
        'maxMinReadings.part',
        'maxMinReadings.maxC',
        'maxMinReadings.minC',
      ])
      .where('probeNumbers.probeId', '=', stay.probeId)
      .where('maxMinReadings.fromAtMs', '>=', fromMs)
      .orderBy('maxMinReadings.part')
      .execute();
    for (const span of new Map(spans.map((one) => [one.toAtMs, one])).values())
      entries.push({ kind: 'span', fromMs: span.fromAtMs, atMs: span.toAtMs, maxC: span.maxC, minC: span.minC });
  }
  const diary = await kysely
    .selectFrom('diaryEntries')
    .select(['atMs', 'kind'])
    .where('animalId', '=', stay.animalId)
    .where('deletedAtMs', 'is', null)
    .where('atMs', '>=', fromMs)
    .execute();
  for (const one of diary)
    if (watchedDiary.has(String(one.kind)))
      entries.push({ kind: 'diary', atMs: Number(one.atMs), diary: one.kind as WatchDiaryKind });
  entries.push(...(await weighIns(database, stay, entries)));
  return entries.sort((a, b) => a.atMs - b.atMs);
}

/** Weigh-ins with the range each was expected to fall in, and after the last one the forecast of the loss. */
async function weighIns(database: Database, stay: WatchedStay, entries: readonly WatchEntry[]): Promise<WatchEntry[]> {
  const rows = await database.kysely
    .selectFrom('measurements')
    .select(['atMs', 'massG'])
    .where('animalId', '=', stay.animalId)
    .where('deletedAtMs', 'is', null)
    .where('massG', 'is not', null)
    .where('atMs', '>=', stay.setup.fromMs)
    .orderBy('atMs')
    .execute();
  if (rows.length === 0) return [];
  const weighed = rows.map((row) => ({ atMs: Number(row.atMs), massG: Number(row.massG) }));
  if (stay.setup.startMassG === undefined) return weighed.map((one) => ({ kind: 'weigh-in', ...one }));
  const readings = entries.flatMap((entry) => (entry.kind === 'reading' ? [entry] : []));
  const usual = {
    tempC: readings.length > 0 ? readings.reduce((sum, reading) => sum + reading.tempC, 0) / readings.length : 5,
    relativeHumidity: 0.8,
  };
  const climate = { spans: [], usual };
  const { estimate, judged } = estimateMass(
    [{ atMs: stay.setup.fromMs, massG: stay.setup.startMassG }, ...weighed],
    climate,
    false,
  );
  const result: WatchEntry[] = judged.map((one) => ({
    kind: 'weigh-in',
    atMs: one.weighIn.atMs,
    massG: one.weighIn.massG,
    expectedLowG: one.expectedG.low,
    expectedHighG: one.expectedG.high,
  }));
  const last = weighed.at(-1);
  const wakeMs = stay.setup.plannedWakeMs;
  if (last && wakeMs !== undefined && wakeMs > last.atMs) {
    const [plan] = forecastMass(estimate, climate, Math.ceil((wakeMs - last.atMs) / DAY_MS)).limits;
    result.push({
      kind: 'mass-forecast',
      atMs: last.atMs,
      ...(plan.earlyMs === undefined ? {} : { passesMs: plan.earlyMs }),
    });
  }
  return result;
}
