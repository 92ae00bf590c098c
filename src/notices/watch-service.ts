import { v5 as uuidv5 } from 'uuid';
import { boxForecastOf, type WatchedForecast } from '../records/box-forecasts.ts';
import type { Database } from '../records/database.ts';
import { openWatch, type Watch, watchClock, watchEntry, watchReading } from '../winter/watch.ts';
import type { WatchEntry, WatchNotice, WatchSetup } from '../winter/watch-types.ts';
import { message } from '../wording/say.ts';
import { recordMark } from './record-mark.ts';
import { entriesOf, readingsSince, type WatchedStay, watchedStays } from './watched.ts';

const MINUTE_MS = 60_000;
/** The watch's clock runs a little behind, so that a reading a few seconds on its way is not late. */
const BEHIND_MS = MINUTE_MS;
/** Notices get their identity from the stay and the watch's own key: the same history never makes two. */
const NOTICE_NAMESPACE = '7f4c2f0e-3a63-5a55-9a3f-2d1f6f0c9b11';
/** The server counts as asleep when it has not noted its own pulse for this long. */
const PULSE_GAP_MS = 5 * MINUTE_MS;
const PULSE = 'watch-pulse';

interface Running {
  stay: WatchedStay;
  watch: Watch;
  /** How much of each notice is already in the database, by its key. */
  readonly written: Map<string, string>;
  /** Where the records stood just before they were read. */
  readonly mark: string;
}

/**
 * The watch over every sleeping animal of the database. The records are the truth: what is held in memory can be rebuilt from them at any
 * moment, and notices carry an identity of their own, so that a restart neither repeats nor loses one.
 */
export class WatchService {
  private readonly database: Database;
  private readonly now: () => number;
  private readonly running = new Map<string, Running>();
  private structureMs = 0;
  /** One change of the watch at a time. */
  private turn: Promise<unknown> = Promise.resolve();

  constructor(database: Database, now: () => number) {
    this.database = database;
    this.now = now;
  }

  /** Takes up the watch: replays every open stay from the records, and says for each how long nobody watched. */
  start(): Promise<void> {
    return this.inTurn(async () => {
      const now = this.now();
      for (const stay of await watchedStays(this.database, now)) await this.rebuild(stay, now);
      await this.notePulse(now, true);
    });
  }

  /** A reading, weigh-in, diary entry, stay or plan has been recorded: `fromMs` is the earliest instant it touches. */
  arrived(change: {
    probeIds?: readonly string[];
    animalIds?: readonly string[];
    fromMs: number;
    structure?: boolean;
  }): Promise<void> {
    return this.inTurn(async () => {
      const now = this.now();
      if (change.structure) {
        await this.restructure(now);
        return;
      }
      for (const running of [...this.running.values()]) {
        const { stay, watch } = running;
        const touched =
          (stay.probeId !== undefined && change.probeIds?.includes(stay.probeId)) ||
          change.animalIds?.includes(stay.animalId);
        if (!touched) continue;
        if (change.animalIds || change.fromMs <= watch.lastReadingMs) await this.rebuild(stay, now);
        else await this.feed(running, now);
      }
    });
  }

  /** Looks at the clock: silence, overdue care and durations that have run out. Call it at least every half minute. */
  tick(): Promise<void> {
    return this.inTurn(async () => {
      const now = this.now();
      for (const running of this.running.values()) {
        watchClock(running.watch, Math.max(now - BEHIND_MS, running.watch.nowMs));
        await this.write(running);
      }
      await this.notePulse(now, false);
    });
  }

  /** Looks at the clock and, once a minute, at which stays there are: they begin and end with the day. */
  async look(): Promise<void> {
    await this.tick();
    await this.inTurn(async () => {
      const now = this.now();
      if (now - this.structureMs < MINUTE_MS) return;
      this.structureMs = now;
      await this.restructure(now);
    });
  }

