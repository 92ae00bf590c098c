/** Sliding windows of the watch: the change within two hours and the warm hours of a week. Each reading costs O(1). */

const HOUR_MS = 3_600_000;

/** Ring that keeps the candidates for the least (sign +1) or greatest (sign -1) value of a window, oldest first. */
interface Extremes {
  at: Float64Array;
  value: Float64Array;
  head: number;
  length: number;
  readonly sign: number;
}

const extremes = (sign: number): Extremes => ({
  at: new Float64Array(32),
  value: new Float64Array(32),
  head: 0,
  length: 0,
  sign,
});

function grow(ring: Extremes): void {
  const size = ring.at.length;
  const at = new Float64Array(size * 2);
  const value = new Float64Array(size * 2);
  for (let i = 0; i < ring.length; i++) {
    at[i] = ring.at[(ring.head + i) % size]!;
    value[i] = ring.value[(ring.head + i) % size]!;
  }
  ring.at = at;
  ring.value = value;
  ring.head = 0;
}

/** Adds a reading and drops those older than `oldestMs`; amortised O(1). Returns the extreme of the window. */
function push(ring: Extremes, atMs: number, value: number, oldestMs: number): number {
  if (ring.length === ring.at.length) grow(ring);
  const mask = ring.at.length - 1;
  while (ring.length > 0 && ring.at[ring.head]! < oldestMs) {
    ring.head = (ring.head + 1) & mask;
    ring.length--;
  }
  while (ring.length > 0 && ring.sign * ring.value[(ring.head + ring.length - 1) & mask]! >= ring.sign * value) {
    ring.length--;
  }
  const tail = (ring.head + ring.length) & mask;
  ring.at[tail] = atMs;
  ring.value[tail] = value;
  ring.length++;
  return ring.value[ring.head]!;
}

export interface ChangeWindow {
  readonly windowMs: number;
  readonly least: Extremes;
  readonly greatest: Extremes;
}

export const openChange = (windowMs: number): ChangeWindow => ({
  windowMs,
  least: extremes(1),
  greatest: extremes(-1),
});

/**
 * Takes a reading; returns the change it ends, K: against the coldest of the window when positive, against the warmest when
 * negative, whichever is larger.
 */
export function changeReading(window: ChangeWindow, atMs: number, tempC: number): number {
  const oldest = atMs - window.windowMs;
  const rise = tempC - push(window.least, atMs, tempC, oldest);
  const fall = push(window.greatest, atMs, tempC, oldest) - tempC;
  return rise >= fall ? rise : -fall;
}

/** Warmest less coldest of the window, K. */
export const changeRange = (window: ChangeWindow): number =>
  window.greatest.value[window.greatest.head]! - window.least.value[window.least.head]!;

/** The instant of the extreme that the last change was measured from, ms. */
export function changeFromMs(window: ChangeWindow, changeK: number): number {
  const ring = changeK >= 0 ? window.least : window.greatest;
  return ring.at[ring.head]!;
}

/** Time spent warm, in hourly buckets of a window. */
export interface WarmHours {
  readonly buckets: Float64Array;
  /** Hour (since 1970) of the newest bucket; -1 before the first. */
  hour: number;
  totalMs: number;
}

/** @param windowHours whole hours of the window, 168 for a week */
export const openWarmHours = (windowHours: number): WarmHours => ({
  buckets: new Float64Array(windowHours),
  hour: -1,
  totalMs: 0,
});

/** Drops what has left the window when the clock shows `atMs`. */
export function warmClock(warm: WarmHours, atMs: number): void {
  if (warm.totalMs === 0) {
    warm.hour = Math.floor(atMs / HOUR_MS);
    return;
  }
  const hour = Math.floor(atMs / HOUR_MS);
  const size = warm.buckets.length;
  const steps = Math.min(hour - warm.hour, size);
  for (let i = 1; i <= steps; i++) {
    const slot = (warm.hour + i) % size;
    warm.totalMs -= warm.buckets[slot]!;
    warm.buckets[slot] = 0;
  }
  if (hour > warm.hour) warm.hour = hour;
  if (warm.totalMs < 0.5) warm.totalMs = 0;
}

/** Counts `fromMs` to `toMs` as warm; O(1) for readings closer than an hour, at most one step an hour otherwise. */
export function warmAdd(warm: WarmHours, fromMs: number, toMs: number): void {
  let from = fromMs;
  while (from < toMs) {
    warmClock(warm, from);
    const until = Math.min(toMs, (warm.hour + 1) * HOUR_MS);
    const slot = warm.hour % warm.buckets.length;
    warm.buckets[slot] = warm.buckets[slot]! + (until - from);
    warm.totalMs += until - from;
    from = until;
  }
}
