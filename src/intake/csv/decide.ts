import { fahrenheitToCelsius, kelvinToCelsius } from '../../measure/units.ts';
import { isZone } from '../../measure/zone.ts';
import type { ImportChoices } from '../../schema/import.ts';
import { type DateOrder, readOffset } from './moments.ts';
import type { CollectedTable } from './read-table.ts';

const DAY = 86_400_000;

export interface OrderDecision {
  readonly order: DateOrder;
  readonly by: 'writing' | 'dates' | 'steps' | 'future' | 'asked' | 'open';
  /** The orders that remain when the file cannot tell. */
  readonly open: readonly DateOrder[];
}

/**
 * Decides whether 03/04 is the third of the fourth month or the fourth of the third: by the way of writing, by numbers over 12, by time that rises
 * in the file's usual step, and by the future, which no logger has seen. When none of them tells, the order stays open and is asked.
 */
export function decideOrder(table: CollectedTable, choices: ImportChoices, nowMs: number): OrderDecision {
  const { moments } = table;
  const possible = moments.possibleOrders();
  if (choices.dateOrder) return { order: choices.dateOrder, by: 'asked', open: [] };
  if (moments.dates.every((parts) => parts.orders.length === 1))
    return { order: possible[0] ?? 'ymd', by: 'writing', open: [] };
  if (possible.length === 1 && possible[0]) return { order: possible[0], by: 'dates', open: [] };
  if (possible.length === 0) {
    // Some date fits no order; the order that fits most dates is the one to report the others against.
    return { order: moments.dates[0]?.orders[0] ?? 'ymd', by: 'writing', open: [] };
  }
  const scored = possible.map((order) => ({ order, ...score(moments.wall(order), nowMs) }));
  const past = scored.filter((one) => one.future === 0);
  if (past.length === 1 && past[0] && scored.length > 1) return { order: past[0].order, by: 'future', open: [] };
  const field = (past.length > 0 ? past : scored).sort((a, b) => b.steady - a.steady || a.span - b.span);
  const [best, second] = field;
  if (best && second && differs(moments.wall(best.order), moments.wall(second.order)) === false)
    return { order: best.order, by: 'dates', open: [] };
  if (
    best &&
    second &&
    best.days > 1 &&
    best.steady > 0.9 &&
    best.steady - second.steady > 1e-9 &&
    best.span < second.span / 3
  ) {
    return { order: best.order, by: 'steps', open: [] };
  }
  return { order: best?.order ?? possible[0] ?? 'ymd', by: 'open', open: field.map((one) => one.order) };
}

function differs(one: Float64Array, other: Float64Array): boolean {
  for (let row = 0; row < one.length; row += 1) if (one[row] !== other[row]) return true;
  return false;
}

/** How much a reading of the dates looks like a logger's: the share of steps that are the usual one, how far it spans, how much lies ahead. */
function score(wall: Float64Array, nowMs: number): { steady: number; span: number; future: number; days: number } {
  const steps = new Map<number, number>();
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  let future = 0;
  const days = new Set<number>();
  for (let row = 0; row < wall.length; row += 1) {
    const at = wall[row]!;
    if (at > nowMs + 1.5 * DAY) future += 1;
    low = Math.min(low, at);
    high = Math.max(high, at);
    if (days.size < 10) days.add(Math.floor(at / DAY));
    if (row > 0) {
      const step = Math.abs(at - wall[row - 1]!);
      steps.set(step, (steps.get(step) ?? 0) + 1);
    }
  }
  let usual = 0;
  for (const count of steps.values()) usual = Math.max(usual, count);
  return { steady: wall.length > 1 ? usual / (wall.length - 1) : 0, span: high - low, future, days: days.size };
}

export type WrittenUnit = 'C' | 'F' | 'K' | 'tenths-C' | 'thousandths-C';

export interface UnitDecision {
  readonly unit: WrittenUnit;
  readonly by: 'header' | 'preamble' | 'asked' | 'plausible' | 'open';
  readonly open: readonly WrittenUnit[];
}

