import type { PhaseRun } from './frost-phase.ts';

/** As many modes as a step written out holds in registers: with seven it was no faster than the plain loop. */
export const FEW_MODES = 5;

/** What a run hands on: the states of the modes and the heat a mixed lump holds, both written back. */
interface Carried {
  readonly states: Float64Array;
  readonly heldJ: Float64Array;
}

/**
 * A run in one phase of one node wanted, one lump and no more than FEW_MODES modes, as nearly all boxes have: every number of a step stays in the
 * processor's registers. Samples after `begin` up to `end` into `output`, as long as the phase lasts; gives the last sample that is in it.
 */
export function runFewModes(
  now: PhaseRun,
  carried: Carried,
  a: Float64Array,
  b: Float64Array,
  begin: number,
  end: number,
  output: Float64Array,
): number {
  const { poles, gains, readout, straight, passing } = now;
  const m = poles.length;
  const { states, heldJ } = carried;
  const of = (from: Float64Array, at: number, i: number) => (i < m ? from[at]! : 0);
  const [p0, p1, p2, p3, p4] = [of(poles, 0, 0), of(poles, 1, 1), of(poles, 2, 2), of(poles, 3, 3), of(poles, 4, 4)];
  const [a0, a1, a2, a3, a4] = [of(gains, 0, 0), of(gains, 3, 1), of(gains, 6, 2), of(gains, 9, 3), of(gains, 12, 4)];
  const [b0, b1, b2, b3, b4] = [of(gains, 1, 0), of(gains, 4, 1), of(gains, 7, 2), of(gains, 10, 3), of(gains, 13, 4)];
  const [c0, c1, c2, c3, c4] = [of(gains, 2, 0), of(gains, 5, 1), of(gains, 8, 2), of(gains, 11, 3), of(gains, 14, 4)];
  const [w0, w1, w2, w3, w4] = [
    of(readout, 0, 0),
    of(readout, 1, 1),
    of(readout, 2, 2),
    of(readout, 3, 3),
    of(readout, 4, 4),
  ];
  const [l0, l1, l2, l3, l4] = [
    of(readout, m, 0),
    of(readout, m + 1, 1),
    of(readout, m + 2, 2),
    of(readout, m + 3, 3),
    of(readout, m + 4, 4),
  ];
  const [wa, wb, wc] = [straight[0]!, straight[1]!, straight[2]!];
  const [la, lb, lc] = [straight[3]!, straight[4]!, straight[5]!];
  const [sa, sb, sc] = [passing[0]!, passing[1]!, 2 * passing[2]!];
  const [lower, upper] = [now.lower[0]!, now.upper[0]!];
  const mixed = now.mixed[0] === 1;
  let [x0, x1, x2, x3, x4] = [of(states, 0, 0), of(states, 1, 1), of(states, 2, 2), of(states, 3, 3), of(states, 4, 4)];
  let u = a[begin]!;
  let v = b[begin]!;
  let held = heldJ[0]!;
  let owed = l0 * x0 + l1 * x1 + (l2 * x2 + l3 * x3) + (l4 * x4 + (la * u + lb * v + lc));
  let k = begin;
  for (; k < end; k++) {
    const u1 = a[k + 1]!;
    const v1 = b[k + 1]!;
    const y0 = p0 * x0 + (a0 * u + b0 * v + c0);
    const y1 = p1 * x1 + (a1 * u + b1 * v + c1);
    const y2 = p2 * x2 + (a2 * u + b2 * v + c2);
    const y3 = p3 * x3 + (a3 * u + b3 * v + c3);
    const y4 = p4 * x4 + (a4 * u + b4 * v + c4);
    const lump = l0 * y0 + l1 * y1 + (l2 * y2 + l3 * y3) + (l4 * y4 + (la * u1 + lb * v1 + lc));
    let value = lump;
    if (mixed) value = held + (owed - lump) + (sa * (u + u1) + sb * (v + v1) + sc);
    if (!(value >= lower && value <= upper)) break;
    held = value;
    owed = lump;
    output[k + 1] = w0 * y0 + w1 * y1 + (w2 * y2 + w3 * y3) + (w4 * y4 + (wa * u1 + wb * v1 + wc));
    x0 = y0;
    x1 = y1;
    x2 = y2;
    x3 = y3;
    x4 = y4;
    u = u1;
    v = v1;
  }
  if (mixed) heldJ[0] = held;
  [x0, x1, x2, x3, x4].forEach((x, i) => {
    if (i < m) states[i] = x;
  });
  return k;
}
