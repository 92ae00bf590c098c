import { type Day, daysBetween } from '../measure/day.ts';
import { dayInWords } from '../measure/day-words.ts';
import { figure, length, mass, percent, temperature } from '../measure/figures.ts';
import { dayInZone } from '../measure/zone.ts';
import type { Leaving } from '../schema/animal.ts';
import type { Examination } from '../schema/examination.ts';
import type { Measurement } from '../schema/measurement.ts';
import type { Notice } from '../schema/notice.ts';
import { EXAMINATION_PARTS } from '../tortoise/examination.ts';
import type { Assessment, Gate } from '../tortoise/types.ts';
import { type MessageKey, say } from '../wording/say.ts';
import type { AnimalRecords, StayReadings } from './animal-records.ts';
import { ageInWords, speciesInWords, startMeasurement } from './animal-words.ts';
import { nightsOf, plainDay } from './days.ts';
import type { Portrait } from './portrait.ts';

const HOUR_MS = 3_600_000;

/** One animal's history for the vet, every value in words; lists newest first, cut to the page by whoever draws it. */
export interface VetView {
  readonly animalName: string;
  readonly species: string;
  readonly onDay: string;
  readonly groupName: string;
  readonly identity: readonly (readonly [label: string, value: string])[];
  readonly verdict: string;
  readonly openGates: readonly string[];
  readonly passedGates?: string;
  readonly condition?: string;
  /** Day, occasion, mass, change against the weighing before, straight carapace length. */
  readonly weights: readonly (readonly string[])[];
  readonly winter: readonly string[];
  readonly temperatures: readonly string[];
  readonly notices: readonly string[];
  readonly examinations: readonly string[];
  readonly health: readonly string[];
  readonly diary: readonly string[];
  readonly portrait?: Portrait;
  readonly madeAtMs: number;
}

export function vetView(
  records: AnimalRecords,
  assessment: Assessment | undefined,
  readings: readonly StayReadings[],
  nowMs: number,
  portrait?: Portrait,
): VetView {
  const { animal, group, today } = records;
  const dayOf = (at: string): Day => dayInZone(Date.parse(at), group.zone);
  const latestFirst = <T>(things: readonly T[], at: (thing: T) => string): T[] =>
    [...things].sort((a, b) => (at(a) < at(b) ? 1 : -1));
  const passed = (assessment?.gates ?? []).filter((gate) => gate.state === 'passes');
  return {
    animalName: animal.name,
    species: speciesInWords(animal.species),
    onDay: dayInWords(today),
    groupName: group.name,
    identity: identityOf(records),
    verdict: assessment
      ? say('papers.vet.verdict', { verdict: say(`tortoise.verdict.${assessment.verdict}`) })
      : animal.leftOn && animal.leftHow
        ? leftInWords(animal.leftHow, animal.leftOn)
        : say('papers.vet.noVerdict'),
    openGates: gravestFirst(assessment?.gates ?? []).map((gate) =>
      say('papers.vet.gate', {
        name: say(`tortoise.gate.name.${gate.name}`),
        state: say(`tortoise.gate.state.${gate.state}`),
        reason: say(gate.reason),
      }),
    ),
    ...(passed.length > 0
      ? {
          passedGates: say('papers.vet.passed', {
            gates: passed.map((gate) => say(`tortoise.gate.name.${gate.name}`).toLowerCase()).join(', '),
          }),
        }
      : {}),
    ...(assessment
      ? {
          condition: say('papers.vet.condition', {
            reason: say(assessment.condition.reason),
            ratio: figure(assessment.condition.jacksonRatio, 3),
          }),
        }
      : {}),
    weights: weightsOf(records, dayOf),
    winter: winterOf(records),
    temperatures: readings.flatMap((one) => temperaturesOf(records, one)).reverse(),
    notices: latestFirst(records.notices, (notice) => notice.fromAt)
      .sort((a, b) => LEVELS.indexOf(a.level) - LEVELS.indexOf(b.level))
      .map((notice) => noticeInWords(notice, dayOf)),
    examinations: latestFirst(records.examinations, (one) => one.at).map((one) =>
      examinationInWords(one, dayOf(one.at)),
    ),
    health: latestFirst(records.healthEvents, (event) => event.fromDay).map((event) =>
      say('papers.vet.event', {
        days:
          event.toDay && event.toDay !== event.fromDay
            ? say('papers.until', { from: plainDay(event.fromDay), to: plainDay(event.toDay) })
            : plainDay(event.fromDay),
        kind: say(`papers.health.${event.kind}`),
        note: noteOf(event.note),
      }),
    ),
    diary: latestFirst(
      records.diary.filter((entry) => WORTH_TELLING.has(entry.kind)),
      (entry) => entry.at,
    ).map((entry) =>
      say('papers.vet.event', {
        days: plainDay(dayOf(entry.at)),
        kind: say(`papers.diaryKind.${entry.kind}` as MessageKey),
        note: noteOf(entry.note),
      }),
    ),
    ...(portrait ? { portrait } : {}),
    madeAtMs: nowMs,
  };
}

