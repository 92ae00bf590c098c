import { figure } from '../measure/figures.ts';
import { exportToFile } from '../records/export-file.ts';
import { presentGroup } from '../records/groups.ts';
import { say } from '../wording/say.ts';
import { type Outcome, Refusal } from './outcome.ts';
import { type RecordsOptions, withRecords } from './records.ts';

export interface ExportOptions extends RecordsOptions {
  readonly animal?: string;
}

/** `stillwinter export FILE`: everything of the group, or of one animal, as a zip of JSON and CSV with its schema. */
export async function exportCommand(file: string, options: ExportOptions): Promise<Outcome> {
  return withRecords(options, async (database) => {
    const group = await presentGroup(database);
    if (!group) throw new Refusal(say('cli.export.refused'), [{ where: 'group', what: say('cli.export.noGroup') }]);
    const animal = options.animal === undefined ? {} : { animalId: options.animal };
    const format = await exportToFile(database, { groupId: group.id, nowMs: Date.now(), ...animal }, file);
    const rows = format.parts.reduce((sum, part) => sum + part.rows, 0);
    const text = say('cli.export.done', { file, parts: format.parts.length, rows: figure(rows) });
    return { json: { file, ...format }, text, code: 0 };
  });
}
