import { firstPassing, outlookOf } from '../heat/box-outlook.ts';
import type { Day } from '../measure/day.ts';
import { dayInZone } from '../measure/zone.ts';
import type { Animal } from '../schema/animal.ts';
import type { Group } from '../schema/group.ts';
import type { KeptPlan } from '../schema/kept-plan.ts';
import type { Measurement } from '../schema/measurement.ts';
import type { Probe } from '../schema/reading.ts';
import type { Round } from '../schema/round.ts';
import type { Stay } from '../schema/stay.ts';
import type { TaskDone } from '../schema/task.ts';
import { outlookLimits } from '../winter/outlook-limits.ts';
import type { WinterPlan } from '../winter/plan-types.ts';
import { dueTasks } from '../winter/tasks.ts';
import { type BoxForecast, courseOf, freshBoxForecasts } from './box-forecasts.ts';
import type { Database } from './database.ts';
import { list, type Scope } from './entries.ts';
import { ANIMAL, BOX, MEASUREMENT, PLACE, PROBE, STAY, TASK_DONE } from './kinds.ts';
import { ruleSettingsOf } from './limits.ts';
import { listNotices } from './notices.ts';
import { plansInForce } from './plans.ts';
import { newestReadings } from './readings.ts';

type Line = Round['parts'][number]['lines'][number];
type StayLine = Round['parts'][number]['stays'][number];

/**
 * What is to be done on `day`, place by place: the tasks of every plan in force that are due, late, or were done on it, the animals
 * asleep with their newest figures, and the notices that have not cleared.
 */
export async function roundOf(database: Database, scope: Scope, group: Group, day: Day): Promise<Round> {
  const animals = new Map(
    (await list(database, scope, ANIMAL))
      .filter((animal) => animal.leftOn === undefined || day < animal.leftOn)
      .map((animal) => [animal.id, animal]),
  );
  const stays = (await list(database, scope, STAY)).filter(
    (stay) => stay.fromDay <= day && (stay.toDay === undefined || stay.toDay > day),
  );
  const plans = await plansInForce(database, [...animals.keys()], day);
  const done = await list(database, scope, TASK_DONE);
  const places = await list(database, scope, PLACE);
  const parts = new Map<string | undefined, { stays: StayLine[]; lines: Line[] }>();
  const part = (placeId: string | undefined) => {
    const found = parts.get(placeId) ?? { stays: [], lines: [] };
    parts.set(placeId, found);
    return found;
  };
  // What is expected is told on the day it is about: a look at another day shows what is planned there.
  const forecasts =
    day === dayInZone(scope.nowMs, group.zone)
      ? await freshBoxForecasts(database, scope.groupId, scope.nowMs)
      : new Map<string, BoxForecast>();
  for (const line of await stayLines(database, scope, stays, animals)) {
    const stay = stays.find((one) => one.id === line.stayId)!;
    const breach = await breachOf(database, scope.groupId, stay.id, forecasts.get(stay.id));
    part(stay.placeId).stays.push({ ...line, ...(breach ? { breach } : {}) });
  }
  for (const plan of plans) {
    const animal = animals.get(plan.animalId)!;
    const place = stays.find((stay) => stay.animalId === animal.id)?.placeId;
    const lines = linesOf(plan, animal, day, group.zone, done);
    if (lines.length > 0) part(place).lines.push(...lines);
  }
  const known = places.filter((place) => parts.has(place.id));
  return {
    day,
    parts: [
      ...known.map((place) => ({ placeId: place.id, placeName: place.name, ...part(place.id) })),
      ...(parts.has(undefined) ? [part(undefined)] : []),
    ],
    notices: await listNotices(database, scope, true),
  };
}

/** The first limit of a stay that its box is expected to pass; what is only possible is left to the animal's own page. */
async function breachOf(
  database: Database,
  groupId: string,
  stayId: string,
  forecast: BoxForecast | undefined,
): Promise<StayLine['breach']> {
  if (!forecast) return undefined;
  const limits = outlookLimits(await ruleSettingsOf(database, groupId, stayId));
  const passed = firstPassing(outlookOf(courseOf(forecast), limits));
  if (!passed?.likely) return undefined;
  const { side, likely, limitC, atMs } = passed;
  return { side, likely, limitC, at: new Date(atMs).toISOString() };
}

/** What one animal's plan asks for on the day, as lines of the round. */
function linesOf(kept: KeptPlan, animal: Animal, day: Day, zone: string, done: readonly TaskDone[]): Line[] {
  const ticks = done
    .filter((one) => one.animalId === animal.id)
    .map((one) => ({ taskKey: one.taskKey, day: one.day, doneOn: dayInZone(Date.parse(one.at), zone), entry: one }));
  return dueTasks(kept.plan as unknown as WinterPlan, day, ticks).map(
    ({ task, overdueDays, done: tick }): Line => ({
      animalId: animal.id,
      animalName: animal.name,
      planId: kept.id,
      taskKey: task.key,
      kind: task.kind,
      day: task.day,
      ...(task.untilDay === undefined ? {} : { untilDay: task.untilDay }),
      say: task.say as Line['say'],
      ...(task.why === undefined ? {} : { why: task.why as Line['say'] }),
      source: task.source as Line['source'],
      late: overdueDays > 0,
      ...(tick ? { done: tick.entry } : {}),
    }),
  );
}

async function stayLines(
  database: Database,
  scope: Scope,
  stays: readonly Stay[],
  animals: ReadonlyMap<string, Animal>,
): Promise<StayLine[]> {
  const boxes = new Map((await list(database, scope, BOX)).map((box) => [box.id, box]));
  const probes: Probe[] = await list(database, scope, PROBE);
  const measurements: Measurement[] = await list(database, scope, MEASUREMENT);
  const newest = await newestReadings(
    database,
    probes.map((probe) => probe.id),
  );
  return stays.flatMap((stay): StayLine[] => {
    const [animal, box] = [animals.get(stay.animalId), boxes.get(stay.boxId)];
    if (!animal || !box) return [];
    const probe = probes.find((one) => one.boxId === box.id);
    const reading = probe && newest.get(probe.id);
    const weighed = measurements.filter((one) => one.animalId === animal.id && one.massG !== undefined);
    const start = weighed.findLast((one) => one.kind === 'start');
    const last = weighed.at(-1);
    return [
      {
        stayId: stay.id,
        animalId: animal.id,
        animalName: animal.name,
        boxId: box.id,
        boxName: box.name,
        fromDay: stay.fromDay,
        ...(probe ? { probeId: probe.id } : {}),
        ...(reading ? { lastReading: { at: reading.at, tempC: reading.tempC } } : {}),
        ...(start?.massG === undefined ? {} : { startMassG: start.massG }),
        ...(last?.massG === undefined ? {} : { lastMassG: last.massG, lastMassAt: last.at }),
      },
    ];
  });
}
