import {
  type DateOrder,
  type DateParts,
  dayNumberIn,
  readDate,
  readTime,
  serialDayMs,
  splitMoment,
  unixMs,
} from './moments.ts';

type Numbers =
  | Float64Array<ArrayBuffer>
  | Float32Array<ArrayBuffer>
  | Int32Array<ArrayBuffer>
  | Uint16Array<ArrayBuffer>;

type NumbersOf<A> = new (from: number | ArrayBuffer) => A;

/** Numbers that grow by half, in the narrowest array that holds them, so that a million rows stay a few plain arrays. */
export class Growing<A extends Numbers = Float64Array<ArrayBuffer>> {
  values: A;
  length = 0;
  private readonly kind: NumbersOf<A>;

  constructor(kind: NumbersOf<A>) {
    this.kind = kind;
    this.values = new kind(4096);
  }

  push(value: number): void {
    if (this.length === this.values.length) {
      const larger = Math.ceil(this.values.length * 1.5) * this.values.BYTES_PER_ELEMENT;
      // Moved, not copied: the old memory is free at once instead of waiting for the collector.
      this.values = new this.kind(this.values.buffer.transfer(larger));
    }
    this.values[this.length] = value;
    this.length += 1;
  }

  /** Gives the memory back at once instead of when the collector comes round; nothing may be read afterwards. */
  release(): void {
    this.values.buffer.transfer(0);
  }
}

/** What a moment cell turned into: nothing, or a place in the list of moments. */
export type MomentResult = 'read' | 'no-date' | 'no-time' | 'empty';

const NO_OFFSET = Number.NaN;

/**
 * The moments of a table as written, kept apart from what they mean: dates stay indices into the list of distinct dates until their
 * order is decided for the whole file, and a time of day stays seconds.
 */
export class Moments {
  /** Index into `dates`, or -1 where `seconds` already is an absolute time in ms. */
  readonly dateIndex = new Growing(Int32Array);
  readonly seconds = new Growing(Float64Array);
  /** Minutes east of UTC where the cell itself says so; NaN elsewhere; absolute instants carry 0. */
  readonly offsetMin = new Growing(Float32Array);
  readonly dates: DateParts[] = [];
  private readonly known = new Map<string, number>();
  private lastText = '';
  private lastIndex = -1;
  private carried = -1;

  get length(): number {
    return this.seconds.length;
  }

  release(): void {
    for (const column of [this.dateIndex, this.seconds, this.offsetMin]) column.release();
  }

  private index(text: string): number {
    if (text === this.lastText) return this.lastIndex;
    let found = this.known.get(text);
    if (found === undefined) {
      const parts = readDate(text);
      found = parts ? this.dates.push(parts) - 1 : -1;
      // Distinct dates are few in any honest file; a flood of different texts must not fill the memory.
      if (this.known.size < 200_000) this.known.set(text, found);
    }
    this.lastText = text;
    this.lastIndex = found;
    return found;
  }

  /** Reads a cell that holds date and time, Unix time, or a spreadsheet's serial day. */
  addMoment(cell: string): MomentResult {
    if (cell === '') return 'empty';
    const tenth = cell.charCodeAt(10);
    if (cell.length >= 16 && (tenth === 32 || tenth === 84)) {
      const date = this.index(cell.slice(0, 10));
      if (date !== -1) return this.addTimeAt(date, cell.slice(11));
    }
    const split = splitMoment(cell);
    if (split) {
      const date = this.index(split.date);
      return date === -1 ? 'no-date' : this.addTimeAt(date, split.time);
    }
    const number = Number(cell.replace(',', '.'));
    if (/^\d{10,13}(\.\d+)?$/.test(cell)) {
      const ms = unixMs(number);
      if (!Number.isNaN(ms)) return this.push(-1, ms, 0);
    }
    if (/^\d{5}[.,]\d+$/.test(cell)) {
      const ms = serialDayMs(number);
      if (!Number.isNaN(ms)) return this.push(-1, ms, NO_OFFSET);
    }
    return this.index(cell) === -1 ? 'no-date' : 'no-time';
  }

