import { keepBatteries, type SaidBattery } from '../records/batteries.ts';
import type { Database } from '../records/database.ts';
import type { Scope } from '../records/entries.ts';
import { appendReadings } from '../records/readings.ts';
import { spelled } from '../schema/probe-name.ts';
import type { Probe, Reading } from '../schema/reading.ts';
import { doubt } from './plausible.ts';
import { type Odd, quarantine } from './quarantine.ts';

const HOUR_MS = 3_600_000;
/** A reading dated further ahead than this comes from a clock that is wrong. */
const AHEAD_MS = 24 * HOUR_MS;
/** One further back comes from a clock that was never set, or from a file: those are imported, not sent. */
const BEHIND_MS = 400 * 24 * HOUR_MS;
/** Readings of one probe measured in one minute; a probe that floods is cut to this and shown. */
const MOST_A_MINUTE = 120;
/** Readings of one probe taken in one minute whenever measured: what a broker kept for days passes, made-up times do not. */
const MOST_AT_ONCE = 6000;
/** Readings left out of a flood are told in quarantine at once, then whenever this many more have been left out. */
const TELL_EVERY = 500;

/** A reading as a sender gives it: the probe by a name of the sender's. */
export interface Arrival {
  readonly probe: string;
  readonly atMs: number;
  /** Left out where the probe speaks of its battery alone. */
  readonly tempC?: number;
  readonly humidity?: number;
  /** Charge left in its battery, percent. */
  readonly batteryPercent?: number;
  /** Whether it says itself that its battery is low. */
  readonly batteryLow?: boolean;
}

/** What became of arrivals: `refused` ones are in quarantine; those of a battery alone are no readings and counted nowhere. */
export interface Taken {
  readonly stored: number;
  readonly alreadyThere: number;
  readonly refused: number;
}

export interface ArrivalOptions {
  readonly database: Database;
  readonly groupId: string;
  readonly source: 'mqtt' | 'wire' | 'http';
  readonly nowMs: () => number;
  /** Readings of one probe measured in one minute; default 120. */
  readonly mostAMinute?: number;
}

/** What one probe sent in one minute of ours. */
interface Pace {
  readonly minute: number;
  all: number;
  readonly measured: Map<number, number>;
  left: number;
  untold: number;
}

/**
 * Takes readings from senders that nobody sits at. What cannot be true is put into quarantine with its reason, never stored as a reading and never
 * dropped in silence; the rest is stored durably before this resolves.
 */
export class Arrivals {
  private readonly options: ArrivalOptions;
  private names = new Map<string, Probe>();
  private namesAtMs = Number.NEGATIVE_INFINITY;
  private readonly pace = new Map<string, Pace>();
  private readonly batteries = new Map<string, SaidBattery>();

  constructor(options: ArrivalOptions) {
    this.options = options;
  }

  async store(arrivals: readonly Arrival[]): Promise<Taken> {
    const { database, groupId, source, nowMs } = this.options;
    const now = nowMs();
    const scope: Scope = { groupId, personId: null, nowMs: now };
    const readings: Reading[] = [];
    const odds: Odd[] = [];
    const batteries: SaidBattery[] = [];
    let refused = 0;
    const before = new Map<string, Pace | undefined>();
    for (const arrival of arrivals) {
      const probe = await this.probe(arrival.probe, now);
      const why = probe
        ? this.objection(arrival, now)
        : 'no probe of this name; add one under Readings or correct the name';
      if (!probe || why) {
        odds.push({ sender: arrival.probe, what: inWords(arrival), why: why ?? '', count: 1 });
        refused += 1;
        continue;
      }
      const { tempC: saidC } = arrival;
      if (!before.has(probe.id)) before.set(probe.id, copyOf(this.pace.get(probe.id)));
      if (saidC !== undefined && this.floods(arrival, probe, now, odds)) {
        refused += 1;
        continue;
      }
      const battery = batteryOf(arrival);
      if (battery) batteries.push({ probeId: probe.id, atMs: arrival.atMs, ...battery });
      if (saidC === undefined) continue;
      const tempC = Math.round((saidC + probe.offsetC) * 1000) / 1000;
      // A lone 85.0 is what a thermometer says before it has measured: kept, drawn, but not trusted.
      const quality = doubt(saidC) === 'power-on-value' ? 'suspect' : 'good';
      readings.push({
        probeId: probe.id,
        at: new Date(arrival.atMs).toISOString(),
        tempC,
        quality,
        source,
        ...(arrival.humidity === undefined ? {} : { humidity: arrival.humidity }),
      });
    }
    try {
      await keepBatteries(database, groupId, batteries, this.batteries);
      const counted =
        readings.length === 0 ? { stored: 0, alreadyThere: 0 } : await appendReadings(database, scope, readings);
      await quarantine(database, groupId, source, odds, now);
      return { ...counted, refused };
    } catch (error) {
      // The same readings come again: they must not count twice, nor go to a probe that was deleted meanwhile.
      for (const [probe, pace] of before)
        if (pace) this.pace.set(probe, pace);
        else this.pace.delete(probe);
      this.namesAtMs = Number.NEGATIVE_INFINITY;
      throw error;
    }
  }

