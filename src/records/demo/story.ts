import type { Transaction } from 'kysely';
import { addDays, type Day, daysBetween } from '../../measure/day.ts';
import { dayInZone, instantInZone } from '../../measure/zone.ts';
import type { Animal } from '../../schema/animal.ts';
import type { Group } from '../../schema/group.ts';
import { shortestDayNear } from '../../winter/season.ts';
import { keepBatteries, type SaidBattery } from '../batteries.ts';
import type { Database } from '../database.ts';
import { makeIn, type Scope } from '../entries.ts';
import { saveGroup } from '../groups.ts';
import {
  ANIMAL,
  BOX,
  DIARY,
  type EntryKind,
  EXAMINATION,
  HEALTH_EVENT,
  MEASUREMENT,
  PLACE,
  PROBE,
  STAY,
  TASK_DONE,
} from '../kinds.ts';
import { planWinter } from '../planning.ts';
import { appendReadings, newestReadings } from '../readings.ts';
import type { Tables } from '../tables.ts';
import { keepForecast, keepWeather } from '../weather.ts';
import { DEMO_ANIMALS, type DemoAnimal } from './animals.ts';
import { demoGroup, demoId } from './group.ts';
import { DEMO_BOXES, DEMO_PLACES, DEMO_PROBES } from './housing.ts';
import { demoForecast, demoHours, demoReadings, demoWeather } from './temperatures.ts';

const DAY_MS = 86_400_000;
/** Plans are made this many days before the shortest day; the story never begins later. */
const PLAN_DAYS = -95;
const FIRST_READING_DAYS = -60;
const READING_STEP_MS = 1_800_000;
/** As much weather as the forecast of a box looks back on, and a little more. */
const WEATHER_DAYS = 20;
const LOADED = 'demonstration-loaded';

/**
 * Loads the invented group once: eight animals around the winter that is nearest, some asleep, some winding down, some up, whatever
 * day it is. A load that was cut short is finished by the next, with the same dates; later starts bring temperatures and weather up to
 * the present and leave everything else alone. Returns false when another group is there.
 */
export async function loadDemonstration(database: Database, nowMs: number): Promise<boolean> {
  const groups = await database.kysely.selectFrom('groups').select(['id', 'demonstration', 'recordedAtMs']).execute();
  const mine = groups.find((row) => row.id === demoId(1));
  if (groups.length > 0 && !mine) return false;
  const loaded = await database.kysely
    .selectFrom('settings')
    .select('value')
    .where('name', '=', LOADED)
    .executeTakeFirst();
  const told = storyAt(mine?.recordedAtMs ?? nowMs);
  if (loaded) {
    await tellTemperatures(database, { ...told, nowMs });
    return true;
  }
  await tell(database, told);
  await database.kysely
    .insertInto('settings')
    .values({ groupId: demoId(1), name: LOADED, value: 'true' })
    .execute();
  return true;
}

interface Story {
  readonly group: Group;
  /** The shortest day of the winter that is told. */
  readonly shortest: Day;
  readonly today: Day;
  readonly nowMs: number;
}

/** The story as it is told on a day: always the same for the same day. */
function storyAt(nowMs: number): Story {
  const day = new Date(nowMs).toISOString().slice(0, 10);
  const away = (latitudeDeg: number) => Math.abs(daysBetween(day, shortestDayNear(day, latitudeDeg)));
  const group = demoGroup(away(52) <= away(-52) ? 'north' : 'south');
  const shortest = shortestDayNear(day, group.latitudeDeg);
  return { group, shortest, today: dayInZone(nowMs, group.zone), nowMs };
}

async function tell(database: Database, story: Story): Promise<void> {
  await saveGroup(database, story.group, null, story.nowMs);
  await database.kysely.transaction().execute(async (transaction) => {
    const keep = keeper(transaction, story);
    for (const place of DEMO_PLACES) await keep(PLACE, -400, place);
    for (const box of Object.values(DEMO_BOXES)) await keep(BOX, -399, box);
    for (const { number, lagH: _, towardsC: __, share: ___, ...probe } of DEMO_PROBES)
      await keep(PROBE, -398, { ...probe, id: demoId(number), offsetC: 0, expectedIntervalS: READING_STEP_MS / 1000 });
    for (const animal of DEMO_ANIMALS) await tellAnimal(keep, story, animal);
  });
  for (const animal of DEMO_ANIMALS) await plan(database, story, animal);
  await tellTemperatures(database, story);
}

type Keep = <T extends { id: string }>(kind: EntryKind<T>, days: number, thing: T) => Promise<void>;

