import type { MqttReading } from './topics.ts';

/** One commit holds at most so many readings, so that other writers get their turn. */
const MOST_IN_ONE = 2000;
/** Messages of one burst are read a few at a time; a commit that waits this long takes the burst whole. */
const GATHER_MS = 3;
/** After a failure the same readings are tried again after 1 s, then after twice as long each time up to this. */
const LONGEST_PAUSE_MS = 30_000;

interface Waiting {
  readonly reading: MqttReading;
  /** Called once, when the reading is on the disk. */
  readonly stored: () => void;
}

/**
 * Gathers readings into common commits: each waits a few ms for its neighbours, and what comes during a commit makes the next. Readings that
 * could not be stored stay here, in their order, and are tried again until they are.
 */
export class GroupCommit {
  private waiting: Waiting[] = [];
  private running: Promise<void> | undefined;
  private stopping = false;
  private wake: (() => void) | undefined;
  private readonly store: (readings: readonly MqttReading[]) => Promise<unknown>;
  private readonly failed: (error: Error | undefined) => void;
  private readonly emptied: () => void;

  /**
   * `failed` hears why readings could not be stored, and `undefined` once they are; `emptied` is called after each commit, when readings
   * have left.
   */
  constructor(
    store: (readings: readonly MqttReading[]) => Promise<unknown>,
    failed: (error: Error | undefined) => void,
    emptied: () => void,
  ) {
    this.store = store;
    this.failed = failed;
    this.emptied = emptied;
  }

  get size(): number {
    return this.waiting.length;
  }

  add(reading: MqttReading, stored: () => void): void {
    this.waiting.push({ reading, stored });
    this.running ??= this.run();
  }

  /** Stores what is waiting; where that fails, it was acknowledged to nobody and comes again. Nothing may be added after this. */
  async stop(): Promise<void> {
    this.stopping = true;
    this.wake?.();
    await this.running;
  }

  private async run(): Promise<void> {
    let pauseMs = 0;
    while (this.waiting.length > 0) {
      await this.pause(pauseMs > 0 ? pauseMs : GATHER_MS);
      if (this.stopping && pauseMs > 0) return;
      const batch = this.waiting.slice(0, MOST_IN_ONE);
      try {
        await this.store(batch.map((one) => one.reading));
      } catch (error) {
        if (pauseMs === 0) this.failed(error instanceof Error ? error : new Error(String(error)));
        pauseMs = Math.min(LONGEST_PAUSE_MS, pauseMs === 0 ? 1000 : pauseMs * 2);
        continue;
      }
      if (pauseMs > 0) this.failed(undefined);
      pauseMs = 0;
      this.waiting.splice(0, batch.length);
      for (const one of batch) one.stored();
      this.emptied();
    }
    this.running = undefined;
  }

  private async pause(ms: number): Promise<void> {
    await new Promise<void>((done) => {
      const timer = setTimeout(done, this.stopping ? 0 : ms);
      this.wake = () => {
        clearTimeout(timer);
        done();
      };
    });
    this.wake = undefined;
  }
}