  /** Reads a date and a time from cells of their own; an empty date repeats the one above. */
  addDateTime(date: string, time: string): MomentResult {
    const index = date === '' ? this.carried : this.index(date);
    if (index === -1) return date === '' ? 'empty' : 'no-date';
    this.carried = index;
    return this.addTimeAt(index, time);
  }

  /** A date on its own: one row a day. */
  addDate(date: string): MomentResult {
    const index = this.index(date);
    return index === -1 ? (date === '' ? 'empty' : 'no-date') : this.push(index, 0, NO_OFFSET);
  }

  /** An absolute wall-clock time in ms as if UTC. */
  addWall(wallMs: number): MomentResult {
    return this.push(-1, wallMs, NO_OFFSET);
  }

  private addTimeAt(date: number, text: string): MomentResult {
    const quick = quickTime(text);
    if (quick >= 0) return this.push(date, quick, NO_OFFSET);
    const time = readTime(text.trim());
    if (!time) return text.trim() === '' ? 'empty' : 'no-time';
    return this.push(date, time.seconds, time.offsetMin ?? NO_OFFSET);
  }

  private push(date: number, seconds: number, offsetMin: number): MomentResult {
    this.dateIndex.push(date);
    this.seconds.push(seconds);
    this.offsetMin.push(offsetMin);
    return 'read';
  }

  /** Takes back the last moment, for a row that turned out to hold nothing. */
  takeBack(): void {
    this.dateIndex.length -= 1;
    this.seconds.length -= 1;
    this.offsetMin.length -= 1;
  }

  /** Orders that every date of the file allows. */
  possibleOrders(): DateOrder[] {
    if (this.dates.length === 0) return ['ymd'];
    return (['ymd', 'dmy', 'mdy', 'ydm'] as const).filter((order) =>
      this.dates.every((parts) => parts.orders.length === 1 || !Number.isNaN(dayNumberIn(parts, order))),
    );
  }

  /** Wall-clock times in ms as if UTC (or instants where the cell gave an offset), with dates read in the given order. */
  wall(order: DateOrder): Float64Array {
    const days = this.dates.map((parts) =>
      dayNumberIn(parts, parts.orders.length === 1 ? (parts.orders[0] ?? order) : order),
    );
    const wall = new Float64Array(this.length);
    const index = this.dateIndex.values;
    const seconds = this.seconds.values;
    const offset = this.offsetMin.values;
    for (let row = 0; row < wall.length; row += 1) {
      const day = index[row]!;
      const local = day < 0 ? seconds[row]! : (days[day] ?? Number.NaN) * 86_400_000 + seconds[row]! * 1000;
      const minutes = offset[row]!;
      wall[row] = Number.isNaN(minutes) ? local : local - minutes * 60_000;
    }
    return wall;
  }

  /** True for rows whose instant is known without a zone. */
  isAbsolute(row: number): boolean {
    return !Number.isNaN(this.offsetMin.values[row]!);
  }
}

/** Seconds of `HH:MM` or `HH:MM:SS`, read by character codes; -1 for anything else. */
function quickTime(text: string): number {
  const length = text.length;
  if ((length !== 5 && length !== 8) || text.charCodeAt(2) !== 58) return -1;
  const two = (at: number) => {
    const tens = text.charCodeAt(at) - 48;
    const ones = text.charCodeAt(at + 1) - 48;
    return tens >= 0 && tens <= 9 && ones >= 0 && ones <= 9 ? tens * 10 + ones : -1;
  };
  const hour = two(0);
  const minute = two(3);
  const second = length === 8 ? (text.charCodeAt(5) === 58 ? two(6) : -1) : 0;
  return hour >= 0 && hour < 24 && minute >= 0 && minute < 60 && second >= 0 && second < 60
    ? hour * 3600 + minute * 60 + second
    : -1;
}
