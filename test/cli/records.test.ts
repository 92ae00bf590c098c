import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { stillwinter, stillwinterJson } from './stillwinter.ts';

const folder = mkdtempSync(join(tmpdir(), 'stillwinter-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const data = join(folder, 'data');

describe('stillwinter backup, restore, export, take-in and move', () => {
  it('a backup is made, restored, and what stood there is kept', async () => {
    const made = await stillwinterJson(['backup', '--data', data]);
    expect(made.code).toBe(0);
    const { file } = made.json as { file: string };
    expect(existsSync(file)).toBe(true);
    const back = await stillwinterJson(['restore', '--data', data]);
    expect(back.code).toBe(0);
    expect(back.json).toMatchObject({ restored: file });
    expect(existsSync((back.json as { kept: string }).kept)).toBe(true);
  });

  it('without a sound backup nothing is touched', async () => {
    const ran = await stillwinterJson(['restore', '--data', join(folder, 'empty')]);
    expect(ran.code).toBe(1);
    expect(ran.json).toMatchObject({ title: 'Nothing was restored' });
  });

  it('a database without a group has nothing to export, and no file is left', async () => {
    const file = join(folder, 'all.zip');
    expect((await stillwinter(['export', file, '--data', data])).code).toBe(1);
    expect(existsSync(file)).toBe(false);
    expect(existsSync(`${file}.part`)).toBe(false);
  });

  it('a file that is no export is refused', async () => {
    expect((await stillwinter(['take-in', 'package.json', '--data', data])).code).toBe(1);
  });

  it('everything moves to another folder with counts and checksums', async () => {
    const ran = await stillwinterJson(['move', join(folder, 'other'), '--data', data]);
    expect(ran.code).toBe(0);
    expect((ran.json as { tables: unknown[] }).tables.length).toBeGreaterThan(5);
  });
});
