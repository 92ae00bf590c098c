import type { NoticeLevel } from '../winter/watch-types.ts';

/** A message in words, ready for any channel. */
export interface Letter {
  /** Stable for the delivery: the same letter sent twice after a crash can be recognised as one. */
  readonly id: string;
  readonly level: NoticeLevel | 'test';
  readonly title: string;
  readonly text: string;
  /** Path in the app where the reader can act, for example `/what-to-do-now/frost`. */
  readonly path: string;
  /** Letters of one topic replace each other while undelivered: at most 32 characters of the URL-safe base64 alphabet. */
  readonly topic: string;
  /** How long the letter is worth delivering, s. */
  readonly ttlS: number;
}

/** Raised by a channel that will never work again (a push subscription that is gone, an address refused for good). */
export class ChannelGoneError extends Error {}

/** Raised by a channel that may work later; `afterS` is what the other side asked for. */
export class TryLaterError extends Error {
  readonly afterS: number | undefined;
  constructor(reason: string, afterS?: number) {
    super(reason);
    this.afterS = afterS;
  }
}
