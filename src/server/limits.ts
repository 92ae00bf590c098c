import { RateLimiterMemory, type RateLimiterRes } from 'rate-limiter-flexible';
import { Refusal } from './problem-answers.ts';

/**
 * Slows down guessing without locking the owner out: counted per name *and* address, so that a stranger elsewhere cannot use up
 * the owner's tries, with a wide limit over everything to bound the work.
 */
export function signInLimits() {
  const pair = new RateLimiterMemory({ points: 10, duration: 15 * 60 });
  const everything = new RateLimiterMemory({ points: 300, duration: 15 * 60 });
  const key = (address: string | undefined, name: string) => `${address ?? 'here'} ${name.trim().toLowerCase()}`;
  return {
    /** Counts one try. Throws Refusal `too-many` with the seconds to wait. */
    async spend(address: string | undefined, name: string): Promise<void> {
      try {
        await everything.consume('all');
        await pair.consume(key(address, name));
      } catch (limit) {
        throw new Refusal('too-many', undefined, [], Math.ceil((limit as RateLimiterRes).msBeforeNext / 1000));
      }
    },
    /** A right passphrase clears the count. */
    async forgive(address: string | undefined, name: string): Promise<void> {
      await pair.delete(key(address, name));
    },
  };
}
