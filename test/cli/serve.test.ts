import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { stillwinter, stillwinterJson } from './stillwinter.ts';

const folder = mkdtempSync(join(tmpdir(), 'stillwinter-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('stillwinter serve', () => {
  it('prints one line with its address, answers there, and stops in good order when asked', async () => {
    const child = spawn(process.execPath, ['bin/stillwinter.mjs', 'serve', '--data', folder, '--port', '0']);
    const line = await new Promise<string>((resolve, reject) => {
      child.stdout.once('data', (chunk) => resolve(String(chunk)));
      child.once('exit', (code) => reject(new Error(`ended with ${code}`)));
    });
    const address = /http:\/\/127\.0\.0\.1:\d+/.exec(line)?.[0];
    expect(address).toBeDefined();
    const health = await fetch(`${address}/health`);
    expect(health.status).toBe(200);
    await health.json();
    child.removeAllListeners('exit');
    const ended = new Promise<number | null>((resolve) => child.once('exit', resolve));
    child.kill('SIGTERM');
    expect(await ended).toBe(0);
  });
});

describe('stillwinter user', () => {
  it('lists nobody in a new group and refuses a passphrase for nobody', async () => {
    expect((await stillwinterJson(['user', 'list', '--data', folder])).json).toEqual([]);
    const ran = await stillwinter(['user', 'passphrase', 'sedge', '--data', folder], 'seven quiet brown leaves\n');
    expect(ran.code).toBe(1);
    expect(ran.stderr).toContain('sedge');
  });

  it('asks for a name: exit 2', async () => {
    expect((await stillwinter(['user', 'passphrase', '--data', folder])).code).toBe(2);
  });
});