/** Keeps a thing as if it had been entered on its day; what lies after today has not happened yet. */
function keeper(transaction: Transaction<Tables>, story: Story): Keep {
  return async (kind, days, thing) => {
    const atMs = instantOf(story, days, 20);
    if (atMs > story.nowMs) return;
    await makeIn(transaction, scopeAt(story, atMs), kind, thing);
  };
}

const scopeAt = (story: Story, nowMs: number): Scope => ({ groupId: story.group.id, personId: null, nowMs });
const dayOf = (story: Story, days: number): Day => addDays(story.shortest, Math.floor(days));
const instantOf = (story: Story, days: number, hour = 9): number =>
  instantInZone(dayOf(story, days), story.group.zone, hour);
const isoOf = (story: Story, days: number, hour = 9): string => new Date(instantOf(story, days, hour)).toISOString();

async function tellAnimal(keep: Keep, story: Story, told: DemoAnimal): Promise<void> {
  const animalId = demoId(told.number);
  let next = told.number * 1000;
  const id = () => demoId(next++);
  const animal: Animal = {
    id: animalId,
    name: told.name,
    species: told.species,
    sex: told.sex,
    ...(told.bornDays === undefined ? {} : { birthDate: dayOf(story, told.bornDays) }),
    ...(told.aboutYears === undefined ? {} : { ageYears: told.aboutYears, ageAsOf: dayOf(story, -100) }),
    acquiredOn: dayOf(story, told.acquiredDays),
    marks: told.marks,
    wintersSlept: told.wintersSlept,
    ...(told.notes === undefined ? {} : { notes: told.notes }),
  };
  await keep(ANIMAL, Math.max(told.acquiredDays, -900), animal);
  await tellGrowth(keep, story, told, id);
  for (const event of told.events)
    await keep(HEALTH_EVENT, event.fromDays, {
      id: id(),
      animalId,
      kind: event.kind,
      fromDay: dayOf(story, event.fromDays),
      ...(event.toDays === undefined ? {} : { toDay: dayOf(story, event.toDays) }),
      ...(event.note === undefined ? {} : { note: event.note }),
    });
  for (const days of [PLAN_DAYS - 1, -58, (told.sleepDays?.from ?? 1000) - 2])
    await keep(EXAMINATION, days, {
      id: id(),
      animalId,
      at: isoOf(story, days, 17),
      moment: 'before',
      findings: told.findings,
      ...(told.answers === undefined ? {} : { answers: told.answers }),
    });
  if (told.sleepDays && told.box) await tellSleep(keep, story, told, id);
}

/** Weighings of the last two years: growth levelling off, lighter after each winter, heavier towards autumn. */
async function tellGrowth(keep: Keep, story: Story, told: DemoAnimal, id: () => string): Promise<void> {
  const from = Math.max(PLAN_DAYS - 730, told.acquiredDays + 1, (told.bornDays ?? -9999) + 20);
  for (let days = PLAN_DAYS - 2; days >= from; days -= 35) {
    const left = (days - PLAN_DAYS) / 730;
    const size = 1 + left * (1 - told.grownShare);
    const season = told.wintersSlept > 0 ? 0.03 * Math.cos((2 * Math.PI * (days - PLAN_DAYS)) / 365.25) - 0.03 : 0;
    const massG = told.massG * size * (1 + season) * (1 + 0.008 * Math.sin(days * told.number));
    await keep(MEASUREMENT, days, {
      id: id(),
      animalId: demoId(told.number),
      at: isoOf(story, days, 16),
      massG: rounded(massG),
      sclMm: Math.round(told.sclMm * size ** (1 / 2.6)),
      kind: 'routine',
    });
  }
}

const rounded = (massG: number): number => (massG < 200 ? Math.round(massG * 10) / 10 : Math.round(massG));

