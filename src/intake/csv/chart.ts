import type { ImportChart } from '../../schema/import.ts';
import type { ImportedFile } from './import.ts';

const MOST_PROBES = 6;
/** About as many stretches as a wide screen has places for; each keeps its lowest and highest. */
const STRETCHES = 700;

/** The whole file thinned for a chart: stretches of one length with lowest, mean and highest; where nothing was read there is none. */
export function chartOf({ probes }: ImportedFile): ImportChart {
  const shown = probes.slice(0, MOST_PROBES);
  const fromMs = shown.reduce((least, one) => Math.min(least, one.atMs[0] ?? least), Number.POSITIVE_INFINITY);
  const toMs = shown.reduce((most, one) => Math.max(most, one.atMs.at(-1) ?? most), Number.NEGATIVE_INFINITY);
  const bucketMs = Number.isFinite(toMs - fromMs) ? Math.max(1, Math.ceil((toMs - fromMs) / STRETCHES)) : 1;
  return {
    bucketMs,
    probes: shown.map(({ probe, atMs, tempC }) => {
      const thin = { atMs: [] as number[], minC: [] as number[], meanC: [] as number[], maxC: [] as number[] };
      let [last, sum, count] = [-1, 0, 0];
      for (let at = 0; at < atMs.length; at += 1) {
        const stretch = Math.floor((atMs[at]! - fromMs) / bucketMs);
        const value = tempC[at]!;
        if (stretch !== last) {
          last = stretch;
          [sum, count] = [0, 0];
          thin.atMs.push(atMs[at]!);
          thin.minC.push(value);
          thin.meanC.push(value);
          thin.maxC.push(value);
        }
        const end = thin.atMs.length - 1;
        sum += value;
        count += 1;
        thin.meanC[end] = sum / count;
        if (value < thin.minC[end]!) thin.minC[end] = value;
        if (value > thin.maxC[end]!) thin.maxC[end] = value;
      }
      return { probe, ...thin };
    }),
  };
}
