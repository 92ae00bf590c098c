import { describe, expect, it } from 'vitest';
import { sealedHours } from '../../../src/air/box-air.ts';
import { GUT_REFERENCE } from '../../../src/physiology/constants.ts';
import { fatGPerLitreOxygen, metabolicHeatW, netMassGPerLitreOxygen } from '../../../src/physiology/fat-and-gas.ts';
import { gutProgress, passagePerDay } from '../../../src/physiology/gut-clearing.ts';
import { hughesOxygenMlH, oxygenUseMlH, rateRatioFrom5C } from '../../../src/physiology/metabolic-rate.ts';
import { bodyAreaM2, USUAL_K_MS, vapourDeficitKgM3, waterLossGPerDay } from '../../../src/physiology/water-loss.ts';

const within = (value: number, published: number, share: number) =>
  expect(Math.abs(value / published - 1)).toBeLessThan(share);

describe('oxygen use against published rates', () => {
  it('keeps the line of Hughes et al. 1971: 81.8 ml/h at 2.045 kg, which García-Gómez et al. 2023 digitised as 0.0571 mg/(g h)', () => {
    within(hughesOxygenMlH(2.045), 81.8, 0.005);
    within((hughesOxygenMlH(2.045) * 1.429) / 2045, 0.0571, 0.005);
  });

  it('gives a resting land turtle of 354 g at 20 °C within a factor 2 of 3.29 ml/h (Gatten 1974), which the bare Hughes line misses', () => {
    const model = oxygenUseMlH(0.354, 20);
    expect(model.mid / 3.29).toBeGreaterThan(0.5);
    expect(model.mid / 3.29).toBeLessThan(2);
    expect(model.low).toBeLessThan(3.29);
    expect(model.high).toBeGreaterThan(3.29);
    const hughesAt20C = hughesOxygenMlH(0.354) * 2.4 ** -0.55;
    expect(hughesAt20C / 3.29).toBeGreaterThan(3);
  });

  it('with the two Q10 of Rowe 2024 falls 34.6-fold from 25 to 5 °C, mean Q10 5.88', () => {
    within(rateRatioFrom5C(25, 3.6, 9.6), 34.56, 0.001);
    within(Math.sqrt(rateRatioFrom5C(25, 3.6, 9.6)), 5.88, 0.001);
  });

  it('turns 1.5 ml/h into 0.0082 W, 0.55 g of fat a month and 10.8 days for 20 l of sealed air (derived)', () => {
    const use = oxygenUseMlH(1, 5);
    expect(use).toEqual({ low: 0.5, mid: 1.5, high: 5 });
    within(metabolicHeatW(use.mid), 0.00817, 0.01);
    within(metabolicHeatW(use.low), 0.0027, 0.02);
    within(metabolicHeatW(use.high), 0.0272, 0.01);
    within((use.mid / 1000) * 24 * 30.44 * fatGPerLitreOxygen(), 0.5465, 0.01);
    const days = (oxygenMlH: number) =>
      sealedHours({ freeVolumeM3: 0.02, oxygenMlH, respiratoryQuotient: 0.71 }).fixedVolume / 24;
    within(days(1.5), 10.83, 0.01);
    within(days(0.5), 32.5, 0.01);
    within(days(5), 3.25, 0.01);
  });

  it('on fat 0.025 g stay per litre of oxygen, at the quotient of Hughes et al. 0.489 g leave', () => {
    expect(Math.abs(netMassGPerLitreOxygen(0.71) - 0.025)).toBeLessThan(0.003);
    expect(Math.abs(netMassGPerLitreOxygen(0.97) + 0.489)).toBeLessThan(0.003);
  });
});

describe('water loss against published and usual rates', () => {
  const perMonth = (massKg: number, tempC: number, humidity: number) =>
    waterLossGPerDay(massKg, vapourDeficitKgM3(tempC, humidity)) * 30.44;

  it('is 1 % a month at 1 kg, 5 °C and 80 % (common practice), which fixes k at 2.80e-5 m/s', () => {
    within(perMonth(1, 5, 0.8), 10, 1e-9);
    within(USUAL_K_MS, 2.8e-5, 0.005);
  });

  it('then 13.8 g at 10 °C, 20.0 g at 60 %, 3.47 % for 24 g (derived)', () => {
    within(perMonth(1, 10, 0.8), 13.8, 0.01);
    within(perMonth(1, 5, 0.6), 20, 0.01);
    within(perMonth(0.024, 5, 0.8) / 24, 0.0347, 0.01);
  });

  it.each([
    [0.05, 5, 0.8, 2.7],
    [0.3, 5, 0.8, 1.5],
    [0.3, 8, 0.8, 1.8],
    [2, 5, 0.8, 0.8],
    [2, 10, 0.8, 1.1],
    [0.024, 10, 0.8, 4.8],
  ])('%d kg at %d °C and %d: %d % a month (derived table)', (massKg, tempC, humidity, percent) => {
    expect(Math.abs(perMonth(massKg, tempC, humidity) / (10 * massKg) - percent)).toBeLessThan(0.06);
  });

  it('an animal 1 K warmer than its air loses a third more (derived)', () => {
    within(vapourDeficitKgM3(5, 0.8, 6) / vapourDeficitKgM3(5, 0.8), 1.35, 0.03);
  });

  it('cold-acclimated hatchlings of about 9 g, 2.0 to 4.1 mg/(g d) at 4 °C and 75 % (Baker et al. 2003; Dinkelacker et al.), lie within the spread of k', () => {
    const model = waterLossGPerDay(0.009, vapourDeficitKgM3(4, 0.75)) / 9;
    for (const measured of [2.0e-3, 2.8e-3, 4.1e-3])
      expect(Math.abs(Math.log(measured / model))).toBeLessThan(1.645 * 0.5);
  });
});