  /** Takes up anew every stay about which another process has recorded something since its records were read. */
  lookAtRecords(): Promise<void> {
    return this.inTurn(async () => {
      const moved = new Set<string>();
      for (const { stay, mark } of this.running.values())
        if ((await recordMark(this.database, stay)) !== mark) moved.add(stay.stayId);
      if (moved.size > 0) await this.restructure(this.now(), moved);
    });
  }

  /** The stays that are being watched. */
  stays(): readonly WatchedStay[] {
    return [...this.running.values()].map((running) => running.stay);
  }

  /**
   * Holds a forecast of a box against the limits. Returns when it counts from, and whether a notice of a forecast stands; undefined when
   * the stay is no longer watched.
   */
  forecast(stayId: string, forecast: WatchedForecast): Promise<{ atMs: number; standing: boolean } | undefined> {
    return this.inTurn(async () => {
      const running = this.running.get(stayId);
      if (!running) return undefined;
      const { watch } = running;
      const standing = () => watch.open.has('forecast-cold') || watch.open.has('forecast-warm');
      const before = standing();
      const entry = forecastEntry(forecast, Math.max(this.now() - BEHIND_MS, watch.nowMs));
      watchEntry(watch, entry);
      await this.write(running);
      return { atMs: entry.atMs, standing: before };
    });
  }

  private inTurn<T>(work: () => Promise<T>): Promise<T> {
    const next = this.turn.then(work, work);
    this.turn = next.catch(() => undefined);
    return next;
  }

  /** Holds the stays that are watched against those there are; `moved` are taken up anew whether they changed or not. */
  private async restructure(now: number, moved: ReadonlySet<string> = new Set()): Promise<void> {
    const stays = await watchedStays(this.database, now);
    const open = new Set(stays.map((stay) => stay.stayId));
    for (const [stayId, running] of this.running) {
      if (open.has(stayId)) continue;
      // The stay has ended: whatever was still open ends with it.
      watchEntry(running.watch, { kind: 'woken', atMs: Math.max(now, running.watch.nowMs) });
      await this.write(running);
      this.running.delete(stayId);
    }
    for (const stay of stays) {
      const known = this.running.get(stay.stayId);
      if (!known || moved.has(stay.stayId) || JSON.stringify(known.stay) !== JSON.stringify(stay))
        await this.rebuild(stay, now);
    }
  }

  private async rebuild(stay: WatchedStay, now: number): Promise<void> {
    const setup: WatchSetup = stay.setup;
    const watch = openWatch(setup);
    const mark = await recordMark(this.database, stay);
    const entries: WatchEntry[] = await entriesOf(this.database, stay, now);
    // Forecasts are no records of the stay: those that the standing notices rest on are kept beside it.
    const forecasts = (await boxForecastOf(this.database, stay.groupId, stay.stayId))?.watched ?? [];
    entries.push(...forecasts.map((one) => forecastEntry(one, one.countsFromMs ?? one.atMs)));
    entries.sort((a, b) => a.atMs - b.atMs);
    for (const entry of entries) watchEntry(watch, entry);
    watchClock(watch, Math.max(now - BEHIND_MS, watch.nowMs));
    const running: Running = { stay, watch, written: this.running.get(stay.stayId)?.written ?? new Map(), mark };
    this.running.set(stay.stayId, running);
    await this.write(running, true);
  }

  private async feed(running: Running, now: number): Promise<void> {
    const { stay, watch } = running;
    if (stay.probeId === undefined) return;
    for (const reading of await readingsSince(this.database, stay.probeId, watch.lastReadingMs, now)) {
      // A reading the watch has already passed by the clock is replayed from the records.
      if (!watchReading(watch, reading.atMs, reading.tempC)) return this.rebuild(stay, now);
    }
    watchClock(watch, Math.max(now - BEHIND_MS, watch.nowMs));
    await this.write(running);
  }

