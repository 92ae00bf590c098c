import { describe, expect, it } from 'vitest';
import { driftBetween } from '../../src/web/readings/drift.ts';

const hours = (count: number, tempC: (hour: number) => number) => ({
  atMs: Array.from({ length: count }, (_, hour) => hour * 3_600_000),
  meanC: Array.from({ length: count }, (_, hour) => tempC(hour)),
});

describe('two thermometers side by side', () => {
  it('differ by the mean of their common hours, and by how that changes', () => {
    const one = hours(300, (hour) => 5 + Math.sin(hour / 10) + 0.3 + hour / 300);
    const drift = driftBetween(
      one,
      hours(300, (hour) => 5 + Math.sin(hour / 10)),
    );
    expect(drift?.pairs).toBe(300);
    expect(drift?.meanK).toBeCloseTo(0.3 + 149.5 / 300, 9);
    expect(drift?.earlyK).toBeCloseTo(0.3 + 49.5 / 300, 9);
    expect(drift?.lateK).toBeCloseTo(0.3 + 249.5 / 300, 9);
  });

  it('say nothing with fewer than 48 hours in common', () => {
    const whole = hours(300, () => 5);
    expect(
      driftBetween(
        hours(47, () => 5),
        whole,
      ),
    ).toBeUndefined();
    expect(
      driftBetween(
        hours(48, () => 5),
        whole,
      )?.meanK,
    ).toBe(0);
  });
});
