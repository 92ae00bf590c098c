import { describe, expect, it } from 'vitest';
import { kalmanState, outlook, predictStep, takeReading } from '../../src/heat/kalman.ts';
import { seededRandom } from '../../src/weather/random.ts';

const one = Float64Array.of(1);
const none = Float64Array.of(0);

// Annual flow of the Nile at Aswan, 1871-1970, 10^8 m3 (Cobb 1978, Biometrika 65:243-251; R data set "Nile"; from memory, confirmed by the
// variances below).
const nile = [
  1120, 1160, 963, 1210, 1160, 1160, 813, 1230, 1370, 1140, 995, 935, 1110, 994, 1020, 960, 1180, 799, 958, 1140, 1100,
  1210, 1150, 1250, 1260, 1220, 1030, 1100, 774, 840, 874, 694, 940, 833, 701, 916, 692, 1020, 1050, 969, 831, 726, 456,
  824, 702, 1120, 1100, 832, 764, 821, 768, 845, 864, 862, 698, 845, 744, 796, 1040, 759, 781, 865, 845, 944, 984, 897,
  822, 1010, 771, 676, 649, 846, 812, 742, 801, 1040, 860, 874, 848, 890, 744, 749, 838, 1050, 918, 986, 797, 923, 975,
  815, 1020, 906, 901, 1170, 912, 746, 919, 718, 714, 740,
];

function localLevel(q: number, r: number, readings: readonly number[]) {
  const state = kalmanState([0], [1e7]);
  let logLikelihood = 0;
  readings.forEach((y, t) => {
    if (t > 0) predictStep(state, one, none, Float64Array.of(q));
    const { surprise, variance } = takeReading(state, one, y, r);
    if (t > 0) logLikelihood -= 0.5 * (Math.log(2 * Math.PI * variance) + (surprise * surprise) / variance);
  });
  return { state, logLikelihood };
}

describe('Kalman filter', () => {
  it('scalar example: gains 0.8 and 0.4444, equal to the weighted mean, in either order', () => {
    const state = kalmanState([0], [4]);
    const first = takeReading(state, one, 5, 1);
    expect([first.gain[0], state.mean[0], state.covariance[0]]).toEqual([0.8, 4, expect.closeTo(0.8, 12)]);
    const second = takeReading(state, one, 6, 1);
    expect(second.gain[0]).toBeCloseTo(0.4444, 4);
    expect(state.mean[0]).toBeCloseTo(11 / 2.25, 12);
    expect(state.covariance[0]).toBeCloseTo(1 / 2.25, 12);
    const turned = kalmanState([0], [4]);
    takeReading(turned, one, 6, 1);
    takeReading(turned, one, 5, 1);
    expect(turned.mean[0]).toBeCloseTo(state.mean[0]!, 12);
    expect(turned.covariance[0]).toBeCloseTo(state.covariance[0]!, 12);
  });

  it('local level, q 0.1, r 1: steady variance (q + sqrt(q^2 + 4qr))/2 = 0.370156, gain 0.270156', () => {
    const state = kalmanState([0], [9]);
    let gain = 0;
    let predicted = 0;
    for (let t = 0; t < 200; t++) {
      predictStep(state, one, none, Float64Array.of(0.1));
      predicted = state.covariance[0]!;
      gain = takeReading(state, one, 0, 1).gain[0]!;
    }
    expect(predicted).toBeCloseTo((0.1 + Math.sqrt(0.01 + 0.4)) / 2, 10);
    expect(predicted).toBeCloseTo(0.370156, 6);
    expect(gain).toBeCloseTo(0.270156, 6);
    expect(state.covariance[0]).toBeCloseTo(0.270156, 6);
  });

  it('Nile flows: maximum likelihood variances 1469.1 and 15098.6 (Durbin and Koopman; R StructTS) within 1 %', () => {
    const objective = (p: Float64Array) => -localLevel(Math.exp(p[0]!), Math.exp(p[1]!), nile).logLikelihood;
    let best = { value: Number.POSITIVE_INFINITY, q: 0, r: 0 };
    for (let q = 1350; q <= 1600; q += 2.5)
      for (let r = 14_700; r <= 15_500; r += 12.5) {
        const value = objective(Float64Array.of(Math.log(q), Math.log(r)));
        if (value < best.value) best = { value, q, r };
      }
    expect(best.q / 1469.1).toBeCloseTo(1, 2);
    expect(best.r / 15_098.6).toBeCloseTo(1, 2);
    const { state } = localLevel(1469.1, 15_098.6, nile);
    predictStep(state, one, none, Float64Array.of(1469.1));
    expect(state.covariance[0]! / 5501.26).toBeCloseTo(1, 4);
    expect(takeReading(state, one, 0, 15_098.6).gain[0]).toBeCloseTo(0.26705, 4);
  });
});

