import type { ReadingChart } from '../../schema/reading.ts';

export interface Drift {
  /** Stretches in which both thermometers were read. */
  readonly pairs: number;
  /** Mean of the first minus the second, K: over all, over the first third, and over the last third. */
  readonly meanK: number;
  readonly earlyK: number;
  readonly lateK: number;
}

/** Fewest pairs that say something: with hourly stretches about two days. */
export const LEAST_PAIRS = 48;
/** Cheap probes are sold as right to half a degree: two that hang together and differ more want an ice check. Common practice, no source. */
export const WORTH_A_CHECK_K = 0.5;

/** How a thermometer differs from a second one that hangs beside it, and whether that changes. Undefined: too few common stretches. */
export function driftBetween(
  one: Pick<ReadingChart, 'atMs' | 'meanC'>,
  other: Pick<ReadingChart, 'atMs' | 'meanC'>,
): Drift | undefined {
  const known = new Map(other.atMs.map((atMs, index) => [atMs, other.meanC[index] as number]));
  const differences = one.atMs.flatMap((atMs, index) => {
    const against = known.get(atMs);
    return against === undefined ? [] : [(one.meanC[index] as number) - against];
  });
  if (differences.length < LEAST_PAIRS) return undefined;
  const third = Math.floor(differences.length / 3);
  return {
    pairs: differences.length,
    meanK: mean(differences),
    earlyK: mean(differences.slice(0, third)),
    lateK: mean(differences.slice(-third)),
  };
}

const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