/** The unit of one value column: named in the header or the cells, in the preamble, or told by what values are plausible. */
export function decideUnit(table: CollectedTable, column: number, choices: ImportChoices): UnitDecision {
  if (choices.unit) return { unit: choices.unit, by: 'asked', open: [] };
  const named =
    table.valueColumns[column]?.unit ?? (table.cellUnits.size === 1 ? [...table.cellUnits.keys()][0] : undefined);
  const width = table.valueColumns.length;
  const sorted: number[] = [];
  const stride = Math.max(1, Math.floor(table.moments.length / 5000));
  for (let row = 0; row < table.moments.length; row += stride) {
    const value = table.values.values[row * width + column]!;
    if (!Number.isNaN(value) && Math.abs(value) !== 127 && Math.abs(value) < 900_000) sorted.push(value);
  }
  sorted.sort((a, b) => a - b);
  const middle = sorted[Math.floor(sorted.length / 2)] ?? 0;
  const low = sorted[Math.floor(sorted.length * 0.02)] ?? 0;
  const high = sorted[Math.floor(sorted.length * 0.98)] ?? 0;
  const whole = !table.decimals;
  if (whole && middle >= 1000) return { unit: 'thousandths-C', by: named ? 'header' : 'plausible', open: [] };
  if (named) return { unit: named as WrittenUnit, by: 'header', open: [] };
  if (table.shape.preamble.unit) return { unit: table.shape.preamble.unit, by: 'preamble', open: [] };
  if (low > 230 && high < 330 && !whole) return { unit: 'K', by: 'plausible', open: [] };
  if (whole && middle > 130) return { unit: 'tenths-C', by: 'plausible', open: [] };
  // A box near 5 °C reads 41 °F, and 41 may also be tenths of a degree: what fits twice is asked.
  if (middle >= 28 && high <= 130) {
    const open: WrittenUnit[] = whole ? ['F', 'tenths-C', 'C'] : high > 50 ? ['F'] : ['F', 'C'];
    return open.length === 1 ? { unit: 'F', by: 'plausible', open: [] } : { unit: 'F', by: 'open', open };
  }
  return { unit: 'C', by: 'plausible', open: [] };
}

export function toCelsius(value: number, unit: WrittenUnit): number {
  switch (unit) {
    case 'C':
      return value;
    case 'F':
      return fahrenheitToCelsius(value);
    case 'K':
      return kelvinToCelsius(value);
    case 'tenths-C':
      return value / 10;
    case 'thousandths-C':
      return value / 1000;
  }
}

export interface ZoneDecision {
  /** IANA zone, or a fixed offset in minutes. */
  readonly zone: string | number;
  readonly by: 'cell' | 'header' | 'asked' | 'settings';
}

/** The clock the logger shows: the cells' own offset, an answer, the header or preamble, or else the keeper's zone. */
export function decideZone(table: CollectedTable, choices: ImportChoices, keeperZone: string): ZoneDecision {
  if (choices.zone) {
    const offset = readOffset(choices.zone);
    if (offset !== undefined) return { zone: offset, by: 'asked' };
    if (isZone(choices.zone)) return { zone: choices.zone, by: 'asked' };
    throw new RangeError(`"${choices.zone}" is no time zone`);
  }
  if (table.moments.length > 0 && table.moments.isAbsolute(0)) return { zone: 0, by: 'cell' };
  if (table.columns.offsetMin !== undefined) return { zone: table.columns.offsetMin, by: 'header' };
  if (table.shape.preamble.zone && isZone(table.shape.preamble.zone))
    return { zone: table.shape.preamble.zone, by: 'header' };
  if (table.shape.preamble.offsetMin !== undefined) return { zone: table.shape.preamble.offsetMin, by: 'header' };
  return { zone: keeperZone, by: 'settings' };
}

export function zoneName(zone: string | number): string {
  if (typeof zone === 'string') return zone;
  const minutes = Math.abs(zone);
  return zone === 0
    ? 'UTC'
    : `UTC${zone < 0 ? '\u2212' : '+'}${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`;
}
