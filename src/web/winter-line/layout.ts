import { type Day, daysBetween } from '../../measure/day.ts';
import type { StageName } from '../../winter/plan-types.ts';

/**
 * Where everything on a winter line goes. Pure arithmetic in CSS pixels, so that the rules that matter to the reader
 * (nothing clipped, no two labels on top of each other) are tested without a browser.
 */
interface LineStage {
  readonly name: StageName;
  readonly fromDay: Day;
  readonly toDay: Day;
  readonly label: string;
}
interface LineWeighIn {
  readonly day: Day;
  readonly massG: number;
  readonly label: string;
}
export interface LineTemperature {
  readonly day: Day;
  readonly minC: number;
  readonly maxC: number;
}
interface LineNotice {
  readonly day: Day;
  readonly label: string;
  readonly actNow: boolean;
}
export interface WinterLineFacts {
  readonly stages: readonly LineStage[];
  readonly today?: { readonly day: Day; readonly label: string } | undefined;
  readonly weighIns: readonly LineWeighIn[];
  readonly temperatures: readonly LineTemperature[];
  /** A temperature in the reader's unit. */
  readonly temperature: (tempC: number) => string;
  /** What is expected from today on: low and high of the 90 % range by day. */
  readonly expected: readonly LineTemperature[];
  readonly band: {
    readonly lowC: number;
    readonly highC: number;
    readonly lowLabel: string;
    readonly highLabel: string;
  };
  readonly notices: readonly LineNotice[];
  readonly monthName: (day: Day) => string;
}

/** Width of a text in px at one of the three sizes used on the line. */
export type MeasureText = (text: string, style: 'stage' | 'small' | 'strong') => number;

export interface PlacedText {
  readonly text: string;
  readonly x: number;
  readonly y: number;
  readonly anchor: 'start' | 'middle' | 'end';
  readonly width: number;
}
export interface PlacedStage {
  readonly name: StageName;
  readonly x0: number;
  readonly x1: number;
  readonly label: PlacedText;
  /** x of the thin line that leads down to a label in a lower row; undefined where the label is right beneath. */
  readonly leaderX: number | undefined;
}
interface PlacedNotice extends PlacedText {
  readonly poleX: number;
  readonly actNow: boolean;
}
interface Span {
  readonly x: number;
  readonly y0: number;
  readonly y1: number;
  readonly meanC: number;
}

export interface Layout {
  readonly width: number;
  readonly height: number;
  readonly lineY: number;
  readonly stages: readonly PlacedStage[];
  readonly ticks: readonly { readonly x: number; readonly top: number }[];
  readonly tickFoot: number;
  readonly masses: readonly PlacedText[];
  readonly today: (PlacedText & { readonly lineX: number }) | undefined;
  readonly ribbon:
    | {
        readonly x0: number;
        readonly x1: number;
        readonly lowY: number;
        readonly highY: number;
        readonly lowLabel: PlacedText;
        readonly highLabel: PlacedText;
        readonly spans: readonly Span[];
        readonly dayWidth: number;
        readonly expected: string;
        readonly foot: number;
      }
    | undefined;
  readonly notices: readonly PlacedNotice[];
  readonly noticesLeftOut: number;
  readonly axisY: number;
  readonly months: readonly { readonly x: number; readonly label: PlacedText | undefined }[];
}

const ROW = 18;
const GAP = 8;
const EDGE = 2;

/** Puts texts into rows so that none touches another in its row. Returns the row of each, in the order given. */
function rowsFor(spans: readonly { readonly x0: number; readonly x1: number }[]): number[] {
  const ends: number[] = [];
  return spans.map(({ x0, x1 }) => {
    let row = ends.findIndex((end) => end + GAP <= x0);
    if (row < 0) row = ends.length;
    ends[row] = Math.max(x1, ends[row] ?? Number.NEGATIVE_INFINITY);
    return row;
  });
}

const clamp = (value: number, low: number, high: number) => Math.max(low, Math.min(high, value));

