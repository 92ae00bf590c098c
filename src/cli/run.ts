import { diskTrouble } from '../records/disk.ts';
import type { Problem } from '../schema/problems.ts';
import { say } from '../wording/say.ts';
import { type Outcome, Refusal, UsageError } from './outcome.ts';

const write = (stream: NodeJS.WriteStream, text: string): Promise<void> =>
  new Promise((resolve, reject) => stream.write(text, (error) => (error ? reject(error) : resolve())));

/**
 * Runs a command and prints what it says: with `json` exactly one document on standard output, otherwise words. Sets the exit
 * code: 0 done, 1 the answer is no or the input wrong, 2 usage.
 */
export async function runCommand(json: boolean, command: () => Promise<Outcome | undefined>): Promise<void> {
  try {
    const outcome = await command();
    if (!outcome) return;
    await write(process.stdout, json ? `${JSON.stringify(outcome.json, null, 2)}\n` : `${outcome.text}\n`);
    process.exitCode = outcome.code;
  } catch (error) {
    await reportFailure(json, error);
  }
}

/** Says on standard error what went wrong; with `json` also as problem details on standard output. */
export async function reportFailure(json: boolean, error: unknown): Promise<void> {
  // The reader of a pipe has gone: nobody is left to tell.
  if ((error as NodeJS.ErrnoException).code === 'EPIPE') return;
  const usage = error instanceof UsageError;
  const title = error instanceof Refusal ? error.title : say(usage ? 'cli.usage.title' : 'cli.failed.title');
  const what = error instanceof Error ? error.message : String(error);
  const trouble = diskTrouble(error);
  const detail = trouble === undefined ? what : say(`cli.failed.${trouble}`, { what });
  const errors =
    error instanceof Refusal ? error.errors : ((error as { problems?: readonly Problem[] }).problems ?? []);
  process.exitCode = usage ? 2 : 1;
  if (json) await write(process.stdout, `${JSON.stringify({ title, detail, errors }, null, 2)}\n`);
  await write(process.stderr, usage ? `${detail}\n` : `${title}\n${detail.replace(/^/gm, '  ')}\n`);
}
