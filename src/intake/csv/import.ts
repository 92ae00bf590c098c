import { figure } from '../../measure/figures.ts';
import { zoneOffsetMs } from '../../measure/zone.ts';
import type { ImportChoices, ImportPreview, ImportQuestion } from '../../schema/import.ts';
import { message, say } from '../../wording/say.ts';
import { decideOrder, decideUnit, decideZone, toCelsius, type UnitDecision, zoneName } from './decide.ts';
import { rowsByKey } from './key-rows.ts';
import { askAbout, describe } from './preview.ts';
import { type CollectedTable, type FileOfBytes, type Rejection, readTable } from './read-table.ts';
import type { Built, ProbeReadings, Span } from './readings.ts';
import { suspicion } from './values.ts';
import { wallToInstants } from './zone-clock.ts';

const DAY = 86_400_000;
const EARLIEST = Date.UTC(2000, 0, 1);

export interface ImportedFile {
  readonly preview: ImportPreview;
  readonly probes: readonly ProbeReadings[];
  readonly spans: readonly Span[];
  readonly rejections: readonly Rejection[];
}

export interface ImportSettings {
  /** The keeper's own zone, for files whose clock is not told otherwise. */
  readonly zone: string;
  /** The present instant: what lies after it cannot have been measured. */
  readonly nowMs: number;
  /** Name for the probe of a file that names none. */
  readonly probeName: string;
  readonly choices?: ImportChoices;
  readonly progress?: (bytes: number) => void;
  readonly signal?: AbortSignal;
}

/**
 * Reads a logger's file as readings. Nothing is stored: what was detected, what is doubtful and what was rejected comes back beside the readings.
 * While `preview.questions` is not empty the readings are one possible meaning of the file and must not be saved.
 *
 * @throws NotATableError when the file is no table of readings
 */
export async function importFile(file: FileOfBytes, settings: ImportSettings): Promise<ImportedFile> {
  const choices = settings.choices ?? {};
  const table = await readTable(file, choices, settings);
  const order = decideOrder(table, choices, settings.nowMs);
  const zone = decideZone(table, choices, settings.zone);
  const units = table.valueColumns.map((_, column) => decideUnit(table, column, choices));
  const wall = table.moments.wall(order.order);
  const newestFirst = fallsMoreThanItRises(wall);
  const questions: ImportQuestion[] = [];
  const instants = toInstants(table, wall, zone.zone, newestFirst, settings, questions);
  refuseStrays(table, instants, settings.nowMs);
  const built = build(table, instants, units, settings, newestFirst);
  askAbout(questions, table, order.open, units, built.conflicts, settings);
  const preview = describe(table, built, order, zone, units, newestFirst, questions);
  for (const column of [table.moments, table.values, table.humidity, table.keyOf, table.lineOf]) column.release();
  return { preview, ...built };
}

function fallsMoreThanItRises(wall: Float64Array): boolean {
  let balance = 0;
  for (let row = 1; row < wall.length; row += 1) balance += Math.sign(wall[row]! - wall[row - 1]!);
  return balance < 0;
}

/** Turns wall-clock times into instants in UTC, in place: the files are long. Each probe's rows are followed in the order of time, so that a repeated hour is told by order. */
function toInstants(
  table: CollectedTable,
  wall: Float64Array,
  zone: string | number,
  newestFirst: boolean,
  settings: ImportSettings,
  questions: ImportQuestion[],
): Float64Array {
  const instants = wall;
  // Years no logger can have seen are refused later as written; the clock of the zone is not asked about them.
  const plausible = (at: number) => at >= EARLIEST && at <= settings.nowMs + 2 * DAY;
  const first = wall.find(plausible) ?? settings.nowMs;
  const keyRows = rowsByKey(table);
  let skipped = 0;
  let ambiguous = 0;
  for (let key = 0; key < table.keys.length; key += 1) {
    const own = keyRows(key);
    const rows = new Int32Array(own.length);
    let count = 0;
    for (let at = 0; at < own.length; at += 1) {
      const row = own.row(at);
      if (table.moments.isAbsolute(row)) continue;
      if (typeof zone === 'number') instants[row] = wall[row]! - zone * 60_000;
      else if (plausible(wall[row]!)) rows[count++] = row;
    }
    if (typeof zone === 'number' || count === 0) continue;
    const local = rows.subarray(0, count);
    if (newestFirst) local.reverse();
    const times = count === wall.length && !newestFirst ? wall : new Float64Array(count);
    for (let at = 0; at < count; at += 1) times[at] = wall[local[at]!]!;
    const result = wallToInstants(times, zone);
    for (let at = 0; at < count; at += 1) instants[local[at]!] = result.atMs[at]!;
    skipped += result.skipped;
    ambiguous += result.ambiguous;
  }
  // A time the clock never showed, or an autumn hour that came once, means a logger that kept one time all winter: ask which.
  if ((skipped > 0 || ambiguous > 0) && typeof zone === 'string' && !settings.choices?.zone) {
    const offsets = [...new Set([zoneOffsetMs(first - 1, zone), zoneOffsetMs(first + 182 * DAY, zone)])].sort(
      (a, b) => a - b,
    );
    questions.push({
      choice: 'zone',
      question: say(skipped > 0 ? 'intake.ask.zone.skipped' : 'intake.ask.zone.once', {
        count: skipped || ambiguous,
        zone,
      }),
      options: [
        ...offsets.map((offset) => {
          const sign = offset < 0 ? '-' : '+';
          const minutes = Math.abs(offset) / 60_000;
          const value = `${sign}${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`;
          return { value, means: say('intake.ask.zone.fixed', { offset: zoneName(offset / 60_000) }) };
        }),
        { value: zone, means: say('intake.ask.zone.follows', { zone }) },
      ],
    });
  }
  return instants;
}