/** Entries of the diary that a vet would ask about. */
const WORTH_TELLING: ReadonlySet<string> = new Set([
  'urine',
  'no-touch-response',
  'awake-signs',
  'refused-food',
  'went-down',
  'woken',
  'fed',
  'drank',
]);
const LEVELS = ['act-now', 'look-today', 'for-the-record'];
const STATES = ['fails', 'borderline', 'not-yet-known'];

const gravestFirst = (gates: readonly Gate[]): Gate[] =>
  gates.filter((gate) => gate.state !== 'passes').sort((a, b) => STATES.indexOf(a.state) - STATES.indexOf(b.state));

const leftInWords = (how: Leaving, day: Day): string => say(`papers.vet.left.${how}`, { day: plainDay(day) });

const noteOf = (note: string | undefined): string => (note ? `: ${note.replace(/\s+/g, ' ').trim()}` : '');

function identityOf({ animal, today, keeper, group }: AnimalRecords): [string, string][] {
  const known = (label: MessageKey, value: string | undefined): [string, string][] =>
    value ? [[say(label), value]] : [];
  return [
    [say('papers.vet.sex'), say(`papers.sex.${animal.sex}`)],
    [say('papers.vet.age'), ageInWords(animal, animal.leftOn ?? today)],
    ...known('papers.vet.microchip', animal.microchip),
    ...known('papers.vet.legalPaper', animal.legalPaper),
    ...known('papers.vet.acquired', animal.acquiredOn && plainDay(animal.acquiredOn)),
    ...known('papers.vet.winters', animal.wintersSlept === undefined ? undefined : String(animal.wintersSlept)),
    ...known('papers.vet.keeper', keeper),
    [say('papers.vet.group'), group.name],
    ...known('papers.vet.marks', animal.marks?.replace(/\s+/g, ' ')),
  ];
}

function weightsOf({ measurements, group }: AnimalRecords, dayOf: (at: string) => Day): string[][] {
  let before: number | undefined;
  const rows = measurements.map((one: Measurement) => {
    const { massG, sclMm } = one;
    const change = massG === undefined || before === undefined ? '' : changeInWords(massG - before, before);
    before = massG ?? before;
    return [
      plainDay(dayOf(one.at)),
      say(`papers.weighing.${one.kind}`),
      massG === undefined ? '' : mass(massG, group.massUnit),
      change,
      sclMm === undefined ? '' : length(sclMm, group.lengthUnit),
      one.note?.replace(/\s+/g, ' ') ?? '',
    ];
  });
  return rows.reverse();
}

function changeInWords(changeG: number, beforeG: number): string {
  const sign = changeG > 0 ? '+' : '';
  return `${sign}${percent(changeG / beforeG, 1)}`;
}

function winterOf(records: AnimalRecords): string[] {
  const { plan: kept, today, group, animal } = records;
  if (!kept) return [say('papers.vet.noPlan')];
  const { plan } = kept;
  const lines: string[] = [];
  const stage = animal.leftOn === undefined && plan.stages.find((one) => one.fromDay <= today && today <= one.toDay);
  if (plan.sleepDay && plan.wakeDay)
    lines.push(
      say('papers.vet.sleep', {
        winter: plan.winter,
        sleep: plainDay(plan.sleepDay),
        wake: plainDay(plan.wakeDay),
        nights: daysBetween(plan.sleepDay, plan.wakeDay),
        revision: kept.revision,
      }),
    );
  else
    lines.push(
      say('papers.vet.awake', { winter: plan.winter, from: plainDay(plan.fromDay), to: plainDay(plan.toDay) }),
    );
  if (stage)
    lines.push(
      say('papers.vet.stage', {
        stage: say(`papers.stage.${stage.name}`),
        day: nightsOf(stage.fromDay, today),
        of: nightsOf(stage.fromDay, stage.toDay),
      }),
    );
  const start = startMeasurement(records);
  const last = records.measurements.findLast((one) => one.massG !== undefined);
  if (start && last && last.at > start.at)
    lines.push(
      say('papers.vet.sinceStart', {
        change: mass(last.massG! - start.massG, group.massUnit),
        share: percent((last.massG! - start.massG) / start.massG, 1),
        start: mass(start.massG, group.massUnit),
      }),
    );
  return lines;
}

