import { closeSync, openSync, renameSync, rmSync, writeSync } from 'node:fs';
import type { Database } from './database.ts';
import { type ExportAsked, type ExportFormat, exportGroup } from './export.ts';

/** Writes an export to a file that only its owner reads. A half-written archive never stands under the name asked for. */
export async function exportToFile(database: Database, asked: ExportAsked, file: string): Promise<ExportFormat> {
  const draft = `${file}.part`;
  const handle = openSync(draft, 'w', 0o600);
  let open = true;
  try {
    const format = await exportGroup(database, asked, (chunk) => {
      for (let at = 0; at < chunk.length; ) at += writeSync(handle, chunk, at);
    });
    closeSync(handle);
    open = false;
    renameSync(draft, file);
    return format;
  } catch (error) {
    if (open) closeSync(handle);
    rmSync(draft, { force: true });
    throw error;
  }
}
