import { addDays, type Day } from '../measure/day.ts';
import { dayInZone, instantInZone } from '../measure/zone.ts';
import type { NoticeLevel } from './watch-types.ts';

const MINUTE_MS = 60_000;

/** One person's wishes. Hours of the wall clock in their zone; quiet hours may cross midnight. */
export interface DeliveryWishes {
  readonly zone: string;
  readonly quietFromHour?: number;
  readonly quietToHour?: number;
  /** Hour of the day at which the digest of *look today* goes out; left out: each is sent by itself. */
  readonly digestHour?: number;
}

/** Minutes after which an *act now* that nobody has acknowledged goes to the tutor, and how often it is said again. */
export interface Escalation {
  readonly tutorAfterMin: number;
  readonly repeatEveryMin: number;
  readonly mostRepeats: number;
}
export const ESCALATION: Escalation = { tutorAfterMin: 30, repeatEveryMin: 60, mostRepeats: 6 };

/** What a notice needs to be decided on. */
export interface NoticeFacts {
  readonly level: NoticeLevel;
  readonly raisedMs: number;
  readonly clearedMs?: number;
  readonly acknowledgedMs?: number;
}

/** True while the wall clock shows quiet hours; through a clock change they follow the wall clock. */
export function inQuietHours(wishes: DeliveryWishes, atMs: number): boolean {
  const { quietFromHour: from, quietToHour: to, zone } = wishes;
  if (from === undefined || to === undefined || from === to) return false;
  const day = dayInZone(atMs, zone);
  const starts = (on: Day) => instantInZone(on, zone, from);
  const ends = (on: Day) => instantInZone(on, zone, to);
  if (from < to) return atMs >= starts(day) && atMs < ends(day);
  return atMs >= starts(day) || atMs < ends(day);
}

/** The first instant from `atMs` on at which the wall clock shows `hour`. */
function nextHour(zone: string, atMs: number, hour: number): number {
  const today = dayInZone(atMs, zone);
  const now = instantInZone(today, zone, hour);
  return now >= atMs ? now : instantInZone(addDays(today, 1), zone, hour);
}

/**
 * When a notice goes to a person, ms: *act now* at once, whatever the hour; *look today* with the digest, or at once outside the
 * quiet hours and at their end otherwise; *for the record* is never sent, only shown.
 */
export function sendAtMs(level: NoticeLevel, raisedMs: number, wishes: DeliveryWishes): number | undefined {
  if (level === 'for-the-record') return undefined;
  if (level === 'act-now') return raisedMs;
  const at = wishes.digestHour === undefined ? raisedMs : nextHour(wishes.zone, raisedMs, wishes.digestHour);
  return inQuietHours(wishes, at) ? nextHour(wishes.zone, at, wishes.quietToHour!) : at;
}

export interface Due {
  readonly to: 'keeper' | 'tutor';
  readonly atMs: number;
  /** 0 for the first message to this person, then 1, 2, … */
  readonly repeat: number;
}

/**
 * Every message about a notice that is due by `nowMs`: the first to the keeper, and for an *act now* that is neither acknowledged
 * nor over, one to the tutor and then repeats to both. Pure: what has been sent already is told by (to, repeat).
 */
export function dueMessages(
  notice: NoticeFacts,
  wishes: DeliveryWishes,
  nowMs: number,
  escalation: Escalation = ESCALATION,
): Due[] {
  const first = sendAtMs(notice.level, notice.raisedMs, wishes);
  if (first === undefined || first > nowMs) return [];
  // A calm notice that was over or seen before its hour needs no message; an urgent one is told even when it is over.
  const settledMs = Math.min(
    notice.acknowledgedMs ?? Number.POSITIVE_INFINITY,
    notice.clearedMs ?? Number.POSITIVE_INFINITY,
  );
  if (notice.level !== 'act-now' && settledMs <= first) return [];
  const due: Due[] = [{ to: 'keeper', atMs: first, repeat: 0 }];
  if (notice.level !== 'act-now') return due;
  for (let repeat = 0; repeat <= escalation.mostRepeats; repeat++) {
    const atMs = first + (escalation.tutorAfterMin + repeat * escalation.repeatEveryMin) * MINUTE_MS;
    if (atMs > nowMs || atMs >= settledMs) break;
    due.push({ to: 'tutor', atMs, repeat });
    due.push({ to: 'keeper', atMs, repeat: repeat + 1 });
  }
  return due;
}