/** Wind-down, the going down itself, and the weeks asleep. */
async function tellSleep(keep: Keep, story: Story, told: DemoAnimal, id: () => string): Promise<void> {
  const animalId = demoId(told.number);
  const { from, nights } = told.sleepDays!;
  const box = DEMO_BOXES[told.box!];
  const wake = from + nights;
  const diary = (days: number, kind: 'bath' | 'gut-cleared' | 'lid-opened' | 'woken' | 'fed', note?: string) =>
    keep(DIARY, days, {
      id: id(),
      animalId,
      at: isoOf(story, days, 18),
      kind,
      ...(note === undefined ? {} : { note }),
    });
  const weigh = (days: number, share: number, kind: 'start' | 'asleep' | 'after-waking') =>
    keep(MEASUREMENT, days, {
      id: id(),
      animalId,
      at: isoOf(story, days, 8),
      massG: rounded(told.massG * share),
      kind,
    });

  for (const before of [24, 21, 18, 15, 12, 9, 6, 5, 4, 3, 2]) await diary(from - before, 'bath');
  await diary(from - 4, 'gut-cleared', 'Nothing passed in the last three baths.');
  await weigh(from - 1, 0.972, 'start');
  const entered = instantOf(story, from, 20) <= story.nowMs;
  if (entered) {
    const ended = instantOf(story, wake, 20) <= story.nowMs;
    await keep(STAY, from, {
      id: id(),
      animalId,
      boxId: box.id,
      placeId: box.placeId!,
      fromDay: dayOf(story, from),
      ...(ended ? { toDay: dayOf(story, wake) } : {}),
    });
  }
  for (let night = 7; night < nights; night += 7) {
    await diary(from + night, 'lid-opened');
    // About one per cent a month, nearly all of it water.
    await weigh(from + night, 0.972 * (1 - 0.00036 * night - 0.0006 * Math.sin(night)), 'asleep');
  }
  await diary(wake, 'woken', 'Blinking within the hour.');
  await weigh(wake, 0.972 * (1 - 0.00036 * nights), 'after-waking');
  await diary(wake + 1, 'bath', 'Drank for two minutes.');
  await diary(wake + 2, 'fed');
}

/** The plan, made when the story says, and its tasks done until yesterday. */
async function plan(database: Database, story: Story, told: DemoAnimal): Promise<void> {
  if (!told.wish) return;
  const atMs = instantOf(story, PLAN_DAYS, 19);
  const kept = await planWinter(
    database,
    scopeAt(story, atMs),
    story.group,
    {
      id: demoId(told.number * 1000 + 900),
      animalId: demoId(told.number),
      reason: 'First plan',
      request: {
        species: told.species,
        sclMm: told.sclMm,
        latitudeDeg: story.group.latitudeDeg,
        wish: told.wish,
        ...(told.sleepDays ? { sleepDay: dayOf(story, told.sleepDays.from), sleepDays: told.sleepDays.nights } : {}),
        ...(told.method ? { method: told.method } : {}),
      },
    },
    dayOf(story, PLAN_DAYS),
  );
  await database.kysely.transaction().execute(async (transaction) => {
    let next = told.number * 1000 + 901;
    for (const task of kept.plan.tasks) {
      // What is due until yesterday was done on its day; what may still be done in time is left for today's round.
      if (task.day >= story.today || (task.untilDay ?? task.day) >= story.today) continue;
      const doneMs = instantInZone(task.day, story.group.zone, 19);
      await makeIn(transaction, scopeAt(story, doneMs), TASK_DONE, {
        id: demoId(next++),
        taskKey: task.key,
        animalId: demoId(told.number),
        day: task.day,
        at: new Date(doneMs).toISOString(),
        outcome: 'done',
      });
    }
  });
}

/** Invented temperatures up to the present, and the invented weather round it: what is there already is not told twice. */
async function tellTemperatures(database: Database, story: Story): Promise<void> {
  const { group, nowMs } = story;
  const outdoors = demoWeather(group, dayOf(story, FIRST_READING_DAYS - 20), 210);
  const fromMs = instantOf(story, FIRST_READING_DAYS, 0);
  const newest = await newestReadings(
    database,
    DEMO_PROBES.map((probe) => demoId(probe.number)),
  );
  for (const probe of DEMO_PROBES) {
    const probeId = demoId(probe.number);
    const last = newest.get(probeId);
    const readings = demoReadings(outdoors, probe, fromMs, nowMs, READING_STEP_MS)
      .filter((reading) => last === undefined || reading.atMs > Date.parse(last.at))
      .map((reading) => ({
        probeId,
        at: new Date(reading.atMs).toISOString(),
        tempC: reading.tempC,
        quality: 'good' as const,
        source: 'demonstration' as const,
      }));
    if (readings.length > 0) await appendReadings(database, scopeAt(story, nowMs), readings);
    await keepBatteries(database, group.id, demoBattery(demoId(probe.number), fromMs, nowMs));
  }
  await keepWeather(database, group.id, demoHours(outdoors, nowMs - WEATHER_DAYS * DAY_MS, nowMs), 'demonstration');
  if (nowMs < outdoors.startMs + 180 * DAY_MS) await keepForecast(database, group.id, demoForecast(outdoors, nowMs));
}

/** Invented levels of a battery: full at first, a per cent less every fourth day. */
function demoBattery(probeId: string, fromMs: number, nowMs: number): SaidBattery[] {
  return Array.from({ length: Math.max(0, Math.floor((nowMs - fromMs) / DAY_MS)) }, (_, day) => ({
    probeId,
    atMs: fromMs + day * DAY_MS,
    percent: 100 - Math.floor(day / 4),
  }));
}
