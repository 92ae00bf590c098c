import { stat } from 'node:fs/promises';
import { fileBytes } from '../intake/csv/file-bytes.ts';
import { importFile } from '../intake/csv/import.ts';
import { type FileOfBytes, NotATableError } from '../intake/csv/read-table.ts';
import { saveImported } from '../intake/csv/save.ts';
import { figure, temperature } from '../measure/figures.ts';
import { isZone } from '../measure/zone.ts';
import { presentGroup } from '../records/groups.ts';
import { type ImportChoices, type ImportPreview, importChoicesSchema, type SavedImport } from '../schema/import.ts';
import { problemsOf } from '../schema/problems.ts';
import { say } from '../wording/say.ts';
import { table, wrap } from './layout.ts';
import { type Outcome, Refusal, UsageError } from './outcome.ts';
import { type RecordsOptions, withRecords } from './records.ts';

export interface ImportOptions extends RecordsOptions {
  readonly preview?: boolean;
  readonly dateOrder?: string;
  readonly unit?: string;
  readonly zone?: string;
  readonly probe?: string;
  readonly choices?: string;
}

/**
 * `stillwinter import FILE|-`: saves the readings of a logger's file, each once. With `--preview`: what the file holds, what is doubtful, and
 * the first readings; nothing is saved then.
 */
export async function importCommand(file: string, options: ImportOptions): Promise<Outcome> {
  if (options.zone !== undefined && !isZone(options.zone))
    throw new UsageError(say('cli.import.badZone', { zone: options.zone }));
  const choices = choicesOf(options);
  const bytes = await bytesOf(file);
  const readAs = async (zone: string) => {
    try {
      return await importFile(bytes, {
        zone: options.zone ?? zone,
        nowMs: Date.now(),
        probeName: options.probe ?? 'probe',
        choices,
      });
    } catch (error) {
      if (!(error instanceof NotATableError)) throw error;
      const hint = error.problem.key === 'intake.file.zip' ? ` ${say('cli.import.takeIn')}` : '';
      throw new Refusal(say('cli.import.refused'), [{ where: file, what: say(error.problem) + hint }]);
    }
  };
  if (options.preview) {
    const { preview } = await readAs(Intl.DateTimeFormat().resolvedOptions().timeZone);
    return { json: preview, text: inWords(preview), code: 0 };
  }
  return withRecords(options, async (database) => {
    const group = await presentGroup(database);
    if (!group) throw new Refusal(say('cli.failed.title'), [{ where: 'group', what: say('cli.import.noGroup') }]);
    const imported = await readAs(group.zone);
    if (imported.preview.questions.length > 0)
      throw new Refusal(
        say('intake.save.open'),
        imported.preview.questions.map(({ choice, question }) => ({ where: choice, what: question })),
        inWords(imported.preview),
      );
    const saved = await saveImported(database, { groupId: group.id, personId: null, nowMs: Date.now() }, imported);
    return { json: saved, text: savedInWords(saved), code: 0 };
  });
}

function savedInWords(saved: SavedImport): string {
  const { stored, spansStored, alreadyThere, spansAlreadyThere, rejected } = saved;
  const figures = {
    stored: figure(stored + spansStored),
    there: figure(alreadyThere + spansAlreadyThere),
    rejected: figure(rejected),
  };
  const rows = saved.probes.map(({ name, made }) => [
    name,
    say(made ? 'cli.import.probe.new' : 'cli.import.probe.known'),
  ]);
  return `${wrap(say('cli.import.saved', figures))}\n${table([say('cli.import.probe.head'), ''], rows, [0, 1])}`;
}

/** The answers to a preview's questions: those given one by one stand above those of `--choices`. */
function choicesOf({ choices: text, dateOrder, unit }: ImportOptions): ImportChoices {
  let value: unknown = {};
  try {
    if (text !== undefined) value = JSON.parse(text);
  } catch {
    throw new UsageError(say('cli.import.badChoices'));
  }
  const given = { ...(dateOrder ? { dateOrder } : {}), ...(unit ? { unit } : {}) };
  const parsed = importChoicesSchema.safeParse(isRecord(value) ? { ...value, ...given } : value);
  if (!parsed.success) throw new Refusal(say('cli.import.refused'), problemsOf(parsed.error));
  return parsed.data;
}

const isRecord = (value: unknown): value is object =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** The file as often as it is asked for; standard input is kept, because it can be read only once. */
async function bytesOf(file: string): Promise<FileOfBytes> {
  if (file !== '-') {
    const found = await stat(file).catch(() => undefined);
    if (!found?.isFile())
      throw new Refusal(say('cli.read.title'), [
        { where: file, what: say(found ? 'cli.read.notAFile' : 'cli.read.noFile') },
      ]);
    return fileBytes(file);
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