describe('identities of the filter', () => {
  const random = seededRandom(9);
  const n = 4;
  const draw = () => {
    const state = kalmanState(
      Array.from({ length: n }, () => random.normal()),
      Array.from({ length: n }, () => 0.5 + random.uniform()),
    );
    const f = Float64Array.from({ length: n * n }, (_, k) => (k % (n + 1) === 0 ? 0.9 : 0.05 * random.normal()));
    const q = new Float64Array(n * n);
    for (let i = 0; i < n; i++) q[i * n + i] = 0.1;
    for (let k = 0; k < 5; k++) {
      predictStep(state, f, new Float64Array(n), q);
      takeReading(
        state,
        Float64Array.from({ length: n }, () => random.normal()),
        random.normal(),
        0.3,
      );
    }
    return state;
  };
  const copy = (state: ReturnType<typeof draw>) => ({
    size: n,
    mean: state.mean.slice(),
    covariance: state.covariance.slice(),
  });

  it('the order of independent readings does not matter', () => {
    for (let trial = 0; trial < 20; trial++) {
      const a = draw();
      const b = copy(a);
      const readings = Array.from({ length: 3 }, () => ({
        h: Float64Array.from({ length: n }, () => random.normal()),
        y: random.normal(),
        r: 0.1 + random.uniform(),
      }));
      for (const { h, y, r } of readings) takeReading(a, h, y, r);
      for (const { h, y, r } of readings.reverse()) takeReading(b, h, y, r);
      for (let i = 0; i < n; i++) expect(a.mean[i]).toBeCloseTo(b.mean[i]!, 9);
      for (let k = 0; k < n * n; k++) expect(a.covariance[k]).toBeCloseTo(b.covariance[k]!, 9);
    }
  });

  it('a reading of infinite variance changes nothing', () => {
    const a = draw();
    const b = copy(a);
    takeReading(a, Float64Array.of(1, 2, 3, 4), 99, Number.POSITIVE_INFINITY);
    expect(a.mean).toEqual(b.mean);
    expect(a.covariance).toEqual(b.covariance);
  });

  it('the covariance stays symmetric and positive through many exact readings', () => {
    const state = draw();
    for (let k = 0; k < 500; k++) {
      const h = Float64Array.from({ length: n }, () => random.normal());
      takeReading(state, h, random.normal(), 1e-10);
      const any = Float64Array.from({ length: n }, () => random.normal());
      expect(outlook(state, any).variance).toBeGreaterThanOrEqual(0);
      for (let i = 0; i < n; i++)
        for (let j = 0; j < n; j++) expect(state.covariance[i * n + j]).toBe(state.covariance[j * n + i]);
    }
  });

  it('scaling all variances scales the covariance and leaves the estimate', () => {
    const run = (scale: number) => {
      const state = kalmanState([0, 1], [2 * scale, 3 * scale]);
      for (let k = 0; k < 10; k++) {
        predictStep(
          state,
          Float64Array.of(0.9, 0.1, 0, 0.8),
          new Float64Array(2),
          Float64Array.of(0.1 * scale, 0, 0, 0.2 * scale),
        );
        takeReading(state, Float64Array.of(1, 1), Math.sin(k), 0.4 * scale);
      }
      return state;
    };
    const [a, b] = [run(1), run(7)];
    for (let i = 0; i < 2; i++) expect(b.mean[i]).toBeCloseTo(a.mean[i]!, 12);
    for (let k = 0; k < 4; k++) expect(b.covariance[k]).toBeCloseTo(7 * a.covariance[k]!, 12);
  });

  it('likelihood of the surprises equals the joint Gaussian likelihood', () => {
    const y = [1.2, 0.4, 2.1];
    const [q, r, p0] = [0.3, 0.5, 2];
    const state = kalmanState([0], [p0]);
    let sum = 0;
    y.forEach((value, t) => {
      if (t > 0) predictStep(state, one, none, Float64Array.of(q));
      const { surprise, variance } = takeReading(state, one, value, r);
      sum -= 0.5 * (Math.log(2 * Math.PI * variance) + (surprise * surprise) / variance);
    });
    // Covariance of (y1, y2, y3): p0 + q min(i, j) + r on the diagonal; 3 x 3 by hand.
    const s = (i: number, j: number) => p0 + q * Math.min(i, j) + (i === j ? r : 0);
    const m = [0, 1, 2].map((i) => [0, 1, 2].map((j) => s(i, j)));
    const det3 =
      m[0]![0]! * (m[1]![1]! * m[2]![2]! - m[1]![2]! * m[2]![1]!) -
      m[0]![1]! * (m[1]![0]! * m[2]![2]! - m[1]![2]! * m[2]![0]!) +
      m[0]![2]! * (m[1]![0]! * m[2]![1]! - m[1]![1]! * m[2]![0]!);
    const cofactor = (i: number, j: number) => {
      const [a, b] = [0, 1, 2].filter((k) => k !== i) as [number, number];
      const [c, d] = [0, 1, 2].filter((k) => k !== j) as [number, number];
      return (i + j) % 2 === 0
        ? m[a]![c]! * m[b]![d]! - m[a]![d]! * m[b]![c]!
        : -(m[a]![c]! * m[b]![d]! - m[a]![d]! * m[b]![c]!);
    };
    let form = 0;
    for (let i = 0; i < 3; i++) for (let j = 0; j < 3; j++) form += (y[i]! * y[j]! * cofactor(i, j)) / det3;
    expect(sum).toBeCloseTo(-0.5 * (3 * Math.log(2 * Math.PI) + Math.log(det3) + form), 10);
  });
});
