import { dayInZone, instantInZone } from '../measure/zone.ts';
import type { BoxReading } from '../physiology/box-climate.ts';
import { batteryLevels } from '../records/batteries.ts';
import type { Database } from '../records/database.ts';
import { ruleSettingsOf } from '../records/limits.ts';
import { readingsBetween } from '../records/readings.ts';
import { massEntries } from '../winter/mass-entries.ts';
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

/** Every stay that is going on (begun, not ended, its animal here and not yet woken), or the one named, if it is. */
export async function watchedStays(database: Database, nowMs: number, stayId?: string): Promise<WatchedStay[]> {
  const { kysely } = database;
  let asked = kysely
    .selectFrom('stays')
    .innerJoin('groups', 'groups.id', 'stays.groupId')
    .innerJoin('animals', 'animals.id', 'stays.animalId')
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
    .where('animals.leftOn', 'is', null);
  if (stayId !== undefined) asked = asked.where('stays.id', '=', stayId);
  const rows = await asked.execute();
  const watched: WatchedStay[] = [];
  for (const row of rows) {
    const today = dayInZone(nowMs, row.zone);
    const fromDay = String(row.fromDay);
    if (fromDay > today || (row.toDay !== null && String(row.toDay) < today)) continue;
    const animalId = String(row.animalId);
    const dayStart = instantInZone(fromDay, row.zone);
    const [probe, start, wentDown, woken, plan, settings] = await Promise.all([
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
      ruleSettingsOf(database, row.groupId, row.id),
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
        ...(settings ? { settings } : {}),
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
): Promise<BoxReading[]> {
  const readings = await readingsBetween(database, probeId, afterMs + 1, nowMs + DAY_MS);
  return readings
    .filter((reading) => reading.quality === 'good')
    .map(({ at, tempC, humidity }) => ({
      atMs: Date.parse(at),
      tempC,
      ...(humidity === undefined ? {} : { humidity }),
    }));
}

/** Everything recorded about a stay, in the order of time. */
export async function entriesOf(database: Database, stay: WatchedStay, nowMs: number): Promise<WatchEntry[]> {
  const { kysely } = database;
  const { fromMs } = stay.setup;
  const entries: WatchEntry[] = [];
  const readings = stay.probeId ? await readingsSince(database, stay.probeId, fromMs, nowMs) : [];
  for (const { atMs, tempC } of readings) entries.push({ kind: 'reading', atMs, tempC });
  if (stay.probeId) {
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
  if (stay.probeId) {
    for (const { at, ...said } of await batteryLevels(database, stay.probeId)) {
      const atMs = Date.parse(at);
      if (atMs >= fromMs && atMs <= nowMs) entries.push({ kind: 'battery', atMs, ...said });
    }
  }
  const rows = await kysely
    .selectFrom('diaryEntries')
    .select(['atMs', 'kind'])
    .where('animalId', '=', stay.animalId)
    .where('deletedAtMs', 'is', null)
    .where('atMs', '>=', fromMs)
    .execute();
  const diary = rows.map((row) => ({ atMs: Number(row.atMs), kind: String(row.kind) }));
  for (const { atMs, kind } of diary)
    if (watchedDiary.has(kind)) entries.push({ kind: 'diary', atMs, diary: kind as WatchDiaryKind });
  entries.push(...(await weighIns(database, stay, readings, diary)));
  return entries.sort((a, b) => a.atMs - b.atMs);
}

/** Weigh-ins with the range each was expected to fall in and the forecast of the loss, from what was known at the time. */
async function weighIns(
  database: Database,
  stay: WatchedStay,
  readings: readonly BoxReading[],
  diary: readonly { atMs: number; kind: string }[],
): Promise<readonly WatchEntry[]> {
  const rows = await database.kysely
    .selectFrom('measurements')
    .select(['atMs', 'massG'])
    .where('animalId', '=', stay.animalId)
    .where('deletedAtMs', 'is', null)
    .where('massG', 'is not', null)
    .where('atMs', '>', stay.setup.fromMs)
    .orderBy('atMs')
    .execute();
  const weighed = rows.map((row) => ({ atMs: Number(row.atMs), massG: Number(row.massG) }));
  const { startMassG, plannedWakeMs, fromMs } = stay.setup;
  if (startMassG === undefined) return weighed.map((one) => ({ kind: 'weigh-in', ...one }));
  return massEntries({
    weighIns: [{ atMs: fromMs, massG: startMassG }, ...weighed],
    readings,
    steps: diary.flatMap(({ atMs, kind }) => (kind === 'urine' || kind === 'drank' ? [{ atMs, kind }] : [])),
    ...(plannedWakeMs === undefined ? {} : { plannedWakeMs }),
  }).entries;
}
