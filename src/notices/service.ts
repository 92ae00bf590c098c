import { type Announcement, onRecorded } from '../records/announce.ts';
import type { Database } from '../records/database.ts';
import type { TellingTimes } from '../winter/telling.ts';
import { BoxForecasts } from './box-forecast.ts';
import { queueTellings, releaseClaims } from './outbox.ts';
import { type Senders, sendDue } from './sender.ts';
import { WatchService } from './watch-service.ts';

/** Records that change which stays there are, and entries that begin or end a sleep. */
const STRUCTURE: ReadonlySet<string> = new Set(['stay', 'probe', 'box', 'place', 'animal']);
const TURNING_POINTS: ReadonlySet<string> = new Set(['went-down', 'woken']);

/** Key of the lock that lets one of several servers on a PostgreSQL keep the watch. */
const WATCH_LOCK = 7_325_121;

export interface NoticeServiceOptions {
  readonly database: Database;
  readonly senders: () => Senders | Promise<Senders>;
  readonly nowMs: () => number;
  readonly times?: TellingTimes;
  /** How often the clock is looked at, ms. */
  readonly tickMs?: number;
  /** An outside address that hears from this server on schedule, and can raise the alarm when it does not. */
  readonly pulse?: { readonly url: string; readonly everyMs: number };
  readonly onError: (error: unknown) => void;
}

export interface NoticeService {
  /** Sends what is due now, without waiting for the clock. */
  flush(): Promise<void>;
  stop(): Promise<void>;
}

/** Keeps the watch and sends the notices, until stopped. On a shared PostgreSQL only the server that holds the lock watches; all may send. */
export async function startNoticeService(options: NoticeServiceOptions): Promise<NoticeService> {
  const { database, nowMs } = options;
  const watch = new WatchService(database, nowMs);
  const forecasts = new BoxForecasts(database, watch);
  let leader: { release(): Promise<void> } | undefined;
  let stopped = false;
  let running: Promise<void> = Promise.resolve();
  /** Whether the records are to be looked at for what other processes did: by the clock, not on every announcement of our own. */
  let recordsDue = false;

  const lead = async (): Promise<boolean> => {
    if (leader) return true;
    const taken = await takeWatch(database, () => {
      leader = undefined;
    });
    if (!taken) return false;
    leader = taken;
    try {
      await watch.start();
    } catch (error) {
      // A watch that was taken up in part would miss what it does not know of.
      leader = undefined;
      await taken.release();
      throw error;
    }
    return leader !== undefined;
  };

  let claimsReleased = false;
  const once = async (): Promise<void> => {
    try {
      if (!claimsReleased) await releaseClaims(database);
      claimsReleased = true;
      if (await lead()) {
        if (recordsDue) {
          recordsDue = false;
          await watch.lookAtRecords();
        }
        await watch.look();
        await forecasts.look(nowMs(), options.onError);
        const groups = await database.kysely.selectFrom('groups').select('id').execute();
        for (const { id } of groups) await queueTellings(database, id, nowMs(), options.times);
      }
      await sendDue(database, await options.senders(), nowMs);
    } catch (error) {
      options.onError(error);
    }
  };
  const flush = (): Promise<void> => {
    running = running.then(() => (stopped ? undefined : once()));
    return running;
  };

  // Whatever is recorded in this process is seen at once; what another one records, at the next look at the clock.
  const hear = (announcement: Announcement): void => {
    if (!leader || stopped) return;
    const { kind } = announcement;
    const seen =
      announcement.kind === 'readings'
        ? watch.arrived({ probeIds: announcement.probeIds, fromMs: announcement.fromMs })
        : announcement.kind === 'batteries'
          ? watch.arrived({ probeIds: announcement.probeIds, fromMs: 0 })
          : STRUCTURE.has(kind) || (announcement.entry !== undefined && TURNING_POINTS.has(announcement.entry))
            ? watch.arrived({ fromMs: 0, structure: true })
            : 'animalId' in announcement && announcement.animalId !== undefined
              ? watch.arrived({ animalIds: [announcement.animalId], fromMs: 0 })
              : undefined;
    if (seen) seen.then(flush).catch(options.onError);
  };
  const deafen = onRecorded(database, hear);
  await flush();
  const timer = setInterval(() => {
    recordsDue = true;
    void flush();
  }, options.tickMs ?? 5000);
  const pulse =
    options.pulse && setInterval(() => void beat(options.pulse!.url).catch(options.onError), options.pulse.everyMs);
  return {
    flush,
    async stop() {
      stopped = true;
      deafen();
      clearInterval(timer);
      if (pulse) clearInterval(pulse);
      await running;
      await leader?.release();
    },
  };
}

/** The lock of the watch: always free on SQLite, which one process owns; on PostgreSQL held by a connection of its own. */
async function takeWatch(database: Database, lost: () => void): Promise<{ release(): Promise<void> } | undefined> {
  if (!database.pool) return { release: async () => undefined };
  const client = await database.pool.connect();
  let taken: boolean | undefined;
  try {
    const { rows } = await client.query<{ taken: boolean }>('select pg_try_advisory_lock($1) as taken', [WATCH_LOCK]);
    taken = rows[0]?.taken;
  } catch (error) {
    client.release(true);
    throw error;
  }
  if (!taken) {
    client.release();
    return undefined;
  }
  // The lock lives as long as its connection: when that dies, another server may have taken the watch already.
  let over = false;
  const ended = () => {
    over = true;
    client.release(true);
    lost();
  };
  client.once('end', ended);
  return {
    async release() {
      if (over) return;
      client.off('end', ended);
      await client.query('select pg_advisory_unlock($1)', [WATCH_LOCK]).catch(() => undefined);
      client.release();
    },
  };
}

async function beat(url: string): Promise<void> {
  const answer = await fetch(url, { method: 'POST', redirect: 'error', signal: AbortSignal.timeout(10_000) });
  await answer.body?.cancel();
  if (!answer.ok) throw new Error(`The outside watch answered ${answer.status}`);
}
