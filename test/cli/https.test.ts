import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { get } from 'node:https';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { stillwinterJson } from './stillwinter.ts';

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'stillwinter-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface Made {
  readonly names: string[];
  readonly leftOut: string[];
  readonly address: string;
  readonly authorityFile: string;
  readonly fingerprint: string;
}

/** Asks over TLS, trusting what is given; rejects with the reason of the refusal. */
const ask = (
  address: string,
  path: string,
  ca?: Buffer,
): Promise<{ status: number; body: unknown; fingerprint: string }> =>
  new Promise((done, failed) => {
    const call = get(`${address}${path}`, { agent: false, ...(ca ? { ca } : {}) }, (answer) => {
      let text = '';
      const { socket } = answer as unknown as { socket: import('node:tls').TLSSocket };
      const issuer = socket.getPeerCertificate(true).issuerCertificate;
      answer.on('data', (chunk) => {
        text += chunk;
      });
      answer.on('end', () =>
        done({ status: answer.statusCode ?? 0, body: JSON.parse(text), fingerprint: issuer.fingerprint256 }),
      );
    });
    call.on('error', failed);
  });

/** Runs `stillwinter serve` or `demo` with `--https` while `work` asks it. Resolves with the exit code. */
async function running(command: 'serve' | 'demo', work: (address: string) => Promise<void>): Promise<number | null> {
  const args = ['bin/stillwinter.mjs', command, '--https', '--data', folder, '--port', '0', '--json'];
  const child = spawn(process.execPath, args, { env: { ...process.env, STILLWINTER_DATABASE_URL: '' } });
  const ended = new Promise<number | null>((done) => child.once('exit', done));
  let said = '';
  child.stderr.on('data', (chunk) => {
    said += chunk;
  });
  try {
    const line = await new Promise<string>((done, failed) => {
      child.stdout.once('data', (chunk) => done(String(chunk)));
      child.once('exit', () => failed(new Error(said)));
    });
    await work((JSON.parse(line) as { address: string }).address);
  } finally {
    child.kill('SIGTERM');
  }
  return ended;
}

describe('HTTPS by commands', () => {
  it('is refused without a certificate, with the command that makes one', async () => {
    const ran = await stillwinterJson(['serve', '--https', '--data', folder, '--port', '0']);
    expect(ran.code).toBe(1);
    expect(ran.stderr).toContain('stillwinter certificate');
  });

  it('is served to who trusts the authority that “certificate” made, and refused by who does not', async () => {
    const made = await stillwinterJson(['certificate', '--data', folder, '--port', '8443']);
    expect(made.code).toBe(0);
    const { names, address: shown, authorityFile, fingerprint } = made.json as Made;
    expect(names).toEqual(expect.arrayContaining(['localhost', '127.0.0.1', '::1']));
    expect(shown).toMatch(/^https:\/\/.+:8443$/);
    const authority = readFileSync(authorityFile);
    const code = await running('serve', async (address) => {
      expect(address).toMatch(/^https:\/\/127\.0\.0\.1:\d+$/);
      const health = await ask(address, '/health', authority);
      expect(health).toMatchObject({ status: 200, body: { state: 'ready' }, fingerprint });
      const byName = address.replace('127.0.0.1', 'localhost');
      expect((await ask(byName, '/health', authority)).status).toBe(200);
      await expect(ask(address, '/health')).rejects.toMatchObject({ code: 'SELF_SIGNED_CERT_IN_CHAIN' });
      await expect(fetch(address.replace('https', 'http'))).rejects.toThrow();
    });
    expect(code).toBe(0);
  });

  it('keeps its authority when “certificate” is run again, and the demonstration is served the same way', async () => {
    const before = readFileSync(join(folder, 'https', 'authority.pem'));
    const again = await stillwinterJson(['certificate', '--data', folder]);
    expect(readFileSync((again.json as Made).authorityFile).equals(before)).toBe(true);
    const code = await running('demo', async (address) => {
      expect((await ask(address, '/api/v1/group', before)).body).toMatchObject({ demonstration: true });
      await expect(ask(address, '/api/v1/group')).rejects.toMatchObject({ code: 'SELF_SIGNED_CERT_IN_CHAIN' });
    });
    expect(code).toBe(0);
    expect(existsSync(join(folder, 'stillwinter.sqlite'))).toBe(true);
  }, 60_000);
});