function temperaturesOf(records: AnimalRecords, { stayId, chart }: StayReadings): string[] {
  const { stays, boxes, places, group } = records;
  const stay = stays.find((one) => one.id === stayId);
  if (!stay) return [];
  const where = [boxes.find((one) => one.id === stay.boxId)?.name, places.find((one) => one.id === stay.placeId)?.name]
    .filter(Boolean)
    .join(', ');
  const days = stay.toDay
    ? say('papers.until', { from: plainDay(stay.fromDay), to: plainDay(stay.toDay) })
    : say('papers.since', { from: plainDay(stay.fromDay) });
  const spans = chart?.maxMin ?? [];
  if (!chart || (chart.count === 0 && spans.length === 0)) return [say('papers.vet.noReadings', { where, days })];
  const coldest = lowest(
    [
      ...chart.minC.map((tempC, i) => ({ tempC, at: chart.atMs[i]! })),
      ...spans.map((span) => ({ tempC: span.minC, at: Date.parse(span.toAt) })),
    ],
    1,
  );
  const warmest = lowest(
    [
      ...chart.maxC.map((tempC, i) => ({ tempC, at: chart.atMs[i]! })),
      ...spans.map((span) => ({ tempC: span.maxC, at: Date.parse(span.toAt) })),
    ],
    -1,
  );
  const unit = group.temperatureUnit;
  const told = ({ tempC, at }: { tempC: number; at: number }) => ({
    temp: temperature(tempC, unit),
    day: plainDay(dayInZone(at, group.zone)),
  });
  const [cold, warm] = [told(coldest), told(warmest)];
  const line = say('papers.vet.range', {
    where,
    days,
    coldest: cold.temp,
    coldDay: cold.day,
    warmest: warm.temp,
    warmDay: warm.day,
  });
  if (chart.count === 0) return [`${line} ${say('papers.vet.byHand', { count: spans.length })}`];
  const inBand = chart.minC.filter((tempC, i) => tempC >= 3 && chart.maxC[i]! <= 8).length;
  const hours = chart.bucketMs / HOUR_MS;
  return [
    `${line} ${say('papers.vet.steadiness', {
      share: percent(inBand / chart.meanC.length, 1),
      low: temperature(3, unit, 0),
      high: temperature(8, unit, 0),
      hours: figure(chart.meanC.length * hours),
    })}`,
  ];
}

/** The lowest (sign 1) or highest (sign −1) of some temperatures. */
function lowest(found: readonly { tempC: number; at: number }[], sign: 1 | -1): { tempC: number; at: number } {
  return found.reduce((best, one) => (one.tempC * sign < best.tempC * sign ? one : best));
}

function noticeInWords(notice: Notice, dayOf: (at: string) => Day): string {
  const from = plainDay(dayOf(notice.fromAt));
  const cleared = notice.clearedAt && plainDay(dayOf(notice.clearedAt));
  return say('papers.vet.notice', {
    level: say(`papers.level.${notice.level}`),
    days: cleared
      ? cleared === from
        ? from
        : say('papers.until', { from, to: cleared })
      : say('papers.since', { from }),
    text: sentence(notice.message),
  });
}

/** A notice kept by a newer version may be one this version has no words for. */
function sentence(kept: Notice['message']): string {
  try {
    return say(kept.key as MessageKey, kept.values);
  } catch {
    return say('papers.vet.noWords');
  }
}

function examinationInWords(one: Examination, day: Day): string {
  const looked = EXAMINATION_PARTS.filter((part) => one.findings[part] !== undefined);
  const codes = (part: (typeof EXAMINATION_PARTS)[number]) => [one.findings[part]].flat();
  const odd = looked.flatMap((part) =>
    codes(part)
      .filter((code) => code !== 'clear')
      .map((code) => say(`tortoise.examination.${part}.${code}` as MessageKey)),
  );
  const clear = looked.filter((part) => codes(part).every((code) => code === 'clear'));
  const names = clear.map((part) => say(`tortoise.gate.name.${part}`).toLowerCase()).join(', ');
  return [
    say('papers.vet.examination', { day: plainDay(day), moment: say(`papers.moment.${one.moment}`) }),
    ...odd,
    clear.length === EXAMINATION_PARTS.length
      ? say('papers.vet.allClear')
      : clear.length > 0
        ? say('papers.vet.clear', { parts: names })
        : '',
    one.vet?.seen ? say('papers.vet.byVet', { name: one.vet.name ?? '' }).trim() : '',
    one.note?.replace(/\s+/g, ' ') ?? '',
  ]
    .filter(Boolean)
    .join(' ');
}
