import { figure } from '../../measure/figures.ts';
import { celsiusToFahrenheit, fahrenheitToCelsius, kelvinToCelsius, ZERO_CELSIUS_K } from '../../measure/units.ts';
import type { ImportChoices } from '../../schema/import.ts';
import { type Message, message, say } from '../../wording/say.ts';
import { Growing, Moments } from './collect.ts';
import { type Column, type Columns, nameColumns, readElapsed } from './columns.ts';
import {
  decoderFor,
  type Encoding,
  encodingExists,
  type FileKind,
  fileKind,
  goesOnAsUtf8,
  MOSTLY_UTF_8,
  NotUtf8Error,
  recogniseEncoding,
} from './encoding.ts';
import { LineSplitter, LongLineError, splitCells } from './lines.ts';
import { readDate, readTime } from './moments.ts';
import { findShape, repeatsHeader, type TableShape } from './shape.ts';
import { type CellUnit, readValue } from './values.ts';

/** A file that can be read from its beginning as often as needed. */
export type FileOfBytes = () => AsyncIterable<Uint8Array>;

export interface Rejection {
  readonly line: number;
  readonly text: string;
  readonly reason: Message;
}

/** A table as collected: moments and values as written, nothing converted yet. */
export interface CollectedTable {
  readonly encoding: Encoding;
  readonly shape: TableShape;
  readonly columns: Columns;
  /** The columns that hold temperatures or their extremes, in the order of the file. */
  readonly valueColumns: readonly Column[];
  readonly moments: Moments;
  /** Line of the file (counted from 1) for each moment. */
  readonly lineOf: Growing<Int32Array<ArrayBuffer>>;
  /** Index into `keys` for each moment; a table without a probe column has the one key "". */
  readonly keyOf: Growing<Uint16Array<ArrayBuffer>>;
  readonly keys: readonly string[];
  /** Values as written, one row of `valueColumns.length` numbers a moment; NaN where there is no reading. */
  readonly values: Growing;
  /** Relative humidity 0 to 1 a moment; NaN where there is none. */
  readonly humidity: Growing<Float32Array<ArrayBuffer>>;
  readonly cellUnits: ReadonlyMap<string, number>;
  /** True when any value had decimals. */
  readonly decimals: boolean;
  readonly rejections: Rejection[];
  /** How many rows were rejected; `rejections` holds the first 10,000. */
  rejected: number;
  readonly notes: { line: number; text: string }[];
  readonly missing: number;
}

/** Raised when a file is no table of readings; says what it is and what to do. */
export class NotATableError extends Error {
  readonly problem: Message;
  constructor(problem: Message) {
    super(problem.key);
    this.problem = problem;
  }
}

const MOST_REJECTIONS = 10_000;
const MOST_NOTES = 1000;
const MOST_COLUMNS = 500;
const SAMPLE_BYTES = 262_144;

const kindProblem: Record<Exclude<FileKind, 'text'>, Message> = {
  zip: message('intake.file.zip'),
  html: message('intake.file.html'),
  pdf: message('intake.file.pdf'),
  binary: message('intake.file.binary'),
  empty: message('intake.file.empty'),
};

async function readSample(file: FileOfBytes): Promise<Uint8Array> {
  const parts: Uint8Array[] = [];
  let length = 0;
  for await (const chunk of file()) {
    // Whoever gives the bytes may fill the same memory again.
    parts.push(Uint8Array.from(chunk));
    length += chunk.length;
    if (length >= SAMPLE_BYTES) break;
  }
  return Buffer.concat(parts, length);
}

/** Reads a whole file once, after a first look at its beginning. `progress` hears the bytes read; an aborted `signal` stops it. */
export async function readTable(
  file: FileOfBytes,
  choices: ImportChoices = {},
  options: { progress?: (bytes: number) => void; signal?: AbortSignal } = {},
  encodingBy: Encoding['by'] = 'asked',
): Promise<CollectedTable> {
  const sample = await readSample(file);
  const kind = fileKind(sample);
  if (kind !== 'text') throw new NotATableError(kindProblem[kind]);
  if (choices.encoding && !encodingExists(choices.encoding)) throw otherEncoding(choices.encoding);
  const encoding: Encoding = choices.encoding ? { name: choices.encoding, by: encodingBy } : recogniseEncoding(sample);
  try {
    return await readAs(file, sample, encoding, choices, options);
  } catch (error) {
    if (error instanceof LongLineError) throw new NotATableError(message('intake.file.long-line'));
    if (!(error instanceof NotUtf8Error)) throw error;
    if (goesOnAsUtf8(sample)) return await readAs(file, sample, MOSTLY_UTF_8, choices, options);
    if (choices.encoding) throw otherEncoding(choices.encoding);
    // Plain ASCII at the beginning looks like UTF-8; a degree sign far below may say otherwise.
    return readTable(file, { ...choices, encoding: 'windows-1252' }, options, 'statistics');
  }
}

