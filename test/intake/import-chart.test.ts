import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chartOf } from '../../src/intake/csv/chart.ts';
import type { ImportedFile } from '../../src/intake/csv/import.ts';

const file = (...probes: (readonly (readonly [number, number])[])[]) =>
  ({
    probes: probes.map((rows, at) => ({
      probe: `p${at}`,
      atMs: Float64Array.from(rows, ([ms]) => ms),
      tempC: Float64Array.from(rows, ([, tempC]) => tempC),
    })),
  }) as unknown as ImportedFile;

describe('the chart of a file before it is saved', () => {
  it('keeps the whole time, every lowest and highest, and at most 701 stretches, whatever the readings', () => {
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.integer({ min: 0, max: 10_000_000 }), { minLength: 1, maxLength: 2000 }),
        fc.infiniteStream(fc.double({ min: -55, max: 60, noNaN: true })),
        (times, temperatures) => {
          const rows = times.sort((a, b) => a - b).map((ms) => [ms, temperatures.next().value as number] as const);
          const [chart] = chartOf(file(rows)).probes;
          expect(chart!.atMs.length).toBeLessThanOrEqual(701);
          expect(chart!.atMs[0]).toBe(rows[0]![0]);
          expect(Math.min(...chart!.minC)).toBe(Math.min(...rows.map(([, tempC]) => tempC)));
          expect(Math.max(...chart!.maxC)).toBe(Math.max(...rows.map(([, tempC]) => tempC)));
          for (const [at, meanC] of chart!.meanC.entries()) {
            expect(meanC).toBeGreaterThanOrEqual(chart!.minC[at]! - 1e-9);
            expect(meanC).toBeLessThanOrEqual(chart!.maxC[at]! + 1e-9);
          }
        },
      ),
    );
  });

  it('leaves a gap of the file empty, and shows a one-minute dip', () => {
    const minute = (from: number, count: number) =>
      Array.from({ length: count }, (_, i) => [(from + i) * 60_000, 5] as const);
    const rows = [...minute(0, 10_000), ...minute(20_000, 10_000)].map(
      ([ms, c]) => [ms, ms === 3_000_000 ? -4 : c] as const,
    );
    const { bucketMs, probes } = chartOf(file(rows));
    const gaps = probes[0]!.atMs.slice(1).map((ms, at) => ms - probes[0]!.atMs[at]!);
    expect(Math.max(...gaps)).toBeGreaterThanOrEqual(10_000 * 60_000);
    expect(gaps.filter((ms) => ms > 2 * bucketMs)).toHaveLength(1);
    expect(Math.min(...probes[0]!.minC)).toBe(-4);
  });

  it('shows six thermometers at most, and one reading as itself', () => {
    const { probes } = chartOf(file(...Array.from({ length: 8 }, () => [[1000, 4.2]] as const)));
    expect(probes).toHaveLength(6);
    expect(probes[0]).toEqual({ probe: 'p0', atMs: [1000], minC: [4.2], meanC: [4.2], maxC: [4.2] });
  });
});
