import { describe, expect, it } from 'vitest';
import { simulateExact } from '../../src/heat/exact.ts';
import { stillwinter, stillwinterJson } from './stillwinter.ts';

/** Ten days of outdoor air with a daily swing and a slow drift, made without chance. */
const temperatureC = Array.from(
  { length: 241 },
  (_, h) => 4 + 4 * Math.sin((2 * Math.PI * h) / 24) + 3 * Math.sin(h / 37),
);
const layer = (conductivityWmK: number) => ({
  conductivityWmK,
  densityKgM3: 20,
  specificHeatJkgK: 1450,
  thicknessM: 0.03,
});
const house = (conductivityWmK: number) => ({
  shell: { areaM2: 0.8, layers: [layer(conductivityWmK)], outsideResistanceM2KW: 0.0001, insideResistanceM2KW: 0.0001 },
  contents: [{ massKg: 5, specificHeatJkgK: 4190 }],
  heatW: 0,
  outside: { stepS: 3600, temperatureC },
  initialC: 5,
});
// The true wall conducts a fifth more than the one described; readings to a hundredth of a degree.
const truth = simulateExact(house(0.042)).insideC;
const readings = truth.map((tempC, h) => ({ atS: h * 3600, tempC: Math.round(tempC * 100) / 100 }));
const asked = (change: object = {}) => JSON.stringify({ case: house(0.035), readings, free: ['loss'], ...change });

describe('stillwinter calibrate', () => {
  it('finds the loss that made the readings', async () => {
    const { code, json } = await stillwinterJson(['calibrate', '-'], asked());
    expect(code).toBe(0);
    const { factors } = json as { factors: { id: string; value: number; low: number; high: number }[] };
    expect(factors[0]?.id).toBe('loss');
    expect(factors[0]?.value).toBeCloseTo(1.2, 2);
  });

  it('three readings are not enough: the answer is no, with the reason', async () => {
    const { code, json } = await stillwinterJson(['calibrate', '-'], asked({ readings: readings.slice(0, 3) }));
    expect(code).toBe(1);
    expect(json).toMatchObject({ outcome: 'refused' });
    expect((json as { reasons: string[] }).reasons[0]).toContain('There are only 3 readings');
  });

  it('prints the factor with its interval in words', async () => {
    const ran = await stillwinter(['calibrate', '-'], asked());
    expect(ran.stdout).toMatch(/loss +1\.2/);
  });
});