const otherEncoding = (encoding: string) => new NotATableError(message('intake.file.other-encoding', { encoding }));

async function readAs(
  file: FileOfBytes,
  sample: Uint8Array,
  encoding: Encoding,
  choices: ImportChoices,
  options: { progress?: (bytes: number) => void; signal?: AbortSignal },
): Promise<CollectedTable> {
  const head: string[] = [];
  const headSplitter = new LineSplitter();
  headSplitter.write(decoderFor(encoding).write(sample), (line) => head.push(line));
  const unfinished = headSplitter.end();
  if (unfinished !== undefined && sample.length < SAMPLE_BYTES) head.push(unfinished);
  const shape = findShape(head.slice(0, 3000), choices.delimiter ? { delimiter: choices.delimiter } : undefined);
  if (!shape) throw new NotATableError(message('intake.file.no-table'));
  if (shape.width > MOST_COLUMNS) throw new NotATableError(message('intake.file.too-many-columns'));
  const collector = new Collector(shape, choices, encoding.by === 'mostly-utf-8');
  const splitter = new LineSplitter();
  const decoder = decoderFor(encoding);
  let bytes = 0;
  for await (const chunk of file()) {
    options.signal?.throwIfAborted();
    splitter.write(decoder.write(chunk), collector.line);
    bytes += chunk.length;
    options.progress?.(bytes);
  }
  splitter.write(decoder.end(), collector.line);
  const last = splitter.end();
  if (last !== undefined) collector.line(last, true);
  return collector.done(encoding);
}

class Collector {
  private readonly shape: TableShape;
  private readonly columns: Columns;
  private readonly valueColumns: readonly Column[];
  private readonly moments = new Moments();
  private readonly lineOf = new Growing(Int32Array);
  private readonly keyOf = new Growing(Uint16Array);
  private readonly keyIndex = new Map<string, number>();
  private readonly values = new Growing(Float64Array);
  private readonly humidity = new Growing(Float32Array);
  private readonly cellUnits = new Map<string, number>();
  private decimals = false;
  private readonly rejections: Rejection[] = [];
  private rejected = 0;
  private readonly notes: { line: number; text: string }[] = [];
  private missing = 0;
  private number = 0;
  private readonly cells: string[] = [];
  private readonly row: Float64Array;
  private readonly startWall: number;
  private readonly role: (name: Column['role']) => Column | undefined;
  private readonly join: boolean;
  private readonly unitOf: (CellUnit | undefined)[];
  private readonly unitAsked: boolean;
  private readonly spoilt: boolean;

  /** `spoilt`: bad bytes stand as marks in the text, and each line with one is noted. */
  constructor(shape: TableShape, choices: ImportChoices, spoilt: boolean) {
    this.spoilt = spoilt;
    this.join = choices.decimalComma ?? shape.torn;
    this.shape = this.join && shape.torn ? joinedShape(shape) : shape;
    const named = nameColumns(this.shape);
    const asked = choices.columns ?? {};
    this.columns = {
      ...named,
      guessed: named.guessed && Object.keys(asked).length === 0,
      all: named.all.map((column) => {
        const role = asked[String(column.at)];
        return role ? { ...column, role } : column;
      }),
    };
    this.valueColumns = this.columns.all.filter((column) =>
      ['temperature', 'maximum', 'minimum'].includes(column.role),
    );
    if (this.valueColumns.length === 0) throw new NotATableError(message('intake.file.no-temperature'));
    this.row = new Float64Array(this.valueColumns.length);
    this.unitOf = this.valueColumns.map((column) => column.unit);
    this.unitAsked = choices.unit !== undefined;
    this.role = (name) => this.columns.all.find((column) => column.role === name);
    if (!['moment', 'date', 'elapsed', 'day'].some((role) => this.role(role as Column['role'])))
      throw new NotATableError(message('intake.file.no-time'));
    const start = shape.preamble.start;
    const date = start ? readDate(start.date) : undefined;
    const time = start ? readTime(start.time) : undefined;
    // A start moment in an open order is read as its first possible one; only tables of elapsed time use it.
    this.startWall = date && time ? Date.UTC(...firstOrder(date)) + time.seconds * 1000 : Number.NaN;
  }

