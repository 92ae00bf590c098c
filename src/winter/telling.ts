import { addDays } from '../measure/day.ts';
import { dayInZone, instantInZone, zoneOffsetMs } from '../measure/zone.ts';
import type { NoticeLevel } from './watch-types.ts';

/** When and how a person wants to hear of notices. Times of day are minutes after midnight in the person's own zone. */
export interface Listener {
  readonly personId: string;
  /** Tutors hear of every *act now* that nobody has taken in hand. */
  readonly tutor: boolean;
  /** The animals this person looks after. */
  readonly looksAfter: (animalId: string) => boolean;
  readonly zone: string;
  /** Hours of quiet, `from` later than `to` when they run over midnight; *act now* ignores them. */
  readonly quiet?: { readonly fromMin: number; readonly toMin: number };
  /** When the day's *look today* notices are sent together, rising. */
  readonly digestsMin: readonly number[];
}

export interface TellableNotice {
  readonly id: string;
  readonly animalId: string;
  readonly level: NoticeLevel;
  readonly raisedMs: number;
  readonly clearedMs?: number;
  readonly acknowledgedMs?: number;
}

/** One message that ought to be on its way to one person. `step` makes it unique for the notice and the person. */
export interface Telling {
  readonly noticeId: string;
  readonly personId: string;
  readonly step: string;
  readonly dueMs: number;
}

export interface TellingTimes {
  /** An *act now* that nobody has acknowledged goes to the tutors after this long, s. */
  readonly escalateAfterS: number;
  /** It is said again this often until it is acknowledged or over, s. */
  readonly repeatEveryS: number;
  /** … and no more than this many times. */
  readonly repeats: number;
}

/** Common practice, no source: a quarter of an hour to reach a phone, then hourly through one day. */
export const TELLING_TIMES: TellingTimes = { escalateAfterS: 900, repeatEveryS: 3600, repeats: 24 };

/** True when `atMs` lies in the person's hours of quiet: the first minute belongs to them, the last does not. */
export function isQuiet(listener: Listener, atMs: number): boolean {
  if (!listener.quiet) return false;
  // Minutes on the wall clock, not since midnight: on the day of a clock change they differ.
  const minute = ((((atMs + zoneOffsetMs(atMs, listener.zone)) / 60_000) % 1440) + 1440) % 1440;
  const { fromMin, toMin } = listener.quiet;
  return fromMin <= toMin ? minute >= fromMin && minute < toMin : minute >= fromMin || minute < toMin;
}

/** The first of the person's digest times after `afterMs` that does not lie in their hours of quiet. */
export function nextDigestMs(listener: Listener, afterMs: number): number {
  const today = dayInZone(afterMs, listener.zone);
  for (let ahead = 0; ahead <= 2; ahead += 1) {
    for (const minute of listener.digestsMin) {
      const at = instantInZone(addDays(today, ahead), listener.zone, minute / 60);
      if (at > afterMs && !isQuiet(listener, at)) return at;
    }
  }
  return afterMs;
}

/**
 * Everything that ought to have been sent about a notice by `nowMs`. Asking again, in any process and after any restart, gives the same tellings,
 * so that each is sent once.
 *
 * *act now* goes at once to whoever looks after the animal (to the tutors when nobody does), whatever the hour; to the tutors when it stays
 * unacknowledged; again every hour until acknowledged or over; and its end is told. *look today* waits for the next digest and is dropped
 * from it once acknowledged or over. *for the record* is not sent.
 */
export function tellings(
  notice: TellableNotice,
  listeners: readonly Listener[],
  nowMs: number,
  times: TellingTimes = TELLING_TIMES,
): Telling[] {
  if (notice.level === 'for-the-record') return [];
  const near = listeners.filter((listener) => listener.looksAfter(notice.animalId));
  const first = near.length > 0 ? near : listeners.filter((listener) => listener.tutor);
  const doneMs = Math.min(
    notice.clearedMs ?? Number.POSITIVE_INFINITY,
    notice.acknowledgedMs ?? Number.POSITIVE_INFINITY,
  );
  const due: Telling[] = [];
  const add = (listener: Listener, step: string, dueMs: number) => {
    if (dueMs <= nowMs) due.push({ noticeId: notice.id, personId: listener.personId, step, dueMs });
  };
  if (notice.level === 'look-today') {
    for (const listener of first) {
      const dueMs = nextDigestMs(listener, notice.raisedMs);
      if (dueMs < doneMs) add(listener, 'digest', dueMs);
    }
    return due;
  }
  for (const listener of first) add(listener, 'first', notice.raisedMs);
  const escalateMs = notice.raisedMs + times.escalateAfterS * 1000;
  const told = new Set(first);
  if (escalateMs < doneMs) {
    for (const listener of listeners) {
      if (!listener.tutor || told.has(listener)) continue;
      told.add(listener);
      add(listener, 'escalation', escalateMs);
    }
    for (let repeat = 1; repeat <= times.repeats; repeat += 1) {
      const dueMs = notice.raisedMs + repeat * times.repeatEveryS * 1000;
      if (dueMs >= doneMs || dueMs > nowMs) break;
      for (const listener of told) add(listener, `again-${repeat}`, dueMs);
    }
  }
  if (notice.clearedMs !== undefined) {
    for (const listener of told) {
      if (listener.quiet && isQuiet(listener, notice.clearedMs)) continue;
      add(listener, 'over', notice.clearedMs);
    }
  }
  return due;
}