  async refuse(sender: string, what: string, why: string): Promise<void> {
    await quarantine(
      this.options.database,
      this.options.groupId,
      this.options.source,
      [{ sender, what, why, count: 1 }],
      this.options.nowMs(),
    );
  }

  private objection(arrival: Arrival, now: number): string | undefined {
    if (arrival.tempC !== undefined && doubt(arrival.tempC) === 'impossible')
      return 'the temperature cannot be true: the probe or its wire has failed';
    if (!Number.isFinite(arrival.atMs) || arrival.atMs > now + AHEAD_MS)
      return 'the time lies in the future: the sender’s clock is wrong';
    if (arrival.atMs < now - BEHIND_MS) return 'the time lies more than a year back: the sender’s clock is wrong';
    return undefined;
  }

  /** True when a reading is more than its probe may send; how many were left out is told in quarantine. */
  private floods(arrival: Arrival, probe: Probe, now: number, odds: Odd[]): boolean {
    const most = this.options.mostAMinute ?? MOST_A_MINUTE;
    const tell = (pace: Pace) => {
      const why = `more than ${most} readings in a minute; the rest of this minute was left out`;
      odds.push({ sender: arrival.probe, what: inWords(arrival), why, count: pace.untold });
      pace.untold = 0;
    };
    const minute = Math.floor(now / 60_000);
    let pace = this.pace.get(probe.id);
    if (pace?.minute !== minute) {
      if (pace && pace.untold > 0) tell(pace);
      pace = { minute, all: 0, measured: new Map(), left: 0, untold: 0 };
      this.pace.set(probe.id, pace);
    }
    const measuredIn = Math.floor(arrival.atMs / 60_000);
    const count = pace.measured.get(measuredIn) ?? 0;
    if (count < most && pace.all < Math.max(most, MOST_AT_ONCE)) {
      pace.measured.set(measuredIn, count + 1);
      pace.all += 1;
      return false;
    }
    pace.left += 1;
    pace.untold += 1;
    if (pace.left === 1 || pace.untold >= TELL_EVERY) tell(pace);
    return true;
  }

  /** A sender may name a probe by its identifier, its name as written, or its name with dashes. */
  private async probe(name: string, now: number): Promise<Probe | undefined> {
    if (now - this.namesAtMs > 10_000) {
      const rows = await this.options.database.kysely
        .selectFrom('probes')
        .select(['id', 'name', 'offsetC', 'expectedIntervalS'])
        .where('groupId', '=', this.options.groupId)
        .where('deletedAtMs', 'is', null)
        .execute();
      this.names = new Map(
        rows.flatMap((row) => {
          const probe: Probe = {
            id: row.id,
            name: String(row.name),
            offsetC: Number(row.offsetC),
            expectedIntervalS: Number(row.expectedIntervalS),
          };
          return [[probe.id, probe] as const, [spelled(probe.name), probe] as const];
        }),
      );
      this.namesAtMs = now;
    }
    return this.names.get(name) ?? this.names.get(spelled(name));
  }
}

const copyOf = (pace: Pace | undefined): Pace | undefined => pace && { ...pace, measured: new Map(pace.measured) };

const inWords = ({ tempC, atMs }: Arrival): string =>
  `${tempC === undefined ? 'battery' : `${tempC} °C`}, ${safeTime(atMs)}`;

/** What it says of its battery; `undefined` where that is nothing, or no per cent. */
function batteryOf({
  batteryPercent: percent,
  batteryLow: low,
}: Arrival): { percent?: number; low?: boolean } | undefined {
  const charge = percent !== undefined && percent >= 0 && percent <= 100 ? { percent } : undefined;
  return charge || low !== undefined ? { ...charge, ...(low === undefined ? {} : { low }) } : undefined;
}

function safeTime(atMs: number): string {
  return Number.isFinite(atMs) && Math.abs(atMs) < 8.64e15 ? new Date(atMs).toISOString() : String(atMs);
}
