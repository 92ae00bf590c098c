import { coverage } from '../../test/physiology/support/coverage.ts';

/**
 * Do the bands of the mass forecast hold what they say? Thousands of animals made by independent equations, weighed weekly,
 * forecast from what was known at the time. One JSON line per case; exit 1 when a 90 % band holds fewer than 85 or more
 * than 98.5 % of the animals, or more than 1 % of ordinary weigh-ins are taken for events.
 */
const ANIMALS = 3000;
const CASES: readonly [knownWeighIns: number, aheadDays: number][] = [
  [0, 28],
  [0, 84],
  [2, 28],
  [4, 28],
  [4, 56],
  [8, 28],
  [11, 7],
];

/** Animals the prior is wrong about: half again and twice as leaky as usual. Only after weigh-ins can the bands hold for them. */
const STRANGERS: readonly [logMiddle: number, knownWeighIns: number, aheadDays: number][] = [
  [Math.log(1.5), 4, 28],
  [Math.log(2), 4, 28],
  [Math.log(2), 8, 28],
];

let held = true;
for (const [known, ahead] of CASES) {
  const found = coverage(ANIMALS, known, ahead);
  process.stdout.write(`${JSON.stringify({ name: 'estimator-coverage', ...found })}\n`);
  held &&= found.in90 >= 0.85 && found.in90 <= 0.985 && found.falseEvents <= 0.01;
}
for (const [logMiddle, known, ahead] of STRANGERS) {
  const found = coverage(ANIMALS / 2, known, ahead, 50_000, { logMiddle, logSpread: 0.5 });
  process.stdout.write(
    `${JSON.stringify({ name: 'estimator-coverage-strangers', timesUsual: Math.exp(logMiddle), ...found })}\n`,
  );
  // An animal at four or five times the usual loss is asked to be weighed again now and then, as it should.
  held &&= found.in90 >= 0.85 && found.falseEvents <= 0.02;
}
process.exitCode = held ? 0 : 1;