describe('outer area', () => {
  // Jolicoeur and Mosimann 1960, Growth 24:339-354: means of 24 male and 24 female painted turtles, mm.
  it.each([
    [113.4, 88.3, 40.8, 0.781, 0.36],
    [136.0, 102.7, 51.5, 0.76, 0.379],
  ])(
    'a shell of %d by %d by %d mm as an ellipsoid has about 5.6 V^(2/3), so 10 M^(2/3) with limbs is not too small',
    (l, w, h, wl, hl) => {
      expect(Math.abs(w / l - wl)).toBeLessThan(0.006);
      expect(Math.abs(h / l - hl)).toBeLessThan(0.002);
      const p = 1.6075;
      const [a, b, c] = [l / 2, w / 2, h / 2];
      const area = 4 * Math.PI * (((a * b) ** p + (a * c) ** p + (b * c) ** p) / 3) ** (1 / p);
      const volume = (4 / 3) * Math.PI * a * b * c;
      expect(area / volume ** (2 / 3)).toBeGreaterThan(5.4);
      expect(area / volume ** (2 / 3)).toBeLessThan(6.0);
      expect(bodyAreaM2(1) * 1e4).toBeGreaterThan((area / volume ** (2 / 3)) * 100);
    },
  );
});

describe('gut passage against published times', () => {
  const days = (regime: [hours: number, tempC: number][], referenceDays: number, q10 = 2.24) =>
    24 / regime.reduce((sum, [hours, tempC]) => sum + hours * passagePerDay(tempC, referenceDays, q10), 0);
  const barium: [number, number][] = [
    [12, 20.6],
    [12, 13.9],
  ];

  it('takes 27.5 days in the regime of Holt 1978, where two T. graeca took 25 and 28', () => {
    expect(Math.abs(days(barium, 11) - 27.5)).toBeLessThan(0.2);
    for (const observed of [25, 28]) {
      within(days(barium, 11), observed, 0.2);
      within(days(barium, GUT_REFERENCE.adult.referenceDays.mid), observed, 0.2);
    }
    expect(days([[24, 28]], 11)).toBeCloseTo(11, 9);
  });

  it('the whole calculation on a series of temperatures brackets both observed times', () => {
    const hours = 60 * 24;
    const atMs = Float64Array.from({ length: hours + 1 }, (_, i) => i * 3_600_000);
    const tempC = Float64Array.from({ length: hours + 1 }, (_, i) => (i % 24 >= 6 && i % 24 < 18 ? 20.6 : 13.9));
    const { clearAtMs } = gutProgress({ atMs, tempC }, 0, GUT_REFERENCE.adult);
    expect(clearAtMs.early! / 86_400_000).toBeLessThan(25);
    expect(clearAtMs.expected! / 86_400_000).toBeGreaterThan(25);
    expect(clearAtMs.late ?? Number.POSITIVE_INFINITY).toBeGreaterThan(28 * 86_400_000);
  });

  it('holds the Q10 of Parmenter 1981: 131.5 - 3.33 T hours gives 78.3 h at 16 °C, 18.3 h at 34 °C, 2.24 per 10 K', () => {
    const parmenterH = (tempC: number) => 131.53 - 3.33 * tempC;
    expect(Math.abs(parmenterH(16) - 78.3)).toBeLessThan(0.1);
    expect(Math.abs(parmenterH(34) - 18.3)).toBeLessThan(0.1);
    const ours = passagePerDay(34, 11, 2.24) / passagePerDay(16, 11, 2.24);
    expect(Math.abs(ours ** (10 / 18) - 2.24)).toBeLessThan(0.01);
    within(ours, parmenterH(16) / parmenterH(34), 0.01);
  });

  it('needs 80 to 140 days at 15 °C for 8 hours and 8 °C otherwise: two weeks without food clear nothing in a cold greenhouse', () => {
    const cold: [number, number][] = [
      [8, 15],
      [16, 8],
    ];
    expect(days(cold, 11)).toBeGreaterThan(80);
    expect(days(cold, 14, 2.5)).toBeLessThan(142);
  });
});
