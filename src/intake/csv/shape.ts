import { splitCells } from './lines.ts';
import { readDate, readOffset, readTime, serialDayMs, splitMoment, unixMs } from './moments.ts';
import { type CellUnit, readValue } from './values.ts';
import { headerWords } from './words.ts';

/** What a table looks like before its columns are given meanings. */
export interface TableShape {
  /** One character, or a blank for runs of blanks. */
  readonly delimiter: string;
  /** Index of the first row of data among the lines of the file, counted from 0. */
  readonly firstRow: number;
  /** Names of the columns, two header lines joined; empty when there is no header. */
  readonly header: readonly string[];
  /** Cells of a usual row. */
  readonly width: number;
  /** Rows of the sample that look like data, cut into cells. */
  readonly rows: readonly (readonly string[])[];
  /** True when unquoted decimal commas double the value columns of a comma-separated table. */
  readonly torn: boolean;
  readonly preamble: Preamble;
}

/** What the lines before the table say. */
interface Preamble {
  readonly lines: readonly string[];
  readonly offsetMin?: number;
  readonly zone?: string;
  readonly unit?: CellUnit;
  /** A start moment as written, for tables of elapsed time. */
  readonly start?: { readonly date: string; readonly time: string };
}

export type CellLook = 'moment' | 'date' | 'time' | 'number' | 'missing' | 'text' | 'empty';

/** What a single cell looks like on its own. */
export function lookOf(cell: string): CellLook {
  const text = cell.trim();
  if (text === '') return 'empty';
  const split = splitMoment(text);
  if (split && readDate(split.date) && readTime(split.time)) return 'moment';
  if (/^\d{10,13}(\.\d+)?$/.test(text) && !Number.isNaN(unixMs(Number(text)))) return 'moment';
  const value = readValue(text);
  if (value.kind === 'value') {
    if (/^\d{8}$/.test(text) && readDate(text)) return 'date';
    if (/^\d{5}[.,]\d+$/.test(text) && !Number.isNaN(serialDayMs(value.value))) return 'moment';
    return 'number';
  }
  if (readDate(text)) return 'date';
  if (readTime(text)) return 'time';
  if (value.kind === 'missing' || value.kind === 'brackets') return 'missing';
  return 'text';
}

function looksLikeData(cells: readonly string[]): boolean {
  let when = 0;
  let numbers = 0;
  let first: CellLook = 'empty';
  for (const [at, cell] of cells.entries()) {
    const look = lookOf(cell);
    if (at === 0) first = look;
    if (look === 'moment' || look === 'date' || look === 'time') when += 1;
    else if (look === 'number' || look === 'missing') numbers += 1;
  }
  // A key with a date behind it ("Start;05.11.2026 15:00") has no number and a word first.
  return (when > 0 && numbers > 0) || (first === 'number' && numbers >= 2);
}

const candidates = ['\t', ';', '|', ',', ' '] as const;

/** Finds the separator, the first row and the header of a table in the first lines of a file. `undefined` when there is none. */
export function findShape(lines: readonly string[], asked?: { delimiter?: string }): TableShape | undefined {
  let obeyed = asked?.delimiter;
  const marked = /^\s*"?sep=(.)"?\s*$/.exec(lines[0] ?? '');
  if (!obeyed && marked) obeyed = marked[1];
  let best: { delimiter: string; at: number[]; width: number; score: number } | undefined;
  for (const delimiter of obeyed ? [obeyed] : candidates) {
    if (delimiter === ' ' && best && best.score > 0) continue;
    const at: number[] = [];
    const widths = new Map<number, number>();
    for (const [index, line] of lines.entries()) {
      if (line.trim() === '') continue;
      const cells = trimmed(splitCells(line, delimiter));
      if (cells.length < 2 || !looksLikeData(cells)) continue;
      at.push(index);
      widths.set(cells.length, (widths.get(cells.length) ?? 0) + 1);
    }
    const [width = 0, score = 0] = [...widths].sort((a, b) => b[1] - a[1])[0] ?? [];
    if (score > 0 && (!best || score > best.score * 1.2)) best = { delimiter, at, width, score };
  }
  if (!best) return undefined;
  const { delimiter } = best;
  const firstRow = best.at.find((index, place) => {
    // A single like row before the table (a start time in the preamble) is not its beginning unless another follows soon.
    const next = best.at[place + 1];
    const width = trimmed(splitCells(lines[index] ?? '', delimiter)).length;
    return width >= best.width - 1 && (next === undefined || next - index <= 3);
  });
  if (firstRow === undefined) return undefined;
  const { header, from } = findHeader(lines, firstRow, delimiter, best.width);
  const rows = best.at
    .filter((index) => index >= firstRow)
    .map((index) => splitCells(lines[index] ?? '', delimiter).map((cell) => cell.trim()));
  const named = header.filter((cell) => cell !== '').length;
  const torn = delimiter === ',' && named >= 2 && best.width > named && tornByDecimalComma(rows, named, best.width);
  return { delimiter, firstRow, header, width: best.width, rows, torn, preamble: readPreamble(lines.slice(0, from)) };
}

