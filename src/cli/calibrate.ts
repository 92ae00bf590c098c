import { calibrateExact } from '../heat/calibration-exact.ts';
import { figure } from '../measure/figures.ts';
import { calibrateSchema } from '../schema/calibrate.ts';
import { problemsOf } from '../schema/problems.ts';
import { say } from '../wording/say.ts';
import { inWords } from './in-words.ts';
import { readJson } from './input.ts';
import { table, wrap } from './layout.ts';
import { type Outcome, Refusal } from './outcome.ts';

/** `stillwinter calibrate FILE|-`: the factors of an exact case that its readings tell, or why they tell none. */
export async function calibrateCommand(file: string): Promise<Outcome> {
  const parsed = calibrateSchema.safeParse(await readJson(file));
  if (!parsed.success) throw new Refusal(say('cli.calibrate.refused'), problemsOf(parsed.error));
  const result = calibrateExact(parsed.data);
  if (result.outcome === 'refused') {
    const text = [say('cli.calibrate.no'), ...result.reasons.map((reason) => wrap(say(reason), 88, '  '))].join('\n');
    return { json: inWords(result), text, code: 1 };
  }
  const { values, ...told } = result;
  const rows = result.factors.map(({ id, value, low, high, logError }) => [
    id,
    ...[value, low, high].map((each) => figure(each, 3)),
    figure(logError, 4),
  ]);
  const head = (['factor', 'value', 'low', 'high', 'error'] as const).map((name) => say(`cli.calibrate.${name}`));
  const lines = [
    table(head, rows),
    '',
    wrap(
      say('cli.calibrate.rest', {
        sd: figure(result.residualSdK[0] ?? Number.NaN, 3),
        memory: figure(result.memoryS / 3600, 1),
        readings: figure(result.readings),
        freedom: figure(result.freedom),
      }),
    ),
  ];
  if (result.holdOut)
    lines.push(
      wrap(
        say('cli.calibrate.holdOut', { rms: figure(result.holdOut.rmsK, 3), bias: figure(result.holdOut.biasK, 3) }),
      ),
    );
  return { json: inWords({ ...told, values: Array.from(values) }), text: lines.join('\n'), code: 0 };
}