  /** Takes the next line of the file. */
  readonly line = (text: string, cut = false): void => {
    this.number += 1;
    if (this.spoilt && text.includes('\ufffd')) this.note(say('intake.note.bad-byte', { text: shown(text) }));
    if (this.number <= this.shape.firstRow) return;
    if (text.trim() === '') return;
    const cells = splitCells(text, this.shape.delimiter, this.cells);
    for (let at = 0; at < cells.length; at += 1) {
      const cell = cells[at]!;
      const first = cell.charCodeAt(0);
      const last = cell.charCodeAt(cell.length - 1);
      if (first <= 32 || last <= 32 || first === 160 || last === 160) cells[at] = cell.trim();
    }
    if (this.join && this.shape !== undefined) joinTorn(cells, this.shape.width);
    if (cells.every((cell) => cell === '')) return;
    if (repeatsHeader(cells, this.shape.header)) {
      // Another export joined on, with other columns: humidity must not be read as temperature.
      if (this.valueColumns.some(({ at }) => !(this.shape.header[at] ?? '').startsWith(cells[at] ?? '')))
        throw new NotATableError(message('intake.file.two-tables', { line: figure(this.number) }));
      return;
    }
    if (cut && cells.length < this.shape.width) {
      this.reject(text, message('intake.row.cut'));
      return;
    }
    this.readRow(text, cells);
  };

  private readRow(text: string, cells: string[]): void {
    let some = false;
    let wrong: { cell: string; why: 'text' | 'brackets' } | undefined;
    for (let at = 0; at < this.valueColumns.length; at += 1) {
      const cell = cells[this.valueColumns[at]!.at] ?? '';
      const value = readValue(cell);
      this.row[at] = Number.NaN;
      if (value.kind === 'value') {
        this.row[at] = value.value;
        some = true;
        if (value.value % 1 !== 0) this.decimals = true;
        if (value.unit) this.row[at] = this.inUnitOfColumn(at, value.value, value.unit);
      } else if (value.kind === 'missing') this.missing += 1;
      else wrong ??= { cell, why: value.kind };
    }
    const before = this.moments.length;
    const moment = this.readMoment(cells);
    if (moment !== 'read') {
      // Words where a moment should be are a remark of the logger; a moment that cannot be read beside a value is a bad row.
      if (some && !wrong && moment !== 'empty' && /\d/.test(cells[this.momentColumn()] ?? ''))
        this.reject(text, message('intake.row.no-moment', { cell: shown(cells[this.momentColumn()] ?? '') }));
      else if (some && moment === 'empty') this.reject(text, message('intake.row.no-moment', { cell: '' }));
      else this.note(text);
      return;
    }
    if (wrong) {
      // Event rows carry words in place of the value; a number spoilt by brackets or letters is a row to look at.
      if (wrong.why === 'brackets') this.reject(text, message('intake.row.brackets', { cell: shown(wrong.cell) }));
      else if (/\d/.test(wrong.cell))
        this.reject(text, message('intake.row.no-temperature', { cell: shown(wrong.cell) }));
      else if (!some) this.note(text);
      if (!some) {
        if (this.moments.length > before) this.moments.takeBack();
        return;
      }
    } else if (!some) {
      this.moments.takeBack();
      return;
    }
    const key = this.role('probe');
    const name = key ? (cells[key.at] ?? '') : '';
    let keyIndex = this.keyIndex.get(name);
    if (keyIndex === undefined) {
      keyIndex = this.keyIndex.size;
      if (keyIndex > 1000) throw new NotATableError(message('intake.file.too-many-probes'));
      this.keyIndex.set(name, keyIndex);
    }
    this.lineOf.push(this.number);
    this.keyOf.push(keyIndex);
    for (let at = 0; at < this.row.length; at += 1) this.values.push(this.row[at]!);
    const humid = this.role('humidity');
    this.humidity.push(humid ? readHumidity(cells[humid.at] ?? '') : Number.NaN);
  }

