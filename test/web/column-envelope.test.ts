import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { extremesOf, fillColumns, makeColumns } from '../../src/web/readings/column-envelope.ts';

const series = (steps: readonly { readonly afterMs: number; readonly tempC: number }[], gapMs: number) => {
  let atMs = 0;
  const times = steps.map((step) => {
    atMs += step.afterMs;
    return atMs;
  });
  const tempC = Float32Array.from(steps, (step) => step.tempC);
  return { atMs: Float64Array.from(times), minC: tempC, meanC: tempC, maxC: tempC, gapMs };
};
const anySteps = fc.array(
  fc.record({ afterMs: fc.integer({ min: 1, max: 400 }), tempC: fc.float({ min: -20, max: 30, noNaN: true }) }),
  { minLength: 1, maxLength: 400 },
);

describe('columns of pixels', () => {
  it('keep the coldest and the warmest reading at any zoom, and part runs at every gap', () => {
    fc.assert(
      fc.property(
        anySteps,
        fc.integer({ min: 1, max: 300 }),
        fc.integer({ min: 401, max: 900 }),
        (steps, gapMs, width) => {
          const line = series(steps, gapMs);
          const toMs = (line.atMs.at(-1) as number) + 1;
          const columns = makeColumns(2 * width + 4);
          fillColumns(line, 0, toMs, width, columns);
          const used = (column: Float32Array) => [...column.slice(0, columns.count)];
          expect([Math.min(...used(columns.low)), Math.max(...used(columns.high))]).toEqual(
            extremesOf([line], 0, toMs),
          );
          const gaps = steps.slice(1).filter((step) => step.afterMs > gapMs).length;
          expect(columns.runCount).toBe(1 + gaps);
          const x = used(columns.x);
          expect(x.every((value, index) => index === 0 || value >= (x[index - 1] as number))).toBe(true);
        },
      ),
    );
  });

  it('draw nothing where nothing was read', () => {
    const columns = makeColumns(40);
    fillColumns(series([], 10), 0, 100, 18, columns);
    expect([columns.count, columns.runCount]).toEqual([0, 0]);
    expect(extremesOf([series([{ afterMs: 5, tempC: 4 }], 10)], 6, 9)).toBeUndefined();
  });
});
