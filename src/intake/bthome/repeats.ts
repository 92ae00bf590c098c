/** The number that a sender gave its frame; `rising` where it counts on without end, as in an encrypted one. */
export interface SentNumber {
  readonly number: number;
  readonly rising: boolean;
}

interface Seen extends SentNumber {
  readonly atMs: number;
}

/** A packet id counts modulo 256 and says nothing after this time. */
const PACKET_MS = 4000;
const MOST_AHEAD = 63;
/** A counter that falls to less than this is a thermometer that was started again, with a new battery. */
const STARTED_AGAIN_BELOW = 100;
const MOST_SENDERS = 10_000;

/**
 * Tells a frame that came before from a new one: it was heard by two receivers, or the broker sent it again. Rules of the open standard's
 * reference parser (BTHome v2): a packet id is new when it is 1 to 63 ahead of the last, or after 4 s; the counter of an encrypted frame must rise.
 */
export class Repeats {
  private seen = new Map<string, Seen>();

  /** The time at which the frame was first heard, which is now for a new one; `undefined` for an old encrypted frame played back. */
  firstHeardMs(sender: string, sent: SentNumber, arrivedMs: number): number | undefined {
    const last = this.seen.get(sender);
    if (last?.rising && sent.rising) {
      if (sent.number === last.number) return last.atMs;
      if (sent.number < last.number && sent.number >= STARTED_AGAIN_BELOW) return undefined;
    } else if (last && !sent.rising && arrivedMs - last.atMs <= PACKET_MS) {
      const ahead = (sent.number - last.number + 256) % 256;
      if (ahead === 0 || ahead > MOST_AHEAD) return last.atMs;
    }
    if (this.seen.size >= MOST_SENDERS && !last) this.seen.delete(this.seen.keys().next().value as string);
    this.seen.set(sender, { ...sent, atMs: arrivedMs });
    return arrivedMs;
  }
}
