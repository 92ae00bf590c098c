import { figure } from '../measure/figures.ts';
import { problemsOf } from '../schema/problems.ts';
import { pastWinter, replaySchema } from '../schema/replay.ts';
import { type ReplayLine, replayWinter } from '../winter/replay.ts';
import { say } from '../wording/say.ts';
import { readJson } from './input.ts';
import { table } from './layout.ts';
import { type Outcome, Refusal } from './outcome.ts';

/** `stillwinter replay FILE|-`: what the watch would have said of a past winter, and when. */
export async function replayCommand(file: string): Promise<Outcome> {
  const parsed = replaySchema.safeParse(await readJson(file));
  if (!parsed.success) throw new Refusal(say('cli.replay.refused'), problemsOf(parsed.error));
  const { past, untilMs } = pastWinter(parsed.data);
  const { lines, counts, readings } = replayWinter(past, untilMs);
  const instant = (atMs: number) => new Date(atMs).toISOString().replace('.000Z', 'Z');
  const json = {
    readings,
    counts,
    lines: lines.map(({ atMs, say: words, ...rest }) => ({ at: instant(atMs), ...rest, say: say(words) })),
  };
  const row = (line: ReplayLine): string[] => {
    const at = instant(line.atMs).slice(0, 16).replace('T', ' ');
    if (line.kind === 'weigh-in') return [at, say('cli.replay.weighIn'), say(line.say)];
    const what = line.kind === 'begins' ? say(line.say) : say('cli.replay.ends', { what: say(line.say) });
    return [at, say(`cli.replay.${line.level}`), what];
  };
  const head = [say('cli.replay.at'), say('cli.replay.level'), say('cli.replay.what')];
  const summary = say('cli.replay.counts', {
    readings: figure(readings),
    act: counts['act-now'],
    look: counts['look-today'],
    record: counts['for-the-record'],
  });
  const text = lines.length > 0 ? `${summary}\n\n${table(head, lines.map(row), [0, 1, 2])}` : summary;
  return { json, text, code: 0 };
}
