import { answerOverWinters, type Beyond, isWhole, type WinterAnswer } from '../heat/answer.ts';
import type { RefrigeratorPlace } from '../heat/description.ts';
import { type BoxFigures, forecastBox, forecastPlace } from '../heat/forecast.ts';
import { prepareWinters } from '../heat/place-weather.ts';
import { forecastRefrigerator, type RefrigeratorForecast } from '../heat/refrigerator-forecast.ts';
import { addDays, daysBetween } from '../measure/day.ts';
import { figure, percent, temperature } from '../measure/figures.ts';
import { instantInZone } from '../measure/zone.ts';
import { problemsOf } from '../schema/problems.ts';
import { type SimulateBoxes, simulateBoxesSchema } from '../schema/simulate-boxes.ts';
import { cutWinters } from '../weather/winters.ts';
import { say } from '../wording/say.ts';
import { readJson } from './input.ts';
import { table, wrap } from './layout.ts';
import { type Outcome, Refusal } from './outcome.ts';
import { type WeatherRecord, weatherRecord } from './weather-record.ts';

/** Days run before the first night, so that walls and ballast are in step with the weather. */
const LEAD_DAYS = 30;

interface Combination {
  readonly place: string;
  readonly box: string;
  /** Each winter by itself; one stretch for a refrigerator, which no winter reaches. */
  readonly winters: readonly WinterAnswer[];
  readonly figures?: BoxFigures;
  readonly refrigerator?: RefrigeratorForecast;
  readonly whole: readonly WinterAnswer[];
}

/** `stillwinter simulate FILE|-`: each box in each place through the winters of a weather record. */
export async function simulateCommand(file: string): Promise<Outcome> {
  const parsed = simulateBoxesSchema.safeParse(await readJson(file));
  if (!parsed.success) throw new Refusal(say('cli.simulate.refused'), problemsOf(parsed.error));
  const input = parsed.data;
  const record = await weatherRecord(input, file);
  const { combinations, notes } = runThrough(input, record);
  return { json: jsonOf(combinations, notes), text: textOf(input, combinations, notes), code: 0 };
}

function runThrough(input: SimulateBoxes, record: WeatherRecord): { combinations: Combination[]; notes: string[] } {
  const { site, band } = input;
  // Any year: only the places in the calendar count. A day more, so that the last midnight is there too.
  const first = `2023-${input.from}`;
  const days = daysBetween(first, input.to >= input.from ? `2023-${input.to}` : `2024-${input.to}`) + 1;
  const lead = addDays(first, -LEAD_DAYS).slice(5);
  const winters = cutWinters(record.series, site.zone, { from: lead, days: LEAD_DAYS + days + 1 });
  if (winters.length === 0)
    throw new Refusal(say('cli.simulate.refused'), [{ where: 'weather', what: say('cli.simulate.noWinter') }]);
  const prepared = prepareWinters(site, winters, record.normals ? { normals: record.normals } : {});
  const combinations = input.places.flatMap((place): Combination[] => {
    const { description } = place;
    if (description.kind === 'refrigerator') return inRefrigerator(input, place.name, description, first, days);
    const around = forecastPlace(description, prepared);
    return input.boxes.map((box): Combination => {
      const forecast = forecastBox({
        place: around,
        box: box.description,
        sleep: { from: input.from, days },
        ...(band ? { band } : {}),
      });
      const known = forecast.winters.map((winter) => winter.answer);
      return {
        place: place.name,
        box: box.name,
        winters: known,
        figures: forecast.box,
        whole: known.filter(isWhole),
      };
    });
  });
  const notes = record.gaps.map(({ fromDay, toDay }) => say('cli.simulate.gap', { fromDay, toDay }));
  if (prepared.cloudAssumed) notes.push(say('cli.simulate.cloudAssumed'));
  if (prepared.groundAssumed) notes.push(say('cli.simulate.groundAssumed'));
  if (record.kind === 'daily') notes.push(say('cli.simulate.fromDays'));
  return { combinations, notes };
}

function inRefrigerator(
  input: SimulateBoxes,
  place: string,
  description: RefrigeratorPlace,
  first: string,
  days: number,
): Combination[] {
  const label = say('cli.simulate.everyWinter');
  const startMs = instantInZone(first, input.site.zone);
  const { latitudeDeg } = input.site;
  return input.boxes.map((box) => {
    const found = forecastRefrigerator(
      description,
      box.description,
      { label, startMs, firstDay: first, days, latitudeDeg },
      input.band,
    );
    return { place, box: box.name, winters: [found.winter], refrigerator: found, whole: [found.winter] };
  });
}

const instant = (atMs: number): string => new Date(atMs).toISOString().replace('.000Z', 'Z');

function beyondJson({ limitC, hours, longestRunH, longestRunFromMs }: Beyond) {
  return {
    limitC,
    hours,
    longestRunH,
    ...(longestRunFromMs === undefined ? {} : { longestRunFrom: instant(longestRunFromMs) }),
  };
}

function winterJson({ fromMs, coldestAtMs, warmestAtMs, under, over, ...rest }: WinterAnswer) {
  return {
    ...rest,
    from: instant(fromMs),
    coldestAt: instant(coldestAtMs),
    warmestAt: instant(warmestAtMs),
    under: under.map(beyondJson),
    over: over.map(beyondJson),
  };
}

