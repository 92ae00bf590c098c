import type { RuleId, WatchEntry, WatchSetup } from '../../src/winter/watch-types.ts';

/** Something that happens to a sleeping animal, what has to be said (or must not be), and on what ground. */
export interface NightCase {
  readonly tale: string;
  readonly ground: string;
  readonly entries: readonly WatchEntry[];
  /** The watch has run to here. */
  readonly nowMs: number;
  readonly setup?: Partial<WatchSetup>;
  /** Rules that must have spoken, in any order, and rules that must not. */
  readonly said: readonly RuleId[];
  readonly silent: readonly RuleId[];
}

const PRACTICE = 'common practice, no source';
const FREEZING = 'Costanzo and Claussen 1990; Packard et al. 2000: turtles freeze within 1 K under 0 °C';
const BAND =
  'BVA, BVZS and BSAVA 2016 (5 to 8 °C); Bundestierärztekammer (4 to 6 °C); a UK practice, In & Around 2022 (3 to 6 °C)';
const WARM = 'In & Around, September 2022: above 10 °C it starves; durations common practice';
const FORM = 'form of the rule after WHO PQS E006; figures common practice';
const TEN = 'Bundestierärztekammer; In & Around, September 2022: wake at 10 % of the starting mass';
const WEEKLY = 'In & Around, September 2022: weigh weekly; Bundestierärztekammer: open once or twice a week';

const MIN_MS = 60_000;
const HOUR_MS = 60 * MIN_MS;
const DAY_MS = 24 * HOUR_MS;
/** Readings every quarter of an hour from `fromH` up to `toH` hours after the putting down, at 5 °C where `tempC` says nothing. */
function hours(
  fromH: number,
  toH: number,
  tempC: (hour: number) => number | undefined = () => undefined,
): WatchEntry[] {
  return Array.from({ length: Math.round((toH - fromH) * 4) + 1 }, (_, i) => {
    const hour = fromH + i / 4;
    return { kind: 'reading', atMs: hour * HOUR_MS, tempC: tempC(hour) ?? 5 };
  });
}
/** 5 °C but `tempC` from `fromH` for `lastingH`. */
const spell = (tempC: number, lastingH: number, fromH = 48) =>
  hours(0, 96, (hour) => (hour >= fromH && hour < fromH + lastingH ? tempC : undefined));
const night = 96 * HOUR_MS;
const weighed = (day: number, massG: number): WatchEntry => ({ kind: 'weigh-in', atMs: day * DAY_MS, massG });
const seen = (day: number, diary: Extract<WatchEntry, { kind: 'diary' }>['diary']): WatchEntry => ({
  kind: 'diary',
  atMs: day * DAY_MS,
  diary,
});
/** A forecast made at hour 48 that leaves 5 °C for `tempC` from `fromH` on for `lastingH`. */
function forecast(tempC: number, fromH: number, lastingH: number): WatchEntry {
  const at = Array.from({ length: 121 }, (_, i) => 48 + i);
  return {
    kind: 'forecast',
    atMs: 48 * HOUR_MS,
    timesMs: at.map((hour) => hour * HOUR_MS),
    tempsC: at.map((hour) => (hour >= fromH && hour < fromH + lastingH ? tempC : 5)),
  };
}

