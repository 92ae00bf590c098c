import { createReadStream } from 'node:fs';
import { stat } from 'node:fs/promises';
import { importFile } from '../intake/csv/import.ts';
import { type FileOfBytes, NotATableError } from '../intake/csv/read-table.ts';
import { temperature } from '../measure/figures.ts';
import { isZone } from '../measure/zone.ts';
import { type ImportChoices, type ImportPreview, importChoicesSchema } from '../schema/import.ts';
import { problemsOf } from '../schema/problems.ts';
import { say } from '../wording/say.ts';
import { table, wrap } from './layout.ts';
import { type Outcome, Refusal, UsageError } from './outcome.ts';

export interface ImportOptions {
  readonly preview?: boolean;
  readonly zone?: string;
  readonly probe?: string;
  readonly choices?: string;
}

/** `stillwinter import FILE|- --preview`: what a logger's file holds, what is doubtful, and the first readings. Saves nothing. */
export async function importCommand(file: string, options: ImportOptions): Promise<Outcome> {
  if (!options.preview) throw new UsageError(say('cli.import.onlyPreview'));
  const zone = options.zone ?? Intl.DateTimeFormat().resolvedOptions().timeZone;
  if (!isZone(zone)) throw new UsageError(say('cli.import.badZone', { zone }));
  const choices = choicesOf(options.choices);
  const bytes = await bytesOf(file);
  try {
    const { preview } = await importFile(bytes, {
      zone,
      nowMs: Date.now(),
      probeName: options.probe ?? 'probe',
      ...(choices ? { choices } : {}),
    });
    return { json: preview, text: inWords(preview), code: 0 };
  } catch (error) {
    if (!(error instanceof NotATableError)) throw error;
    throw new Refusal(say('cli.import.refused'), [{ where: file, what: say(error.problem) }]);
  }
}

function choicesOf(text: string | undefined): ImportChoices | undefined {
  if (text === undefined) return undefined;
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    throw new UsageError(say('cli.import.badChoices'));
  }
  const parsed = importChoicesSchema.safeParse(value);
  if (!parsed.success) throw new Refusal(say('cli.import.refused'), problemsOf(parsed.error));
  return parsed.data;
}

/** The file as often as it is asked for; standard input is kept, because it can be read only once. */
async function bytesOf(file: string): Promise<FileOfBytes> {
  if (file !== '-') {
    const found = await stat(file).catch(() => undefined);
    if (!found?.isFile())
      throw new Refusal(say('cli.read.title'), [
        { where: file, what: say(found ? 'cli.read.notAFile' : 'cli.read.noFile') },
      ]);
    return () => createReadStream(file);
  }
  const chunks: Uint8Array[] = [];
  for await (const chunk of process.stdin) chunks.push(chunk as Uint8Array);
  return async function* () {
    yield* chunks;
  };
}

function inWords(preview: ImportPreview): string {
  const lines = [wrap(preview.summary)];
  if (preview.questions.length > 0) {
    lines.push('', say('cli.import.ask'));
    for (const { question, options, choice } of preview.questions) {
      lines.push(wrap(question, 88, '  '));
      for (const { value, means } of options)
        lines.push(wrap(say('cli.import.option', { choice, value, means }), 88, '    '));
    }
  }
  if (preview.rejections.length > 0) {
    lines.push('', say('cli.import.rejected'));
    for (const { line, reason } of preview.rejections.slice(0, 5))
      lines.push(wrap(say('cli.import.line', { line, reason }), 88, '  '));
  }
  if (preview.readings.length > 0) {
    const rows = preview.readings.slice(0, 10).map(({ probe, at, tempC }) => [at, probe, temperature(tempC, 'C', 2)]);
    lines.push('', say('cli.import.first'), table(['UTC', 'probe', '°C'], rows, [0, 1]));
  }
  return lines.join('\n');
}
