import { simulateExact } from '../heat/exact.ts';
import { simulateRefrigerator } from '../heat/refrigerator-exact.ts';
import { figure, percent, temperature } from '../measure/figures.ts';
import { problemsOf } from '../schema/problems.ts';
import { exactRefrigeratorSchema } from '../schema/refrigerator.ts';
import { simulateExactSchema } from '../schema/simulate.ts';
import { say } from '../wording/say.ts';
import { readJson } from './input.ts';
import { type Outcome, Refusal } from './outcome.ts';

/**
 * `stillwinter simulate --exact FILE|-`: a shell around well-mixed contents by its exact physics, or, where the input names a
 * compressor, a heat network kept cold by one.
 */
export async function simulateExactCommand(file: string): Promise<Outcome> {
  const input = await readJson(file);
  if (typeof input === 'object' && input !== null && 'compressor' in input) return refrigeratorOutcome(input);
  const parsed = simulateExactSchema.safeParse(input);
  if (!parsed.success) throw new Refusal(say('cli.simulate.refused'), problemsOf(parsed.error));
  const result = simulateExact(parsed.data);
  const { summary } = result;
  const hours = (list: readonly { limitC: number; hours: number; longestRunH: number }[], word: string) =>
    list.map((each) =>
      say('cli.simulate.beyond', {
        word,
        limit: temperature(each.limitC, 'C', 0),
        hours: figure(each.hours, 1),
        run: figure(each.longestRunH, 1),
      }),
    );
  const text = [
    say('cli.simulate.exactTitle', {
      hours: figure(summary.hours, 1),
      u: figure(result.transmittanceWm2K, 3),
      loss: figure(result.lossWK, 3),
      slowest: figure(result.timeConstantsH[0] ?? Number.NaN, 1),
      damping: figure(result.dampingOneIn, 1),
      lag: figure(result.lagH, 1),
    }),
    say('cli.simulate.exactRange', {
      coldest: temperature(summary.coldestC, 'C', 2),
      mean: temperature(summary.meanC, 'C', 2),
      warmest: temperature(summary.warmestC, 'C', 2),
      swing: figure(summary.meanDailySwingK, 2),
      steadiness: figure(summary.steadiness * 100, 1),
    }),
    ...hours(summary.under, say('cli.simulate.under')),
    ...hours(summary.over, say('cli.simulate.over')),
    say('cli.simulate.exactSeries'),
  ].join('\n');
  return { json: result, text, code: 0 };
}

function refrigeratorOutcome(input: unknown): Outcome {
  const parsed = exactRefrigeratorSchema.safeParse(input);
  if (!parsed.success) throw new Refusal(say('cli.simulate.refused'), problemsOf(parsed.error));
  const asked = parsed.data;
  const result = simulateRefrigerator(asked);
  const starts = result.events.filter((event) => event.kind === 'on').length;
  const text = [
    say('cli.simulate.exactRefrigerator', {
      hours: figure(asked.spanS / 3600, 1),
      duty: percent(result.duty),
      count: starts,
      starts: figure(starts),
    }),
    ...Object.entries(result.meanC).map(([node, meanC]) => {
      const course = result.temperatureC[node] ?? [];
      return say('cli.simulate.exactNode', {
        node,
        mean: temperature(meanC, 'C', 2),
        coldest: temperature(
          course.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY),
          'C',
          2,
        ),
        warmest: temperature(
          course.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY),
          'C',
          2,
        ),
      });
    }),
    ...(asked.watches ?? []).map(({ node, limitC }, i) => {
      const atS = result.watchedAtS[i];
      const limit = temperature(limitC, 'C', 1);
      return atS === null || atS === undefined
        ? say('cli.simulate.exactNotPassed', { node, limit })
        : say('cli.simulate.exactPassed', { node, limit, hours: figure(atS / 3600, 3) });
    }),
    say('cli.simulate.exactSeries'),
  ].join('\n');
  return { json: result, text, code: 0 };
}
