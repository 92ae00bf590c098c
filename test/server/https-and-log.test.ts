import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { request } from 'node:https';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { makeCertificate } from '../../src/server/authority.ts';
import { openSecurityLog } from '../../src/server/security-log.ts';
import { type RunningServer, startServer } from '../../src/server/start.ts';
import { GROUP, id, NOW_MS, SEDGE } from '../records/given.ts';

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'stillwinter-https-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

interface Said {
  readonly status: number;
  readonly headers: Record<string, string | string[] | undefined>;
  readonly text: string;
}

describe('HTTPS at home', () => {
  let server: RunningServer;
  let authority: Buffer;
  const TUTOR = { id: id(900), name: 'Ada', signInName: 'ada', passphrase: 'plain copper kettle' };
  const ask = (method: string, path: string, body?: unknown, headers: Record<string, string> = {}, ca = authority) =>
    new Promise<Said>((done, failed) => {
      const call = request(
        {
          host: '127.0.0.1',
          port: server.port,
          servername: 'localhost',
          method,
          path,
          ca,
          agent: false,
          headers: {
            host: `localhost:${server.port}`,
            ...(body ? { 'content-type': 'application/json' } : {}),
            ...headers,
          },
        },
        (answer) => {
          let text = '';
          answer.on('data', (chunk) => {
            text += chunk;
          });
          answer.on('end', () => done({ status: answer.statusCode ?? 0, headers: answer.headers, text }));
        },
      );
      call.on('error', failed);
      call.end(body ? JSON.stringify(body) : undefined);
    });

  beforeAll(async () => {
    await expect(startServer({ dataFolder: folder, port: 0, https: true, outside: {} })).rejects.toThrow(
      'stillwinter certificate',
    );
    const made = await makeCertificate(folder, ['localhost', 'shed.local', '127.0.0.1', '::1'], Date.now());
    expect(made.newAuthority).toBe(true);
    authority = readFileSync(made.authorityFile);
    server = await startServer({ dataFolder: folder, port: 0, https: true, outside: {}, nowMs: () => NOW_MS });
  });
  afterAll(() => server.stop());

  it('is trusted by a client that trusts the authority, and by no other', async () => {
    expect((await ask('GET', '/health')).status).toBe(200);
    await expect(ask('GET', '/health', undefined, {}, Buffer.from(''))).rejects.toThrow();
  });

  it('asks browsers to stay with it, and gives sessions that travel no other way', async () => {
    expect((await ask('GET', '/health')).headers['strict-transport-security']).toMatch(/^max-age=\d{8}/);
    await ask('PUT', '/api/v1/group', GROUP);
    await ask('POST', '/api/v1/animals', SEDGE);
    const made = await ask('POST', '/api/v1/session/set-up', TUTOR);
    expect(made.headers['set-cookie']![0]).toMatch(/^__Host-stillwinter_session=.*HttpOnly.*Secure/i);
    const cookie = made.headers['set-cookie']![0]!.split(';')[0]!;
    expect((await ask('GET', '/api/v1/animals', undefined, { cookie })).status).toBe(200);
  });

  it('writes down who came in and who was refused, and not one secret', async () => {
    const hostile = 'eve"}\n{"what":"signed-in","who":"forged"';
    const signIn = (passphrase: string, signInName = 'ada') =>
      ask('POST', '/api/v1/session', { signInName, passphrase });
    const wrong = await signIn('three wrong lanterns');
    expect(wrong.status).toBe(401);
    await signIn('four wrong lanterns', 'eve');
    await ask('GET', '/api/v1/animals', undefined, {
      cookie: '__Host-stillwinter_session=made-up-token',
      'user-agent': 'x',
    });
    await ask('GET', `/api/v1/animals/${encodeURIComponent(hostile)}`);
    const right = await signIn(TUTOR.passphrase);
    const cookie = right.headers['set-cookie']![0]!.split(';')[0]!;
    const share = { id: id(920), animalId: SEDGE.id, forWhom: 'Dr Hollis', until: '2026-12-20T00:00:00Z' };
    const { token } = JSON.parse((await ask('POST', `/api/v1/animals/${SEDGE.id}/shares`, share, { cookie })).text);
    expect((await ask('GET', `/api/v1/shared/${token}`)).status).toBe(200);
    await ask('PUT', `/api/v1/shared/${token}`, {});
    const invitation = await ask('POST', '/api/v1/people/invitations', { id: id(921), role: 'keeper' }, { cookie });
    const { token: invited } = JSON.parse(invitation.text);
    const keeper = { id: id(922), name: 'Bo', signInName: 'bo', passphrase: 'nine amber windows' };
    const joined = await ask('POST', '/api/v1/session/join', { ...keeper, token: invited });
    expect(joined.status).toBe(200);
    expect((await ask('DELETE', `/api/v1/animals/${SEDGE.id}/shares/${share.id}`, undefined, { cookie })).status).toBe(
      204,
    );
    expect((await ask('GET', `/api/v1/shared/${token}`)).status).toBe(404);
    const wanted = { role: 'reader' };
    expect((await ask('PUT', `/api/v1/people/${keeper.id}/role`, wanted, { cookie })).status).toBe(200);
    expect((await ask('DELETE', `/api/v1/people/${keeper.id}`, undefined, { cookie })).status).toBe(204);
    const text = readFileSync(join(folder, 'logs', 'security.log'), 'utf8');
    const lines = text
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line));
    for (const line of lines) expect(line.time).toBe(new Date(NOW_MS).toISOString());
    const count = (what: string, detail?: string) =>
      lines.filter((line) => line.what === what && line.detail === detail).length;
    expect(count('signed-in')).toBe(3);
    const events = (what: string) =>
      lines.filter((line) => line.what === what).map(({ who, about }) => ({ who, about }));
    expect(events('invited')).toEqual([{ who: TUTOR.id, about: id(921) }]);
    expect(events('joined')).toEqual([{ who: keeper.id, about: undefined }]);
    expect(events('share-made')).toEqual([{ who: TUTOR.id, about: share.id }]);
    // Opened once while it held; taken back, it opens nothing.
    expect(events('share-opened')).toEqual([{ who: 'nobody', about: share.id }]);
    expect(events('share-revoked')).toEqual([{ who: TUTOR.id, about: share.id }]);
    expect(events('role-changed')).toEqual([{ who: TUTOR.id, about: keeper.id }]);
    expect(events('person-removed')).toEqual([{ who: TUTOR.id, about: keeper.id }]);
    expect(count('denied', 'not-signed-in')).toBe(4);
    expect(lines.find((line) => line.what === 'signed-in')).toMatchObject({ who: TUTOR.id, from: '127.0.0.1' });
    expect(invited).toBeTypeOf('string');
    for (const secret of [
      TUTOR.passphrase,
      'lanterns',
      'made-up-token',
      token,
      invited,
      keeper.passphrase,
      joined.headers['set-cookie']![0]!.split(';')[0]!.split('=')[1]!,
      cookie.split('=')[1]!,
      'forged',
    ])
      expect(text).not.toContain(secret);
  });

  it('keeps its authority when a certificate is made anew, with keys only their owner can read', async () => {
    const made = await makeCertificate(folder, ['localhost'], Date.now());
    expect(made.newAuthority).toBe(false);
    expect(readFileSync(made.authorityFile).equals(authority)).toBe(true);
    for (const file of readdirSync(join(folder, 'https')))
      if (file.includes('key')) expect(statSync(join(folder, 'https', file)).mode & 0o077).toBe(0);
  });
});

describe('the security log', () => {
  it('is set aside when it has grown, five times at most, and a line break in it begins no line', () => {
    const own = join(folder, 'rotating');
    const log = openSecurityLog(own, () => NOW_MS, 400);
    for (let i = 0; i < 60; i++)
      log.write({ what: 'denied', who: 'nobody', detail: `a\n{"what":"signed-in"}\u001b[2J${i}` });
    log.close();
    const files = readdirSync(join(own, 'logs')).sort();
    expect(files).toEqual(['security.log', ...[1, 2, 3, 4, 5].map((n) => `security.log.${n}`)]);
    for (const file of files)
      for (const line of readFileSync(join(own, 'logs', file), 'utf8')
        .trim()
        .split('\n'))
        if (line !== '') expect(JSON.parse(line)).toMatchObject({ what: 'denied' });
  });
});
