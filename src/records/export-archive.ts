import { unzipSync } from 'fflate';
import { z } from 'zod';
import { say } from '../wording/say.ts';
import { EXPORT_FORMAT, EXPORT_VERSION, type ExportFormat, notAnExport, sha256 } from './export.ts';
import { RecordProblem } from './problem.ts';
import { sumOf, textPieces } from './zip-parts.ts';

/** An archive may hold this much unpacked, in this many files: more is a trap, not an export. */
const MOST_BYTES = 2_000_000_000;
const MOST_FILES = 20_000;
/** Records shrink to a tenth or so; what shrinks to less than a two-hundredth, and is large, is a trap too. */
const MOST_SHRUNK = 200;
const ALWAYS_FINE_BYTES = 20_000_000;
/** A text longer than this cannot be held in one piece; readings are read piece by piece. */
const MOST_BYTES_OF_ONE = 500_000_000;

/** Name of a part with the readings of one probe, and the probe in it. */
export const READINGS = /^readings\/([0-9a-f-]{36})\.csv$/;

// Loose: a newer version may say more, and is told apart by its number.
const formatSchema = z.looseObject({
  format: z.literal(EXPORT_FORMAT),
  version: z.number(),
  groupId: z.string(),
  parts: z.array(z.looseObject({ name: z.string(), rows: z.number(), sha256: z.string() })),
});

/** An export opened for reading: nothing is unpacked before its sizes and its format are known to be sound. */
export interface ExportArchive {
  readonly format: ExportFormat;
  /** The text of one part, which must match its checksum. Throws RecordProblem. */
  part(name: string): string;
  /** Throws RecordProblem where a part does not match its checksum. */
  check(name: string): Promise<void>;
  /** A part in pieces of whole lines, for one that is too long to be held; `check` it first. Throws RecordProblem. */
  pieces(name: string): AsyncIterable<string>;
}

/** Opens an export. Throws RecordProblem when it is none, is a trap, or comes from a newer version. */
export function openArchive(archive: Uint8Array): ExportArchive {
  const files = sizesOf(archive);
  const format = formatOf(textOf(archive, files, 'format.json'));
  const compare = (name: string, sum: string) => {
    if (sum === format.parts.find((part) => part.name === name)?.sha256) return;
    const what = say('records.exportSum', { name });
    throw new RecordProblem('invalid', what, [{ where: name, what }]);
  };
  return {
    format,
    part(name) {
      const content = textOf(archive, files, name);
      compare(name, sha256(content));
      return content;
    },
    check: async (name) => compare(name, await sumOf(archive, name)),
    pieces: (name) => textPieces(archive, name),
  };
}

function sizesOf(archive: Uint8Array): Map<string, number> {
  const sizes = new Map<string, number>();
  let total = 0;
  let largest = 0;
  try {
    unzipSync(archive, {
      filter: (file) => {
        sizes.set(file.name, file.originalSize);
        total += file.originalSize;
        if (!READINGS.test(file.name)) largest = Math.max(largest, file.originalSize);
        return false;
      },
    });
  } catch {
    throw notAnExport('zip');
  }
  const trap = total > ALWAYS_FINE_BYTES && total > MOST_SHRUNK * archive.length;
  if (trap || total > MOST_BYTES || largest > MOST_BYTES_OF_ONE || sizes.size > MOST_FILES)
    throw new RecordProblem('invalid', say('records.exportTooBig'));
  return sizes;
}

/** One file of the archive, unpacked alone. Names are only looked up here, never used as paths. */
function textOf(archive: Uint8Array, sizes: ReadonlyMap<string, number>, name: string): string {
  if (!sizes.has(name)) throw notAnExport(name);
  try {
    const bytes = unzipSync(archive, { filter: (file) => file.name === name })[name]!;
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw notAnExport(name);
  }
}

function formatOf(text: string): ExportFormat {
  const format = formatSchema.safeParse(parsed('format.json', text));
  if (!format.success) throw notAnExport('format.json');
  if (format.data.version > EXPORT_VERSION) throw new RecordProblem('database-newer', say('records.exportNewer'));
  return format.data as unknown as ExportFormat;
}

/** JSON of a part. Throws RecordProblem. */
export function parsed(name: string, text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    throw notAnExport(name);
  }
}