export function layOut(facts: WinterLineFacts, width: number, measure: MeasureText): Layout {
  const first = facts.stages[0];
  const last = facts.stages[facts.stages.length - 1];
  if (!first || !last) throw new RangeError('A winter line needs at least one stage.');
  const days = Math.max(1, daysBetween(first.fromDay, last.toDay) + 1);
  const inner = width - 2 * EDGE;
  const xOf = (day: Day) => EDGE + clamp(daysBetween(first.fromDay, day), 0, days) * (inner / days);

  // Weigh-ins: the first, the one at the start of the sleep and the last are told; the others are ticks.
  const sleep = facts.stages.find((stage) => stage.name === 'asleep');
  const weighIns = facts.weighIns.filter((one) => one.day >= first.fromDay && one.day <= last.toDay);
  const massLow = Math.min(...weighIns.map((one) => one.massG));
  const massHigh = Math.max(...weighIns.map((one) => one.massG));
  const tickHeight = (massG: number) => 8 + (massHigh > massLow ? (18 * (massG - massLow)) / (massHigh - massLow) : 9);
  const start = sleep && weighIns.filter((one) => one.day <= sleep.fromDay).at(-1);
  const told = [...new Set([weighIns[0], start, weighIns.at(-1)])].filter((one) => one !== undefined);
  const todayX = facts.today ? xOf(facts.today.day) : undefined;
  const massSpans = told.map((one) => {
    const textWidth = measure(one.label, 'small');
    const x = xOf(one.day);
    let x0 = clamp(x - textWidth / 2, EDGE, width - EDGE - textWidth);
    // A label never lies on today's hairline.
    if (todayX !== undefined && x0 - 4 < todayX && x0 + textWidth + 4 > todayX)
      x0 = todayX - textWidth - 6 >= EDGE ? todayX - textWidth - 6 : todayX + 6;
    return { x0, x1: x0 + textWidth };
  });
  const massRows = rowsFor(massSpans);
  const massRowCount = Math.max(0, ...massRows.map((row) => row + 1));
  const todayRow = facts.today ? 22 : 6;
  const massTop = todayRow + 12;
  const tickFoot = massTop + massRowCount * ROW + 22;
  const lineY = tickFoot + 10;
  const masses = told.map((one, index) => {
    const span = massSpans[index] as { x0: number; x1: number };
    const y = massTop + (massRowCount - 1 - (massRows[index] ?? 0)) * ROW + 4;
    return { text: one.label, x: span.x0, y, anchor: 'start' as const, width: span.x1 - span.x0 };
  });

  // Stages and their names.
  const stageSpans = facts.stages.map((stage) => {
    let x0 = xOf(stage.fromDay);
    let x1 = EDGE + (daysBetween(first.fromDay, stage.toDay) + 1) * (inner / days);
    if (stage.name === 'waking' && x1 - x0 < 9) {
      x0 = clamp((x0 + x1) / 2 - 4.5, EDGE, width - EDGE - 9);
      x1 = x0 + 9;
    }
    const textWidth = measure(stage.label, 'stage');
    const textX0 = clamp((x0 + x1) / 2 - textWidth / 2, EDGE, Math.max(EDGE, width - EDGE - textWidth));
    return { x0, x1, textX0, textWidth };
  });
  const stageRows = rowsFor(stageSpans.map(({ textX0, textWidth }) => ({ x0: textX0, x1: textX0 + textWidth })));
  const stageRowCount = Math.max(...stageRows) + 1;
  const stages = facts.stages.map((stage, index): PlacedStage => {
    const span = stageSpans[index] as (typeof stageSpans)[number];
    const row = stageRows[index] ?? 0;
    return {
      name: stage.name,
      x0: span.x0,
      x1: span.x1,
      leaderX: row > 0 ? clamp((span.x0 + span.x1) / 2, span.textX0 + 3, span.textX0 + span.textWidth - 3) : undefined,
      label: {
        text: stage.label,
        x: span.textX0,
        y: lineY + 25 + row * ROW,
        anchor: 'start',
        width: span.textWidth,
      },
    };
  });
  let bottom = lineY + 25 + (stageRowCount - 1) * ROW + 8;

  // Temperatures in the box.
  const all = [...facts.temperatures, ...facts.expected].filter(
    (one) => one.day >= first.fromDay && one.day <= last.toDay,
  );
  let ribbon: Layout['ribbon'];
  if (all.length > 0) {
    const { lowC, highC } = facts.band;
    const low = Math.min(lowC - 2, ...all.map((one) => one.minC));
    const high = Math.max(highC + 2, ...all.map((one) => one.maxC));
    const top = bottom + 16;
    const perK = clamp(74 / (high - low), 2.2, 8);
    const foot = top + (high - low) * perK;
    const yOf = (tempC: number) => foot - (tempC - low) * perK;
    const x0 = Math.min(...all.map((one) => xOf(one.day)), sleep ? xOf(sleep.fromDay) : width);
    const x1 = Math.max(...all.map((one) => xOf(one.day)), sleep ? xOf(sleep.toDay) : 0);
    const dayWidth = Math.max(1, inner / days);
    const labelAt = (text: string, y: number): PlacedText => {
      const textWidth = measure(text, 'small');
      const outside = x0 - 6 - textWidth >= EDGE;
      return outside
        ? { text, x: x0 - 6, y: y + 4, anchor: 'end', width: textWidth }
        : { text, x: Math.min(x1 + 6, width - EDGE - textWidth), y: y + 4, anchor: 'start', width: textWidth };
    };
    const inSight = (one: LineTemperature) => one.day >= first.fromDay && one.day <= last.toDay;
    const expected = facts.expected.filter(inSight);
    const edge = (pick: (one: LineTemperature) => number, list: readonly LineTemperature[]) =>
      list.map((one) => `${(xOf(one.day) + dayWidth / 2).toFixed(1)},${yOf(pick(one)).toFixed(1)}`);
    ribbon = {
      x0,
      x1,
      lowY: yOf(lowC),
      highY: yOf(highC),
      lowLabel: labelAt(facts.band.lowLabel, yOf(lowC)),
      highLabel: labelAt(facts.band.highLabel, yOf(highC)),
      dayWidth,
      foot,
      spans: facts.temperatures.filter(inSight).map((one) => ({
        x: xOf(one.day) + dayWidth / 2,
        y0: yOf(one.maxC),
        y1: Math.max(yOf(one.minC), yOf(one.maxC) + 2),
        meanC: (one.minC + one.maxC) / 2,
      })),
      expected:
        expected.length > 1
          ? [...edge((one) => one.maxC, expected), ...edge((one) => one.minC, [...expected].reverse())].join(' ')
          : '',
    };
    bottom = foot + 4;
  }

  // Notices: the gravest and latest that find room, as flags on poles under the ribbon.
  const room = width < 520 ? 2 : 4;
  const ranked = [...facts.notices]
    .filter((one) => one.day >= first.fromDay && one.day <= last.toDay)
    .sort((a, b) => Number(b.actNow) - Number(a.actNow) || (a.day < b.day ? 1 : -1));
  const flagged = ranked.slice(0, room).sort((a, b) => (a.day < b.day ? -1 : 1));
  const flagSpans = flagged.map((one) => {
    const textWidth = Math.min(measure(one.label, 'strong') + 14, width - 2 * EDGE);
    const poleX = xOf(one.day);
    const x0 = poleX + textWidth <= width - EDGE ? poleX : Math.max(EDGE, poleX - textWidth);
    return { x0, x1: x0 + textWidth, poleX };
  });
  const flagRows = rowsFor(flagSpans);
  const notices = flagged.map((one, index): PlacedNotice => {
    const span = flagSpans[index] as (typeof flagSpans)[number];
    return {
      text: one.label,
      actNow: one.actNow,
      poleX: span.poleX,
      x: span.x0,
      y: bottom + 24 + (flagRows[index] ?? 0) * 24,
      anchor: 'start',
      width: span.x1 - span.x0,
    };
  });
  if (notices.length > 0) bottom += 24 + Math.max(...flagRows) * 24 + 8;

  // Months along the foot; a name is left out rather than touch its neighbour or the edge.
  const axisY = bottom + 14;
  const months: { x: number; label: PlacedText | undefined }[] = [];
  let free = 0;
  for (let index = 0; index < days; index++) {
    const day = new Date(Date.parse(`${first.fromDay}T00:00:00Z`) + index * 86_400_000).toISOString().slice(0, 10);
    if (!day.endsWith('-01')) continue;
    const x = xOf(day);
    const text = facts.monthName(day);
    const textWidth = measure(text, 'small');
    const fits = x + 4 >= free && x + 4 + textWidth <= width;
    months.push({
      x,
      label: fits ? { text, x: x + 4, y: axisY + 16, anchor: 'start', width: textWidth } : undefined,
    });
    if (fits) free = x + 4 + textWidth + 6;
  }

  const today =
    facts.today && todayX !== undefined
      ? (() => {
          const textWidth = measure(facts.today.label, 'strong');
          const right = todayX + 6 + textWidth <= width - EDGE;
          const x = right ? todayX + 6 : Math.max(EDGE, todayX - 6 - textWidth);
          return { text: facts.today.label, x, y: 14, anchor: 'start' as const, width: textWidth, lineX: todayX };
        })()
      : undefined;

  return {
    width,
    height: axisY + 24,
    lineY,
    stages,
    ticks: weighIns.map((one) => ({ x: xOf(one.day), top: tickFoot - tickHeight(one.massG) })),
    tickFoot,
    masses,
    today,
    ribbon,
    notices,
    noticesLeftOut: ranked.length - flagged.length,
    axisY,
    months,
  };
}
