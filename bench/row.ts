/** One line of the bench: what was measured, against whom, and how many times faster (above 1) we are. */
export interface Row {
  readonly name: string;
  readonly value: number | null;
  readonly unit: string;
  /** Empty for our own figure. */
  readonly peer: string;
  /** Peer's time over ours; null where there is none. */
  readonly ratio: number | null;
  readonly note?: string;
}

/** A file in bench/rows exports its rows by this name. */
export type MakeRows = () => Promise<Row[]> | Row[];

/** Shortest mean time of one call in ms, over `rounds` rounds of `calls`, after one round to warm up. */
export function bestMs(work: () => void, calls: number, rounds = 7): number {
  for (let i = 0; i < calls; i++) work();
  let best = Number.POSITIVE_INFINITY;
  for (let round = 0; round < rounds; round++) {
    const from = performance.now();
    for (let i = 0; i < calls; i++) work();
    best = Math.min(best, (performance.now() - from) / calls);
  }
  return best;
}