  /** Writes what changed. After a replay, open notices that the corrected history no longer holds are closed, not deleted. */
  private async write(running: Running, replayed = false): Promise<void> {
    const { stay, watch, written } = running;
    for (const notice of watch.notices) {
      const body = JSON.stringify([notice.level, notice.clearedMs, notice.message]);
      if (written.get(notice.key) === body) continue;
      await this.upsert(stay, notice);
      written.set(notice.key, body);
    }
    if (!replayed) return;
    const keep = watch.notices.map((notice) => noticeId(stay.stayId, notice.key));
    let stale = this.database.kysely
      .updateTable('notices')
      .set({ clearedAtMs: this.now() })
      .where('stayId', '=', stay.stayId)
      .where('clearedAtMs', 'is', null)
      .where('ruleId', '!=', 'no-watch');
    if (keep.length > 0) stale = stale.where('id', 'not in', keep);
    await stale.execute();
  }

  private async upsert(stay: WatchedStay, notice: WatchNotice): Promise<void> {
    const changing = {
      level: notice.level,
      clearedAtMs: notice.clearedMs ?? null,
      message: JSON.stringify(notice.message),
    };
    await this.database.kysely
      .insertInto('notices')
      .values({
        id: noticeId(stay.stayId, notice.key),
        groupId: stay.groupId,
        ruleId: notice.ruleId,
        stayId: stay.stayId,
        fromAtMs: notice.raisedMs,
        acknowledgedBy: null,
        acknowledgedAtMs: null,
        acknowledgedNote: null,
        ...changing,
      })
      .onConflict((conflict) => conflict.column('id').doUpdateSet(changing))
      .execute();
  }

  /** Notes that the server is awake; on waking, says for each stay for how long it was not. */
  private async notePulse(now: number, starting: boolean): Promise<void> {
    const groups = new Set([...this.running.values()].map((running) => running.stay.groupId));
    for (const groupId of groups) {
      const row = await this.database.kysely
        .selectFrom('settings')
        .select('value')
        .where('groupId', '=', groupId)
        .where('name', '=', PULSE)
        .executeTakeFirst();
      const last = row ? Number(row.value) : Number.NaN;
      if (now - last > PULSE_GAP_MS && (starting || now - last > 2 * PULSE_GAP_MS))
        await this.sayUnwatched(groupId, last, now);
      if (now - last >= MINUTE_MS || Number.isNaN(last)) {
        const value = String(now);
        await this.database.kysely
          .insertInto('settings')
          .values({ groupId, name: PULSE, value })
          .onConflict((conflict) => conflict.columns(['groupId', 'name']).doUpdateSet({ value }))
          .execute();
      }
    }
  }

  private async sayUnwatched(groupId: string, fromMs: number, toMs: number): Promise<void> {
    for (const { stay } of this.running.values()) {
      if (stay.groupId !== groupId || stay.setup.fromMs > toMs) continue;
      await this.database.kysely
        .insertInto('notices')
        .values({
          id: noticeId(stay.stayId, `no-watch ${fromMs}`),
          groupId,
          ruleId: 'no-watch',
          stayId: stay.stayId,
          level: 'look-today',
          fromAtMs: Math.max(fromMs, stay.setup.fromMs),
          clearedAtMs: null,
          message: JSON.stringify(
            message('notices.no-watch', { from: wallClock(fromMs, stay.zone), to: wallClock(toMs, stay.zone) }),
          ),
          acknowledgedBy: null,
          acknowledgedAtMs: null,
          acknowledgedNote: null,
        })
        .onConflict((conflict) => conflict.column('id').doNothing())
        .execute();
    }
  }
}

function forecastEntry(forecast: WatchedForecast, atMs: number): WatchEntry {
  const { stepMs, tempsC } = forecast;
  return {
    kind: 'forecast',
    atMs,
    timesMs: tempsC.map((_, index) => forecast.atMs + index * stepMs),
    tempsC,
  };
}

function noticeId(stayId: string, key: string): string {
  return uuidv5(`${stayId} ${key}`, NOTICE_NAMESPACE);
}

function wallClock(atMs: number, zone: string): string {
  return new Intl.DateTimeFormat('en-GB', {
    timeZone: zone,
    day: 'numeric',
    month: 'long',
    hour: '2-digit',
    minute: '2-digit',
  }).format(atMs);
}