/** Rows whose date lies in the future or years away from the rest: a clock reset by an empty battery. */
function refuseStrays(table: CollectedTable, instants: Float64Array, nowMs: number): void {
  const apart = Math.ceil(instants.length / 20_000);
  const sorted = instants.filter((at, row) => row % apart === 0 && !Number.isNaN(at)).sort();
  const middle = sorted[Math.floor(sorted.length / 2)] ?? Number.NaN;
  for (let row = 0; row < instants.length; row += 1) {
    const at = instants[row]!;
    if (Number.isNaN(at)) reject(table, row, 'intake.row.no-such-time');
    else if (at < EARLIEST) reject(table, row, 'intake.row.too-old');
    else if (at > nowMs + DAY) reject(table, row, 'intake.row.future');
    else if (Math.abs(at - middle) > 3 * 365 * DAY) reject(table, row, 'intake.row.stray-clock');
    else continue;
    instants[row] = Number.NaN;
  }
}

function reject(
  table: CollectedTable,
  row: number,
  key: 'intake.row.no-such-time' | 'intake.row.too-old' | 'intake.row.future' | 'intake.row.stray-clock',
  text = '',
): void {
  table.rejected += 1;
  if (table.rejections.length < 10_000)
    table.rejections.push({ line: table.lineOf.values[row] ?? 0, text, reason: message(key) });
}

function build(
  table: CollectedTable,
  instants: Float64Array,
  units: readonly UnitDecision[],
  settings: ImportSettings,
  newestFirst: boolean,
): Built {
  const width = table.valueColumns.length;
  const maximum = table.valueColumns.findIndex((column) => column.role === 'maximum');
  const minimum = table.valueColumns.findIndex((column) => column.role === 'minimum');
  const probes: ProbeReadings[] = [];
  const spans: Span[] = [];
  const several = table.valueColumns.filter((column) => column.role === 'temperature').length > 1;
  let repeated = 0;
  let conflicts = 0;
  const keyRows = rowsByKey(table);
  for (const [key, keyName] of table.keys.entries()) {
    const own = keyRows(key);
    for (let column = 0; column < width; column += 1) {
      const unit = units[column]?.unit ?? 'C';
      const role = table.valueColumns[column]?.role;
      const named = cleanName(table.valueColumns[column]?.name ?? '');
      const columnName = several
        ? named || say('intake.probe.column', { number: (table.valueColumns[column]?.at ?? 0) + 1 })
        : '';
      const probe = uniqueName(
        [cleanName(keyName), columnName].filter((part) => part !== '').join(', ') || settings.probeName,
        probes,
        spans,
      );
      if (role === 'maximum') {
        collectSpans(table, instants, units, key, maximum, minimum, probe, spans);
        continue;
      }
      if (role !== 'temperature') continue;
      const all = new Int32Array(own.length);
      let count = 0;
      for (let at = 0; at < own.length; at += 1) {
        const row = own.row(at);
        if (Number.isNaN(instants[row]!)) continue;
        const written = table.values.values[row * width + column]!;
        if (Number.isNaN(written)) continue;
        const why = suspicion(toCelsius(written, unit), written);
        if (why === 'fault-value' || why === 'impossible') {
          table.rejected += 1;
          if (table.rejections.length < 10_000)
            table.rejections.push({
              line: table.lineOf.values[row] ?? 0,
              text: '',
              reason: message(`intake.row.${why}`, { value: figure(written, 2) }),
            });
          continue;
        }
        all[count++] = row;
      }
      const rows = all.subarray(0, count);
      if (newestFirst) rows.reverse();
      // Stable, so that of two rows at one instant the first written stays first.
      if (!rises(rows, instants)) rows.sort((a, b) => instants[a]! - instants[b]!);
      const result = gather(table, rows, instants, column, unit, settings.choices?.conflicts === 'keep-last', probe);
      repeated += result.repeated;
      conflicts += result.conflicts;
      if (result.readings.atMs.length > 0) probes.push(result.readings);
    }
  }
  return { probes, spans, rejections: table.rejections, repeated, conflicts };
}

