import { createReadStream } from 'node:fs';
import { stat } from 'node:fs/promises';
import { say } from '../wording/say.ts';
import { Refusal } from './outcome.ts';

/** An input a person or another program hands in is smaller than this. */
const LARGEST_BYTES = 256 * 1024 * 1024;

/** The text of a file, or of standard input for `-`. A byte order mark is dropped. */
export async function readText(file: string): Promise<string> {
  const chunks: Buffer[] = [];
  let bytes = 0;
  try {
    if (file !== '-' && !(await stat(file)).isFile())
      throw new Refusal(say('cli.read.title'), [{ where: file, what: say('cli.read.notAFile') }]);
    for await (const chunk of file === '-' ? process.stdin : createReadStream(file)) {
      bytes += (chunk as Buffer).length;
      if (bytes > LARGEST_BYTES)
        throw new Refusal(say('cli.read.title'), [{ where: file, what: say('cli.read.tooLarge') }]);
      chunks.push(chunk as Buffer);
    }
  } catch (error) {
    if (error instanceof Refusal) throw error;
    const code = (error as NodeJS.ErrnoException).code ?? '';
    const what = code === 'ENOENT' ? say('cli.read.noFile') : say('cli.read.failed', { code });
    throw new Refusal(say('cli.read.title'), [{ where: file, what }]);
  }
  return Buffer.concat(chunks)
    .toString('utf8')
    .replace(/^\uFEFF/, '');
}

/** The JSON document of a file or of standard input; what is wrong with it is told by line and column. */
export async function readJson(file: string): Promise<unknown> {
  const text = await readText(file);
  const name = file === '-' ? say('cli.read.standardInput') : file;
  if (text.trim() === '') throw new Refusal(say('cli.read.title'), [{ where: name, what: say('cli.read.empty') }]);
  try {
    return JSON.parse(text);
  } catch (error) {
    const at = /line (\d+) column (\d+)/.exec((error as Error).message);
    const where = at ? `${name}, line ${at[1]}, column ${at[2]}` : name;
    throw new Refusal(say('cli.read.title'), [{ where, what: say('cli.read.notJson') }]);
  }
}
