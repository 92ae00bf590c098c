import { message } from '../wording/say.ts';
import { type CsvRow, columnOf } from './csv-table.ts';
import type { WeatherColumn } from './csv-words.ts';
import type { WeatherProblem } from './result.ts';

export type ColumnPlaces = Partial<Record<WeatherColumn, number>>;

/** Columns as the keeper chose them: the heading as it stands in the file, or its number counted from 1 as text. */
export type AskedColumns = Partial<Record<WeatherColumn, string>>;

const line = (number: number) => message('weather.where.line', { line: number });

/**
 * Which column holds what: what the keeper says, and for the rest what the headings say. Two columns that could be the same thing, or
 * none for what is needed, is a question to the keeper and no guess.
 */
export function findColumns(header: CsvRow, asked: AskedColumns): ColumnPlaces | WeatherProblem[] {
  const problems: WeatherProblem[] = [];
  const places: ColumnPlaces = {};
  const headings = header.cells.join(', ');
  for (const [column, wanted] of Object.entries(asked) as [WeatherColumn, string][]) {
    const byName = header.cells.findIndex((cell) => cell.toLowerCase() === wanted.trim().toLowerCase());
    const byNumber = /^\d+$/.test(wanted) && Number(wanted) <= header.cells.length ? Number(wanted) - 1 : -1;
    const place = byName >= 0 ? byName : byNumber;
    if (place < 0)
      problems.push({ where: line(header.line), what: message('weather.file.no-such-column', { wanted, headings }) });
    else places[column] = place;
  }
  const taken = new Set(Object.values(places));
  const candidates = new Map<WeatherColumn, number[]>();
  header.cells.forEach((cell, place) => {
    const column = taken.has(place) ? undefined : columnOf(cell);
    if (column && places[column] === undefined) candidates.set(column, [...(candidates.get(column) ?? []), place]);
  });
  // A heading such as "time" holds the day too when nothing else does.
  if (places.day === undefined && !candidates.has('day')) {
    const clock = candidates.get('clock');
    if (clock) {
      candidates.set('day', clock);
      candidates.delete('clock');
    } else if (places.clock !== undefined) {
      places.day = places.clock;
      delete places.clock;
    }
  }
  for (const [column, found] of candidates) {
    if (found.length > 1) {
      const names = found.map((place) => header.cells[place]).join(', ');
      problems.push({ where: line(header.line), what: message('weather.file.two-columns', { names }) });
    } else places[column] = found[0]!;
  }
  if (problems.length > 0) return problems;
  if (places.day === undefined)
    problems.push({ where: line(header.line), what: message('weather.file.no-day', { headings }) });
  const extremes = places.max !== undefined && places.min !== undefined;
  if (places.temperature === undefined && !extremes)
    problems.push({ where: line(header.line), what: message('weather.file.no-temperature', { headings }) });
  return problems.length > 0 ? problems : places;
}
