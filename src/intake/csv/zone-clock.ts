import { zoneOffsetMs } from '../../measure/zone.ts';

const HOUR = 3_600_000;
const DAY = 24 * HOUR;

/** A change of the clock inside the time a file covers. */
interface ClockChange {
  readonly atMs: number;
  readonly beforeMs: number;
  readonly afterMs: number;
}

/** The clock changes of a zone between two instants, found by looking at every day and bisecting. */
function clockChanges(zone: string, fromMs: number, toMs: number): ClockChange[] {
  const changes: ClockChange[] = [];
  let offset = zoneOffsetMs(fromMs, zone);
  for (let at = fromMs; at < toMs; at += DAY) {
    const next = zoneOffsetMs(at + DAY, zone);
    if (next !== offset) {
      let low = at;
      let high = at + DAY;
      while (high - low > 1000) {
        const middle = Math.floor((low + high) / 2000) * 1000;
        if (zoneOffsetMs(middle, zone) === offset) low = middle;
        else high = middle;
      }
      changes.push({ atMs: high, beforeMs: offset, afterMs: next });
      offset = next;
    }
  }
  return changes;
}

export interface WallResult {
  /** Instants, ms since 1970 UTC; NaN where the wall clock never showed that time. */
  readonly atMs: Float64Array;
  /** Rows in an autumn hour that came once although the clock shows it twice. */
  readonly ambiguous: number;
  /** Rows in a spring hour that the clock leaves out: the logger kept its own time. */
  readonly skipped: number;
  /** True when an autumn change was seen as a repeated hour: the logger follows the clock. */
  readonly followsClock: boolean;
}

/**
 * Turns wall-clock times, in the order written, into instants. In the repeated hour of autumn the second pass is the later one:
 * the order of the rows decides, never sorting. Rows of one probe only.
 *
 * @param wallMs wall-clock times as if they were UTC, rising but for the repeated hour
 * @param zone IANA zone whose clock the logger shows
 */
export function wallToInstants(wallMs: Float64Array, zone: string): WallResult {
  const atMs = new Float64Array(wallMs.length);
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const wall of wallMs) {
    if (wall < low) low = wall;
    if (wall > high) high = wall;
  }
  if (!(high >= low)) return { atMs: atMs.fill(Number.NaN), ambiguous: 0, skipped: 0, followsClock: false };
  const changes = clockChanges(zone, low - 2 * DAY, high + 2 * DAY);
  const first = zoneOffsetMs(low - 2 * DAY, zone);
  let ambiguous = 0;
  let skipped = 0;
  let followsClock = false;
  // The first pass through a repeated hour is counted as ambiguous until a second pass is seen.
  const passes = new Map<ClockChange, { first: number; second: boolean }>();
  let previous = Number.NEGATIVE_INFINITY;
  for (let row = 0; row < wallMs.length; row += 1) {
    const wall = wallMs[row]!;
    let offset = first;
    let at = wall - offset;
    for (const change of changes) {
      const gap = change.afterMs - change.beforeMs;
      const localBefore = change.atMs + change.beforeMs;
      const localAfter = change.atMs + change.afterMs;
      if (gap < 0 && wall >= localAfter && wall < localBefore) {
        const seen = passes.get(change) ?? { first: 0, second: false };
        const early = wall - change.beforeMs;
        const late = wall - change.afterMs;
        const second = early <= previous;
        if (second) {
          seen.second = true;
          followsClock = true;
          at = late;
        } else {
          seen.first += 1;
          at = early;
        }
        passes.set(change, seen);
        offset = second ? change.afterMs : change.beforeMs;
      } else if (gap > 0 && wall >= localBefore && wall < localAfter) {
        skipped += 1;
        at = Number.NaN;
      } else if (wall >= Math.max(localBefore, localAfter)) {
        offset = change.afterMs;
        at = wall - offset;
      } else if (wall < Math.min(localBefore, localAfter)) {
        break;
      }
    }
    atMs[row] = at;
    if (!Number.isNaN(at)) previous = at;
  }
  for (const seen of passes.values()) if (!seen.second) ambiguous += seen.first;
  return { atMs, ambiguous, skipped, followsClock };
}