/** A separator at the end of every row makes an empty last cell that is no column. */
function trimmed(cells: readonly string[]): readonly string[] {
  return cells.length > 1 && (cells.at(-1) ?? '').trim() === '' ? cells.slice(0, -1) : cells;
}

function findHeader(
  lines: readonly string[],
  firstRow: number,
  delimiter: string,
  width: number,
): { header: string[]; from: number } {
  let above = firstRow - 1;
  while (above >= 0 && isBlank(lines[above] ?? '', delimiter)) above -= 1;
  if (above < 0) return { header: [], from: firstRow };
  const own = headerCells(lines[above] ?? '', delimiter, width);
  if (!own) return { header: [], from: firstRow };
  const onlyUnits = own.every((cell) =>
    /^(|°\s*[cf]|[cf]|%|%\s*rh|℃|℉|deg\s*[cf]|v|k|°|hh:mm(:ss)?|dd.*|yyyy.*|mm.*)$/i.test(cell),
  );
  const before = onlyUnits && above > 0 ? headerCells(lines[above - 1] ?? '', delimiter, width) : undefined;
  if (before) return { header: before.map((cell, at) => `${cell} ${own[at] ?? ''}`.trim()), from: above - 1 };
  return { header: own, from: above };
}

function isBlank(line: string, delimiter: string): boolean {
  return line.trim() === '' || splitCells(line, delimiter).every((cell) => cell.trim() === '');
}

/** The cells of a header line, cut by the table's own separator or, where the header was written otherwise, by another one. */
function headerCells(line: string, delimiter: string, width: number): string[] | undefined {
  for (const mark of [delimiter, ...candidates]) {
    const cells = [...trimmed(splitCells(line, mark))].map((cell) => cell.trim());
    if (mark === ' ' && delimiter !== ' ') continue;
    const enough = cells.length >= 2 && cells.length >= Math.min(2, width) && cells.length <= width + 1;
    const words = cells.filter((cell) => cell !== '' && ['text', 'missing'].includes(lookOf(cell)));
    if (enough && words.length >= Math.ceil(cells.filter((cell) => cell !== '').length / 2) && words.length > 0) {
      if (mark === delimiter || cells.length === width) return cells;
      if (cells.length < width) return cells;
    }
  }
  return undefined;
}

/** Rows such as `05/11/2026 15:07,4,9`: whole numbers stand in pairs where the header names half as many columns. */
function tornByDecimalComma(rows: readonly (readonly string[])[], named: number, width: number): boolean {
  const values = width - named;
  if (values < 1) return false;
  return rows.slice(0, 200).every((row) => {
    const tail = row.slice(row.length - 2 * values);
    return tail.every((cell, at) => (at % 2 === 0 ? /^-?\d{1,3}$/.test(cell) : /^\d{1,2}$/.test(cell)) || cell === '');
  });
}

function readPreamble(lines: readonly string[]): Preamble {
  let offsetMin: number | undefined;
  let zone: string | undefined;
  let unit: CellUnit | undefined;
  let start: { date: string; time: string } | undefined;
  for (const line of lines) {
    const named =
      /\b((?:Africa|America|Antarctica|Asia|Atlantic|Australia|Europe|Indian|Pacific)\/[A-Za-z_]+(?:\/[A-Za-z_]+)?)\b/.exec(
        line,
      );
    if (named) zone ??= named[1];
    const offset = /\b((?:UTC|GMT)\s*[+\-\u2212]\s*\d{1,2}(?::?\d{2})?|UTC|GMT)\b/i.exec(line);
    if (offset) offsetMin ??= readOffset((offset[1] ?? '').replace(/\s/g, ''));
    const degree = /(?:°|º|deg\.?|â°|\?|unit\w*\W{1,3})\s*([CF])\b|\b(celsius|fahrenheit)\b/i.exec(
      line.replaceAll('Â', 'â'),
    );
    if (degree) unit ??= (degree[1] ?? degree[2] ?? '').charAt(0).toUpperCase() as CellUnit;
    if (/start|begin|beginn|début|inicio|inizio/i.test(line)) {
      for (const cell of line.split(/[;,\t|]|:\s/).map((part) => part.trim())) {
        const split = splitMoment(cell);
        if (split && readDate(split.date) && readTime(split.time)) start ??= split;
      }
    }
  }
  return {
    lines: lines.slice(0, 60),
    ...(offsetMin === undefined ? {} : { offsetMin }),
    ...(zone === undefined ? {} : { zone }),
    ...(unit === undefined ? {} : { unit }),
    ...(start === undefined ? {} : { start }),
  };
}

/** True when a row repeats the header (files joined, a logger restarted). */
export function repeatsHeader(cells: readonly string[], header: readonly string[]): boolean {
  if (header.length === 0) return false;
  let same = 0;
  for (const [at, name] of header.entries()) if (name !== '' && (cells[at] ?? '').trim() === name) same += 1;
  return same >= 2 || (same === 1 && headerWords.moment.test(header[0] ?? '') && cells[0]?.trim() === header[0]);
}