function rises(rows: Int32Array, instants: Float64Array): boolean {
  for (let at = 1; at < rows.length; at += 1) if (instants[rows[at]!]! < instants[rows[at - 1]!]!) return false;
  return true;
}

function gather(
  table: CollectedTable,
  rows: Int32Array,
  instants: Float64Array,
  column: number,
  unit: UnitDecision['unit'],
  keepLast: boolean,
  probe: string,
) {
  const width = table.valueColumns.length;
  const atMs = new Float64Array(rows.length);
  const tempC = new Float64Array(rows.length);
  const humidity = new Float32Array(rows.length);
  const suspect = new Uint8Array(rows.length);
  let count = 0;
  let repeated = 0;
  let conflicts = 0;
  for (const row of rows) {
    const at = instants[row]!;
    const written = table.values.values[row * width + column]!;
    const value = Math.round(toCelsius(written, unit) * 1e4) / 1e4;
    if (count > 0 && atMs[count - 1] === at) {
      if (tempC[count - 1] === value) repeated += 1;
      else {
        conflicts += 1;
        if (keepLast) tempC[count - 1] = value;
      }
      continue;
    }
    atMs[count] = at;
    tempC[count] = value;
    humidity[count] = table.humidity.values[row]!;
    suspect[count] = suspicion(value, written) === 'power-on-value' ? 1 : 0;
    count += 1;
  }
  // An exact zero among values that are nowhere near it is a wire held low.
  for (let at = 1; at + 1 < count; at += 1) {
    if (tempC[at] === 0 && Math.abs(tempC[at - 1]!) > 3 && Math.abs(tempC[at + 1]!) > 3) suspect[at] = 1;
  }
  const cut = <A extends Float64Array | Float32Array | Uint8Array>(array: A) => array.subarray(0, count) as A;
  return {
    readings: { probe, atMs: cut(atMs), tempC: cut(tempC), humidity: cut(humidity), suspect: cut(suspect) },
    repeated,
    conflicts,
  };
}

function collectSpans(
  table: CollectedTable,
  instants: Float64Array,
  units: readonly UnitDecision[],
  key: number,
  maximum: number,
  minimum: number,
  probe: string,
  spans: Span[],
): void {
  const width = table.valueColumns.length;
  const daily =
    table.columns.all.some((column) => column.role === 'date') &&
    !table.columns.all.some((column) => column.role === 'time');
  let previous = Number.NaN;
  for (let row = 0; row < instants.length; row += 1) {
    if (table.keyOf.values[row] !== key || Number.isNaN(instants[row]!)) continue;
    const maxC = toCelsius(table.values.values[row * width + maximum]!, units[maximum]?.unit ?? 'C');
    const minC = toCelsius(table.values.values[row * width + minimum]!, units[minimum]?.unit ?? 'C');
    const at = instants[row]!;
    if (!(maxC >= minC) || suspicion(maxC, maxC) || suspicion(minC, minC)) {
      if (!Number.isNaN(maxC) || !Number.isNaN(minC)) {
        table.rejected += 1;
        if (table.rejections.length < 10_000)
          table.rejections.push({
            line: table.lineOf.values[row] ?? 0,
            text: '',
            reason: message('intake.row.extremes', { max: figure(maxC, 1), min: figure(minC, 1) }),
          });
      }
      continue;
    }
    // A row a day is that day; a row an interval reaches back to the row before.
    if (daily) spans.push({ probe, fromMs: at, toMs: at + DAY, maxC, minC });
    else if (!Number.isNaN(previous) && at > previous && at - previous <= 2 * DAY)
      spans.push({ probe, fromMs: previous, toMs: at, maxC, minC });
    previous = at;
  }
}

/** A probe's name as it may be shown anywhere: one line, no control characters, no unit, of bounded length. */
function cleanName(name: string): string {
  return name
    .replace(/[\p{C}\r\n]+/gu, ' ')
    .replace(/[([]?\s*(?:°|º|˚|deg\.?|Â°|\?|\ufffd)\s*[CFK]\s*[)\]]?|[℃℉]/g, '')
    .replace(/\s+/g, ' ')
    .replace(/[\s,;:(_-]+$/, '')
    .trim()
    .slice(0, 80);
}

function uniqueName(name: string, probes: readonly ProbeReadings[], spans: readonly Span[]): string {
  const taken = new Set([...probes.map((one) => one.probe), ...spans.map((one) => one.probe)]);
  let free = name;
  for (let number = 2; taken.has(free); number += 1) free = `${name} ${number}`;
  return free;
}
