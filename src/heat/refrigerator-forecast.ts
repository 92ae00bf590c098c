/** The fridge method beside the other builds: a box on a refrigerator's shelf through the days of a sleep. */
import { addDays, type Day } from '../measure/day.ts';
import type { Message } from '../wording/say.ts';
import {
  type AnswerOverWinters,
  answerOverWinters,
  answerWinter,
  type Band,
  usualBand,
  type WinterAnswer,
} from './answer.ts';
import { buildBox } from './box.ts';
import type { BoxDescription, RefrigeratorPlace } from './description.ts';
import { SLEEPING_HEAT_W_PER_KG } from './forecast.ts';
import { kitchenCourse, warmestStretch } from './kitchen.ts';
import {
  CUT_DAYS,
  hoursAfterPowerCut,
  type PowerCutAnswer,
  refrigeratorAnswer,
  type ShelvedBox,
} from './refrigerator.ts';

export interface RefrigeratorForecast {
  readonly stepS: number;
  /** From the first midnight of the sleep on. */
  readonly animalC: Float64Array;
  readonly probeC: Float64Array;
  readonly shelfAirC: Float64Array;
  /** One stretch, for the kitchen has the same year every year. */
  readonly winter: WinterAnswer;
  readonly answer: AnswerOverWinters;
  /** From the settled temperature, door shut, on the sleep's warmest day. */
  readonly powerCut: PowerCutAnswer;
  /** Share of the time the compressor runs. */
  readonly duty: number;
  /** Upper less lower shelf, mean, K. */
  readonly shelfDifferenceK: number;
  readonly notes: readonly Message[];
}

const HOUR_S = 3600;
const DAY_S = 24 * HOUR_S;
/** A compressor runs for minutes: hourly samples would miss its swing. */
const STEP_S = 600;
/** Days run before the sleep, so that box and bottles have settled. */
const LEAD_DAYS = 4;
/** Doors are opened between seven in the morning and ten at night. */
const [WAKING_FROM_H, WAKING_TO_H] = [7, 22];

function shelved(box: BoxDescription): { shelf: ShelvedBox; probeNode: number } {
  // A shelf is a grid: air passes beneath the box.
  const model = buildBox({ ...box, stands: 'raised' });
  const heatW = new Float64Array(model.network.inputs.length);
  heatW[model.inputs.heat] = ((box.animal?.massG ?? 0) / 1000) * SLEEPING_HEAT_W_PER_KG;
  return {
    shelf: { network: model.network, animalNode: model.nodes.animal, heatW },
    probeNode: model.nodes.probe - model.nodes.animal,
  };
}

/**
 * A box in a refrigerator for `days` of sleep, its doors opened evenly through the waking hours. `label` names the one stretch, `startMs`
 * its first midnight, `firstDay` and the latitude where in the kitchen's year it lies. Throws RangeError for values no refrigerator can have.
 */
export function forecastRefrigerator(
  place: RefrigeratorPlace,
  box: BoxDescription,
  sleep: {
    readonly label: string;
    readonly startMs: number;
    readonly firstDay: Day;
    readonly days: number;
    readonly latitudeDeg: number;
  },
  band: Band = usualBand,
): RefrigeratorForecast {
  const { refrigerator, doorsPerDay } = place;
  const { shelf, probeNode } = shelved(box);
  const days = LEAD_DAYS + sleep.days;
  const { latitudeDeg } = sleep;
  const room = kitchenCourse(place, { firstDay: addDays(sleep.firstDay, -LEAD_DAYS), days, latitudeDeg });
  const gapH = (WAKING_TO_H - WAKING_FROM_H) / Math.max(doorsPerDay, 1);
  const doorsAtS: number[] = [];
  for (let day = 0; day < days; day++)
    for (let k = 0; k < doorsPerDay; k++) doorsAtS.push(day * DAY_S + (WAKING_FROM_H + (k + 0.5) * gapH) * HOUR_S);
  const found = refrigeratorAnswer(
    refrigerator,
    {
      room,
      spanS: days * DAY_S,
      startC: (refrigerator.onAtC + refrigerator.offAtC) / 2,
      doorsAtS,
      sampleS: STEP_S,
    },
    shelf,
  );
  const from = (LEAD_DAYS * DAY_S) / STEP_S;
  const course = (node: number) => found.run.sampledC[node]!.subarray(from);
  const animalC = course(found.nodes.animal);
  const winter = answerWinter(sleep.label, { startMs: sleep.startMs, stepS: STEP_S, tempC: animalC }, band);
  return {
    stepS: STEP_S,
    animalC,
    probeC: course(found.nodes.animal + probeNode),
    shelfAirC: course(refrigerator.shelf === 'upper' ? found.nodes.upperAir : found.nodes.lowerAir),
    winter,
    answer: answerOverWinters([winter]),
    powerCut: hoursAfterPowerCut(refrigerator, warmestStretch(room, LEAD_DAYS, CUT_DAYS), found.settled.meanC, shelf),
    duty: found.settled.duty,
    shelfDifferenceK: found.shelfDifferenceK,
    notes: found.notes,
  };
}
