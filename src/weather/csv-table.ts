import { parse } from 'csv-parse/browser/esm/sync';
import { HEADING_WORDS, type WeatherColumn } from './csv-words.ts';

/** A row of a file with the line it ends on, counted from 1. */
export interface CsvRow {
  readonly line: number;
  readonly cells: readonly string[];
}

/** The separator that cuts the first lines into the most columns; tab before semicolon before comma where they tie. */
function delimiterOf(text: string): string {
  const lines = text.split(/\r\n|\n|\r/, 20).filter((line) => line.trim() !== '');
  let best = ',';
  let most = 0;
  for (const delimiter of ['\t', ';', ',']) {
    const fewest = Math.min(...lines.map((line) => line.split(delimiter).length - 1));
    if (fewest > most) {
      best = delimiter;
      most = fewest;
    }
  }
  return best;
}

/** Cuts a text into rows of trimmed cells. Quotes and blank lines are understood; rows may differ in length. */
export function cutCsv(text: string): { readonly rows: CsvRow[]; readonly delimiter: string } {
  const delimiter = delimiterOf(text);
  const cut = parse(text, {
    delimiter,
    bom: true,
    info: true,
    relax_column_count: true,
    relax_quotes: true,
    skip_empty_lines: true,
    trim: true,
  }) as unknown as { record: string[]; info: { lines: number } }[];
  return { delimiter, rows: cut.map(({ record, info }) => ({ line: info.lines, cells: record })) };
}

const words = (heading: string): string[] =>
  heading
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .replace(/([a-z])([A-Z])/g, '$1 $2')
    .toLowerCase()
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== '');

/** What a heading says it holds; undefined when it says nothing known. */
export function columnOf(heading: string): WeatherColumn | undefined {
  const found = words(heading);
  const has = (kind: keyof typeof HEADING_WORDS) =>
    found.some((word) => (HEADING_WORDS[kind] as readonly string[]).includes(word));
  if (has('dewPoint')) return has('other') ? undefined : 'dewPoint';
  if (has('other')) return undefined;
  if (has('humidity')) return 'humidity';
  if (has('cloud')) return 'cloud';
  if (has('wind')) return 'wind';
  if (has('max')) return 'max';
  if (has('min')) return 'min';
  if (has('temperature')) return 'temperature';
  if (has('day')) return 'day';
  if (has('clock')) return 'clock';
  return undefined;
}

/** The unit of temperature a text names, by letter or by word. */
export function unitOf(text: string): 'C' | 'F' | undefined {
  if (/fahrenheit|deg[\s_]?f\b|[°º˚]\s*f\b|[\s([_]f[\s)\]]|[\s_]f$|℉/i.test(text)) return 'F';
  if (/celsius|centigrade|deg[\s_]?c\b|[°º˚]\s*c\b|[\s([_]c[\s)\]]|[\s_]c$|℃/i.test(text)) return 'C';
  return undefined;
}