const refrigeratorJson = ({ powerCut, duty, shelfDifferenceK, notes }: RefrigeratorForecast) => ({
  hoursTo8AfterPowerCut: powerCut.hoursTo8 ?? null,
  hoursTo10AfterPowerCut: powerCut.hoursTo10 ?? null,
  compressorRunsShare: duty,
  upperLessLowerShelfK: shelfDifferenceK,
  notes: notes.map((note) => say(note)),
});

/** What is to be known of a refrigerator beyond its figures. */
function refrigeratorLines({ place, box, refrigerator }: Combination): string[] {
  if (!refrigerator) return [];
  const { powerCut, duty, notes } = refrigerator;
  const hours = (value: number | undefined) =>
    value === undefined ? say('cli.simulate.cutNever') : say('cli.simulate.cutHours', { hours: figure(value, 1) });
  const first = say('cli.simulate.refrigerator', {
    place,
    box,
    duty: percent(duty),
    to8: hours(powerCut.hoursTo8),
    to10: hours(powerCut.hoursTo10),
  });
  return [first, ...notes.map((note) => say(note))];
}

function jsonOf(combinations: readonly Combination[], notes: readonly string[]) {
  return {
    results: combinations.map(({ place, box, winters, figures, refrigerator, whole }) => ({
      place,
      box,
      ...(figures ? { boxFigures: figures } : {}),
      ...(refrigerator ? { refrigerator: refrigeratorJson(refrigerator) } : {}),
      overWinters: whole.length > 0 ? answerOverWinters(whole) : null,
      winters: winters.map(winterJson),
    })),
    notes,
  };
}

const middleAndWorst = (middle: number, worst: number, digits = 0): string =>
  `${figure(middle, digits)} (${figure(worst, digits)})`;

/** Of all winters first, then winter by winter: one line each, the worst winter in brackets. */
function textOf(input: SimulateBoxes, combinations: readonly Combination[], notes: readonly string[]): string {
  const { band = { lowC: 3, highC: 8 } } = input;
  const inBand = say('cli.simulate.inBand', { low: figure(band.lowC), high: figure(band.highC) });
  const hoursTitle = (sign: string, limit: number) => `${sign} ${temperature(limit, 'C', 0)}`;
  const whole = Math.max(...combinations.map((one) => one.whole.length));
  const lines = [
    say('cli.simulate.title', { site: input.site.name ?? say('cli.simulate.here'), from: input.from, to: input.to }),
    '',
  ];
  if (whole === 0) lines.push(wrap(say('cli.simulate.noWhole')));
  else {
    const rows = combinations.map((each) => {
      if (each.whole.length === 0) return [each.place, each.box, ...Array.from({ length: 9 }, () => '-')];
      const over = answerOverWinters(each.whole);
      return [
        each.place,
        each.box,
        middleAndWorst(over.steadiness.median * 100, over.steadiness.low * 100),
        ...[...over.hoursUnder, ...over.hoursOver].map(({ hours }) => middleAndWorst(hours.median, hours.high)),
        middleAndWorst(over.coldestC.median, over.coldestC.low, 1),
        middleAndWorst(over.warmestC.median, over.warmestC.high, 1),
        middleAndWorst(over.meanDailySwingK.median, over.meanDailySwingK.high, 1),
      ];
    });
    const head = [
      say('cli.simulate.place'),
      say('cli.simulate.box'),
      inBand,
      hoursTitle('<', 3),
      hoursTitle('<', 2),
      hoursTitle('<', 0),
      hoursTitle('>', 8),
      hoursTitle('>', 10),
      say('cli.simulate.coldest'),
      say('cli.simulate.warmest'),
      say('cli.simulate.swing'),
    ];
    lines.push(wrap(say('cli.simulate.overTitle', { winters: whole })), '', table(head, rows, [0, 1]));
  }
  const each = combinations.flatMap(({ place, box, winters }) =>
    winters.map((answer) => [
      place,
      box,
      answer.winter,
      figure(100 * (1 - answer.unknownHours / answer.hours)),
      figure(answer.steadiness * 100),
      ...[...answer.under, ...answer.over].map((beyond) => figure(beyond.hours)),
      figure(answer.under.find((beyond) => beyond.limitC === 2)?.longestRunH ?? 0),
      figure(answer.coldestC, 1),
      figure(answer.warmestC, 1),
      figure(answer.meanDailySwingK, 1),
    ]),
  );
  const eachHead = [
    say('cli.simulate.place'),
    say('cli.simulate.box'),
    say('cli.simulate.winter'),
    say('cli.simulate.known'),
    inBand,
    ...[3, 2, 0].map((limit) => hoursTitle('<', limit)),
    ...[8, 10].map((limit) => hoursTitle('>', limit)),
    say('cli.simulate.longest2'),
    say('cli.simulate.coldest'),
    say('cli.simulate.warmest'),
    say('cli.simulate.swing'),
  ];
  lines.push('', say('cli.simulate.eachTitle'), '', table(eachHead, each, [0, 1, 2]));
  const cold = combinations.flatMap(refrigeratorLines);
  if (cold.length > 0) lines.push('', ...cold.map((line) => wrap(line)));
  lines.push('', ...notes.map((note) => wrap(note)), wrap(say('cli.simulate.caution')));
  return lines.join('\n');
}