export const NIGHT_CASES: readonly NightCase[] = [
  {
    tale: 'a steady week at 5 °C, looked at and weighed',
    ground: BAND,
    entries: [...hours(0, 168), seen(7, 'touch-response'), weighed(7, 997)],
    nowMs: 168 * HOUR_MS,
    said: [],
    silent: ['under-3', 'over-8', 'lid-closed', 'weigh-in-overdue', 'silence'],
  },
  {
    tale: 'one reading of 0.0 °C',
    ground: FREEZING,
    entries: spell(0, 0.25),
    nowMs: night,
    said: ['frost'],
    silent: ['under-2'],
  },
  {
    tale: 'one reading of 0.1 °C',
    ground: FREEZING,
    entries: spell(0.1, 0.25),
    nowMs: night,
    said: [],
    silent: ['frost', 'under-2'],
  },
  {
    tale: '1.9 °C for half an hour',
    ground: PRACTICE,
    entries: spell(1.9, 0.5),
    nowMs: night,
    said: ['under-2'],
    silent: ['frost', 'under-3'],
  },
  {
    tale: '1.9 °C for a quarter of an hour',
    ground: PRACTICE,
    entries: spell(1.9, 0.25),
    nowMs: night,
    said: [],
    silent: ['under-2'],
  },
  {
    tale: '2.0 °C for two hours',
    ground: PRACTICE,
    entries: spell(2, 2),
    nowMs: night,
    said: [],
    silent: ['under-2', 'under-3'],
  },
  {
    tale: '2.9 °C for four hours',
    ground: BAND,
    entries: spell(2.9, 4),
    nowMs: night,
    said: ['under-3'],
    silent: ['under-2'],
  },
  {
    tale: '2.9 °C for three and a half hours',
    ground: BAND,
    entries: spell(2.9, 3.5),
    nowMs: night,
    said: [],
    silent: ['under-3'],
  },
  { tale: '3.0 °C for a day', ground: BAND, entries: spell(3, 24), nowMs: night, said: [], silent: ['under-3'] },
  {
    tale: '8.1 °C for twelve hours',
    ground: BAND,
    entries: spell(8.1, 12),
    nowMs: night,
    said: ['over-8'],
    silent: ['over-10'],
  },
  {
    tale: '8.1 °C for eleven hours',
    ground: BAND,
    entries: spell(8.1, 11),
    nowMs: night,
    said: [],
    silent: ['over-8'],
  },
  { tale: '8.0 °C for a day', ground: BAND, entries: spell(8, 24), nowMs: night, said: [], silent: ['over-8'] },
  {
    tale: '10.1 °C for four hours',
    ground: WARM,
    entries: spell(10.1, 4),
    nowMs: night,
    said: ['over-10'],
    silent: ['over-8'],
  },
  {
    tale: '10.1 °C for three hours',
    ground: WARM,
    entries: spell(10.1, 3),
    nowMs: night,
    said: [],
    silent: ['over-10'],
  },
  {
    tale: 'warm on the first evening only, while the box settles',
    ground: PRACTICE,
    entries: hours(0, 48, (hour) => (hour < 5 ? 12 : undefined)),
    nowMs: 48 * HOUR_MS,
    said: [],
    silent: ['over-10', 'over-8'],
  },
  {
    tale: '3.1 K up within two hours',
    ground: PRACTICE,
    entries: spell(8.1, 3),
    nowMs: night,
    said: ['fast-change'],
    silent: ['over-8'],
  },
  {
    tale: '2.9 K up within two hours',
    ground: PRACTICE,
    entries: spell(7.9, 3),
    nowMs: night,
    said: [],
    silent: ['fast-change'],
  },
  {
    tale: 'eight mild afternoons of 3.5 h over 10 °C in a week',
    ground: FORM,
    entries: hours(0, 216, (hour) => (hour % 24 >= 12 && hour % 24 < 15.5 ? 10.2 : 7.5)),
    nowMs: 216 * HOUR_MS,
    said: ['warm-week'],
    silent: ['over-10'],
  },
  {
    tale: 'the same for 2.5 h each day',
    ground: FORM,
    entries: hours(0, 216, (hour) => (hour % 24 >= 12 && hour % 24 < 14.5 ? 10.2 : 7.5)),
    nowMs: 216 * HOUR_MS,
    said: [],
    silent: ['warm-week', 'over-10'],
  },
  {
    tale: 'a probe that speaks every quarter of an hour, silent for two hours',
    ground: PRACTICE,
    entries: hours(0, 48),
    nowMs: 50 * HOUR_MS,
    said: ['silence'],
    silent: ['silence-in-cold'],
  },
  {
    tale: 'silent for an hour and three quarters',
    ground: PRACTICE,
    entries: hours(0, 48),
    nowMs: 49.75 * HOUR_MS,
    said: [],
    silent: ['silence', 'silence-in-cold'],
  },
  {
    tale: 'silent for two hours, last seen at 2.9 °C',
    ground: PRACTICE,
    entries: hours(0, 48, (hour) => (hour > 47 ? 2.9 : undefined)),
    nowMs: 50 * HOUR_MS,
    said: ['silence-in-cold'],
    silent: ['silence'],
  },
  {
    tale: 'readings by hand: no probe, no silence',
    ground: PRACTICE,
    entries: [{ kind: 'reading', atMs: 30 * HOUR_MS, tempC: 5 }],
    nowMs: 90 * HOUR_MS,
    setup: { expectedIntervalS: undefined as never },
    said: [],
    silent: ['silence', 'silence-in-cold'],
  },
  {
    tale: 'battery at 19 %',
    ground: PRACTICE,
    entries: [...hours(0, 48), { kind: 'battery', atMs: 48 * HOUR_MS, percent: 19 }],
    nowMs: 48 * HOUR_MS,
    said: ['battery'],
    silent: [],
  },
  {
    tale: 'battery at 20 %',
    ground: PRACTICE,
    entries: [...hours(0, 48), { kind: 'battery', atMs: 48 * HOUR_MS, percent: 20 }],
    nowMs: 48 * HOUR_MS,
    said: [],
    silent: ['battery'],
  },
  {
    tale: 'eight days without a lid opened',
    ground: WEEKLY,
    entries: hours(0, 192),
    nowMs: 192 * HOUR_MS,
    said: ['lid-closed'],
    silent: ['weigh-in-overdue'],
  },
  {
    tale: 'seven days and a half',
    ground: WEEKLY,
    entries: hours(0, 180),
    nowMs: 180 * HOUR_MS,
    said: [],
    silent: ['lid-closed'],
  },
  {
    tale: 'nine days without a weigh-in, lid opened on the sixth',
    ground: WEEKLY,
    entries: [...hours(0, 216), seen(6, 'lid-opened')],
    nowMs: 216 * HOUR_MS,
    said: ['weigh-in-overdue'],
    silent: ['lid-closed'],
  },
  {
    tale: 'nine days, weighed on the eighth',
    ground: WEEKLY,
    entries: [...hours(0, 216), seen(6, 'lid-opened'), weighed(8, 997)],
    nowMs: 216 * HOUR_MS,
    said: [],
    silent: ['weigh-in-overdue'],
  },
  {
    tale: 'forecast of 1.5 °C for six hours in two days',
    ground: PRACTICE,
    entries: [...hours(0, 48), forecast(1.5, 96, 6)],
    nowMs: 48 * HOUR_MS,
    said: ['forecast-cold'],
    silent: ['forecast-warm', 'under-2'],
  },
  {
    tale: 'the same in four days: too far to believe',
    ground: PRACTICE,
    entries: [...hours(0, 48), forecast(1.5, 144, 6)],
    nowMs: 48 * HOUR_MS,
    said: [],
    silent: ['forecast-cold'],
  },
  {
    tale: 'forecast of 11 °C for a day',
    ground: PRACTICE,
    entries: [...hours(0, 48), forecast(11, 80, 24)],
    nowMs: 48 * HOUR_MS,
    said: ['forecast-warm'],
    silent: ['forecast-cold', 'over-10'],
  },
  {
    tale: 'forecast of 11 °C for two hours',
    ground: PRACTICE,
    entries: [...hours(0, 48), forecast(11, 80, 2)],
    nowMs: 48 * HOUR_MS,
    said: [],
    silent: ['forecast-warm'],
  },
  {
    tale: 'wet bedding: urine passed',
    ground: `${PRACTICE}; Royal Veterinary College 2023: the full bladder is the winter's store`,
    entries: [...hours(0, 48), seen(2, 'urine')],
    nowMs: 48 * HOUR_MS,
    said: ['urine'],
    silent: [],
  },
  {
    tale: 'moving about when the lid is lifted',
    ground: PRACTICE,
    entries: [...hours(0, 48), seen(2, 'awake-signs')],
    nowMs: 48 * HOUR_MS,
    said: ['awake-signs'],
    silent: ['no-response'],
  },
  {
    tale: 'a foot drawn in when touched: as it should be',
    ground: PRACTICE,
    entries: [...hours(0, 48), seen(2, 'touch-response')],
    nowMs: 48 * HOUR_MS,
    said: [],
    silent: ['no-response', 'awake-signs', 'urine'],
  },
  {
    tale: 'no movement when touched',
    ground: PRACTICE,
    entries: [...hours(0, 48), seen(2, 'no-touch-response')],
    nowMs: 48 * HOUR_MS,
    said: ['no-response'],
    silent: [],
  },
  {
    tale: '920 g of 1000: 8.0 % gone',
    ground: 'Bundestierärztekammer: 8 to 10 % allowed over the winter',
    entries: [...hours(0, 48), weighed(2, 920)],
    nowMs: 48 * HOUR_MS,
    said: ['mass-8'],
    silent: ['mass-10'],
  },
  {
    tale: '921 g of 1000: 7.9 % gone',
    ground: 'Bundestierärztekammer',
    entries: [...hours(0, 48), weighed(2, 921)],
    nowMs: 48 * HOUR_MS,
    said: [],
    silent: ['mass-8', 'mass-10'],
  },
  {
    tale: '900 g of 1000: 10.0 % gone',
    ground: TEN,
    entries: [...hours(0, 48), weighed(2, 900)],
    nowMs: 48 * HOUR_MS,
    said: ['mass-10', 'mass-8'],
    silent: ['weighing-doubted'],
  },
  {
    tale: '901 g of 1000: 9.9 % gone',
    ground: TEN,
    entries: [...hours(0, 48), weighed(2, 901)],
    nowMs: 48 * HOUR_MS,
    said: ['mass-8'],
    silent: ['mass-10'],
  },
  {
    tale: '899 g, an hour later 989 g: the first weighing is doubted, not forgotten',
    ground: PRACTICE,
    entries: [...hours(0, 60), weighed(2, 899), { kind: 'weigh-in', atMs: 49 * HOUR_MS, massG: 989 }],
    nowMs: 50 * HOUR_MS,
    said: ['mass-10', 'weighing-doubted'],
    silent: [],
  },
];