  /** A cell that names another unit than its column (a logger switched over half way) is converted: 41 °F under °C is no heat wave. */
  private inUnitOfColumn(at: number, value: number, unit: CellUnit): number {
    this.unitOf[at] ??= unit;
    const own = this.unitOf[at];
    this.cellUnits.set(own, (this.cellUnits.get(own) ?? 0) + 1);
    if (own === unit || this.unitAsked) return value;
    const tempC = unit === 'F' ? fahrenheitToCelsius(value) : unit === 'K' ? kelvinToCelsius(value) : value;
    return own === 'F' ? celsiusToFahrenheit(tempC) : own === 'K' ? tempC + ZERO_CELSIUS_K : tempC;
  }

  private momentColumn(): number {
    return (this.role('moment') ?? this.role('date') ?? this.role('elapsed') ?? this.role('day'))?.at ?? 0;
  }

  private readMoment(cells: readonly string[]) {
    const moment = this.role('moment');
    if (moment) return this.moments.addMoment(cells[moment.at] ?? '');
    const date = this.role('date');
    const time = this.role('time');
    if (date && time) return this.moments.addDateTime(cells[date.at] ?? '', cells[time.at] ?? '');
    if (date) return this.moments.addDate(cells[date.at] ?? '');
    const year = this.role('year');
    if (year) {
      const at = (role: 'month' | 'day') => cells[this.role(role)?.at ?? -1] ?? '';
      const clock = time ? (cells[time.at] ?? '') : '00:00';
      return this.moments.addDateTime(`${cells[year.at]}-${at('month')}-${at('day')}`, clock);
    }
    const elapsed = this.role('elapsed');
    const seconds = elapsed ? readElapsed(cells[elapsed.at] ?? '', elapsed.name) : undefined;
    if (seconds === undefined) return 'no-time';
    return Number.isNaN(this.startWall) ? 'no-date' : this.moments.addWall(this.startWall + seconds * 1000);
  }

  private reject(text: string, reason: Message): void {
    this.rejected += 1;
    if (this.rejections.length < MOST_REJECTIONS)
      this.rejections.push({ line: this.number, text: text.slice(0, 200), reason });
  }

  private note(text: string): void {
    if (this.notes.length < MOST_NOTES) this.notes.push({ line: this.number, text: text.slice(0, 200) });
  }

  done(encoding: Encoding): CollectedTable {
    if (this.moments.length === 0) throw new NotATableError(message('intake.file.no-readings'));
    return {
      encoding,
      shape: this.shape,
      columns: this.columns,
      valueColumns: this.valueColumns,
      moments: this.moments,
      lineOf: this.lineOf,
      keyOf: this.keyOf,
      keys: [...this.keyIndex.keys()],
      values: this.values,
      humidity: this.humidity,
      cellUnits: this.cellUnits,
      decimals: this.decimals,
      rejections: this.rejections,
      rejected: this.rejected,
      notes: this.notes,
      missing: this.missing,
    };
  }
}

const shown = (cell: string) => cell.slice(0, 40);

function firstOrder(date: { a: number; b: number; c: number; orders: readonly string[] }): [number, number, number] {
  const order = date.orders[0];
  const { a, b, c } = date;
  const full = (year: number) => (year < 70 ? 2000 + year : year < 100 ? 1900 + year : year);
  return order === 'ymd' ? [full(a), b - 1, c] : order === 'dmy' ? [full(c), b - 1, a] : [full(c), a - 1, b];
}

/** The shape of a torn table once its decimal commas are joined again. */
function joinedShape(shape: TableShape): TableShape {
  const width = shape.header.filter((name, at) => name !== '' || at < shape.header.length - 1).length;
  return { ...shape, width, rows: shape.rows.map((row) => joinTorn([...row], width)) };
}

/** Joins pairs of whole numbers at the end of a row until it has the wanted width. */
function joinTorn(cells: string[], width: number): string[] {
  let from = cells.length - 2;
  while (cells.length > width && from >= 0) {
    cells.splice(from, 2, `${cells[from]},${cells[from + 1]}`);
    from -= 2;
  }
  return cells;
}

function readHumidity(cell: string): number {
  const value = readValue(cell.replace(/\s*%.*$/, ''));
  if (value.kind !== 'value' || value.value < 0 || value.value > 110) return Number.NaN;
  return value.value <= 1 ? value.value : Math.min(1, value.value / 100);
}
