import { simulateExact } from '../heat/exact.ts';
import { figure, temperature } from '../measure/figures.ts';
import { problemsOf } from '../schema/problems.ts';
import { simulateExactSchema } from '../schema/simulate.ts';
import { say } from '../wording/say.ts';
import { readJson } from './input.ts';
import { type Outcome, Refusal } from './outcome.ts';

/** `stillwinter simulate --exact FILE|-`: a shell around well-mixed contents by its exact physics. */
export async function simulateExactCommand(file: string): Promise<Outcome> {
  const parsed = simulateExactSchema.safeParse(await readJson(file));
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
