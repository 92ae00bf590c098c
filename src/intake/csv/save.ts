import { v7 as uuidv7 } from 'uuid';
import { announce, announceEntry } from '../../records/announce.ts';
import type { Database } from '../../records/database.ts';
import { list, makeIn, type Scope } from '../../records/entries.ts';
import { PROBE } from '../../records/kinds.ts';
import { RecordProblem } from '../../records/problem.ts';
import { inBulk } from '../../records/reading-columns.ts';
import { QUALITY_CODES, SOURCE_CODES } from '../../records/reading-store.ts';
import { numberProbes, storeSpans } from '../../records/readings.ts';
import type { SavedImport } from '../../schema/import.ts';
import { spelled } from '../../schema/probe-name.ts';
import type { Probe } from '../../schema/reading.ts';
import { say } from '../../wording/say.ts';
import type { ImportedFile } from './import.ts';

const GOOD = QUALITY_CODES.indexOf('good');
const SUSPECT = QUALITY_CODES.indexOf('suspect');
const CSV = SOURCE_CODES.indexOf('csv');
const USUAL_INTERVAL_S = 600;

export interface SaveOptions {
  /** Which probe each name of the file stands for; a name left out goes to the probe of that name, or a new one is made. */
  readonly probes?: Readonly<Record<string, string>>;
  /** Names for the probes that are made, by the name in the file; one left out bears the name of the file. */
  readonly newNames?: Readonly<Record<string, string>>;
  /** Hears how many readings of how many have been written. */
  readonly progress?: (done: number, all: number) => void;
}

/**
 * Saves everything a file holds in one durable transaction, each reading once: the same file again stores nothing new, and a reading that is
 * there already stays as it is. The offset of a probe is added, as for readings that are sent.
 *
 * @throws RecordProblem `invalid` while a question about the file is open, or when a probe is not known; nothing is saved then
 */
export async function saveImported(
  database: Database,
  scope: Scope,
  file: ImportedFile,
  options: SaveOptions = {},
): Promise<SavedImport> {
  const { questions } = file.preview;
  if (questions.length > 0)
    throw new RecordProblem(
      'invalid',
      say('intake.save.open'),
      questions.map(({ choice, question }) => ({ where: choice, what: question })),
    );
  if (file.preview.ready === 0) throw new RecordProblem('invalid', say('intake.save.nothing'));
  const known: Probe[] = await list(database, scope, PROBE);
  const names = [...new Set([...file.probes, ...file.spans].map((one) => one.probe))];
  const probes = names.map((name) => theProbe(name, known, file, options));
  const made = probes.filter((probe) => !known.includes(probe));
  const probeOf = new Map(names.map((name, at) => [name, probes[at]!]));
  const all = file.probes.reduce((sum, one) => sum + one.atMs.length, 0);

  const saved = await inBulk(
    database,
    file.probes.map((one) => one.atMs),
    async ({ kysely, store }) => {
      for (const probe of made) await makeIn(kysely, scope, PROBE, probe);
      await numberProbes(kysely, scope.groupId);
      const rows = await kysely.selectFrom('probeNumbers').select(['probeId', 'number']).execute();
      const numbers = new Map(rows.map((row) => [row.probeId, row.number]));
      let done = 0;
      let stored = 0;
      for (const one of file.probes) {
        const probe = probeOf.get(one.probe)!;
        const columns = {
          probe: numbers.get(probe.id)!,
          atMs: one.atMs,
          tempC: probe.offsetC === 0 ? one.tempC : one.tempC.map((tempC) => rounded(tempC + probe.offsetC)),
          humidity: one.humidity,
          quality: one.suspect.map((suspect) => (suspect === 1 ? SUSPECT : GOOD)),
          source: CSV,
        };
        const before = done;
        stored += await store(columns, (count) => options.progress?.(before + count, all));
        done += one.atMs.length;
      }
      const spans = file.spans.map(({ probe: name, fromMs, toMs, maxC, minC }) => {
        const { id, offsetC } = probeOf.get(name)!;
        return {
          probe: numbers.get(id)!,
          fromAtMs: fromMs,
          toAtMs: toMs,
          maxC: rounded(maxC + offsetC),
          minC: rounded(minC + offsetC),
        };
      });
      return { stored, spans: (await storeSpans(kysely, scope, spans)).stored };
    },
  );

  for (const probe of made) announceEntry(database, PROBE.name, probe);
  if (saved.stored + saved.spans > 0) {
    const fromMs = Date.parse(file.preview.detected.from ?? '');
    announce(database, { kind: 'readings', probeIds: probes.map((probe) => probe.id), fromMs });
  }
  return {
    stored: saved.stored,
    alreadyThere: all - saved.stored,
    spansStored: saved.spans,
    spansAlreadyThere: file.spans.length - saved.spans,
    rejected: file.preview.rejected,
    probes: names.map((name, at) => ({
      name,
      probeName: probes[at]!.name,
      probeId: probes[at]!.id,
      made: made.includes(probes[at]!),
    })),
  };
}

const rounded = (tempC: number) => Math.round(tempC * 1e4) / 1e4;

/** The probe that a name of the file stands for. */
function theProbe(name: string, known: readonly Probe[], file: ImportedFile, options: SaveOptions): Probe {
  const asked = options.probes?.[name];
  if (asked !== undefined) {
    const found = known.find((probe) => probe.id === asked);
    if (found) return found;
    const what = say('records.noSuchProbe');
    throw new RecordProblem('invalid', what, [{ where: `probes.${name}`, what }]);
  }
  const called = options.newNames?.[name] ?? name;
  const found = known.find((probe) => spelled(probe.name) === spelled(called));
  if (found) return found;
  const stepS = Math.round(file.preview.detected.usualStepS ?? USUAL_INTERVAL_S);
  return { id: uuidv7(), name: called, offsetC: 0, expectedIntervalS: Math.min(172_800, Math.max(1, stepS)) };
}
