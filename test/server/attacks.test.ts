import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { connect } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parse as parseCsv } from 'csv-parse/sync';
import { unzipSync, zipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { cellText } from '../../src/records/csv-cells.ts';
import type { Database } from '../../src/records/database.ts';
import { list } from '../../src/records/entries.ts';
import { exportGroup } from '../../src/records/export.ts';
import { importExport } from '../../src/records/import.ts';
import {
  ANIMAL,
  BOX,
  DIARY,
  type EntryKind,
  EXAMINATION,
  HEALTH_EVENT,
  MEASUREMENT,
  PLACE,
  PROBE,
} from '../../src/records/kinds.ts';
import { appendReadings } from '../../src/records/readings.ts';
import { startServer } from '../../src/server/start.ts';
import { say } from '../../src/wording/say.ts';
import { FISH_BOX, GROUP, id, NOW_MS, SCOPE, SEDGE, SHED, smallGroup } from '../records/given.ts';
import { freshDatabase } from '../records/stores.ts';
import { cookieOf, testApp } from './given.ts';

let database: Database;
let ask: ReturnType<typeof testApp>['ask'];
beforeAll(async () => {
  database = await freshDatabase('sqlite');
  await smallGroup(database);
  ask = testApp(database).ask;
});
afterAll(() => database.close());

const PAYLOADS = {
  sql: `Robin'); drop table animals; -- " or 1=1 /*`,
  html: `<script>fetch('http://elsewhere.example')</script><img src=x onerror="alert(1)">`,
  formula: '=HYPERLINK("http://elsewhere.example","look")',
  command: '@SUM(1+1)*cmd|calc',
  template: '{{constructor.constructor("return 1")()}} #{7*7} %s %n',
};

/** Every field of every record that takes free text, filled with one payload; ids count from `from`. */
function recordsWith(text: string, from: number) {
  const at = '2026-12-01T08:00:00Z';
  const of = { animalId: SEDGE.id };
  const animal = { marks: text, notes: text, microchip: text.slice(0, 40), legalPaper: text };
  return [
    [ANIMAL, 'animals', { ...SEDGE, ...animal, id: id(from), name: text }],
    [PLACE, 'places', { ...SHED, id: id(from + 1), name: text }],
    [BOX, 'boxes', { ...FISH_BOX, id: id(from + 2), placeId: id(from + 1), name: text }],
    [PROBE, 'probes', { id: id(from + 3), name: text, offsetC: 0, expectedIntervalS: 600 }],
    [
      MEASUREMENT,
      `animals/${SEDGE.id}/measurements`,
      { id: id(from + 4), ...of, at, massG: 1000, kind: 'routine', note: text },
    ],
    [
      EXAMINATION,
      `animals/${SEDGE.id}/examinations`,
      { id: id(from + 5), ...of, at, moment: 'before', findings: {}, vet: { seen: true, name: text }, note: text },
    ],
    [
      HEALTH_EVENT,
      `animals/${SEDGE.id}/health-events`,
      { id: id(from + 6), ...of, kind: 'illness', fromDay: '2026-09-01', note: text },
    ],
    [DIARY, `animals/${SEDGE.id}/diary`, { id: id(from + 7), ...of, at, kind: 'note', note: text }],
  ] as const;
}

describe('hostile text in every field a person can type', () => {
  it.each(Object.entries(PAYLOADS))(
    '(%s) is kept to the letter, harms no table, and is sent as data only',
    async (name, text) => {
      const from = 10_000 + 100 * Object.keys(PAYLOADS).indexOf(name);
      for (const [kind, path, record] of recordsWith(text, from)) {
        const kept = await ask('POST', path, record);
        expect(kept.status, `${path} ${JSON.stringify(kept.body)}`).toBe(200);
        expect(kept.headers.get('content-type')).toBe('application/json');
        expect(kept.headers.get('x-content-type-options')).toBe('nosniff');
        const { at: _, ...rest } = record as { at?: string };
        const stored = (await list(database, SCOPE, kind as EntryKind)).find((one) => one.id === record.id);
        expect(stored).toMatchObject(rest);
      }
      const group = (await ask('GET', 'group')).body;
      expect((await ask('PUT', 'group', { ...group, climateNote: text })).body.climateNote).toBe(text);
      const share = { id: id(from + 8), animalId: SEDGE.id, forWhom: text, until: '2026-12-20T00:00:00Z' };
      const { token } = (await ask('POST', `animals/${SEDGE.id}/shares`, share)).body;
      expect((await ask('GET', `shared/${token}`)).body.forWhom).toBe(text);
      await appendReadings(database, SCOPE, [
        { probeId: id(3), at: '2026-12-02T00:00:00Z', tempC: 4, quality: 'good', source: 'typed' },
      ]);
      const corrected = { probeId: id(3), at: '2026-12-02T00:00:00Z', tempC: 4.1, quality: 'good', source: 'typed' };
      expect((await ask('POST', 'readings/corrections', { reading: corrected, reason: text })).status).toBe(204);
      const plan = { id: id(from + 9), reason: text, request: { species: SEDGE.species, sclMm: 178, latitudeDeg: 52 } };
      expect((await ask('POST', `animals/${SEDGE.id}/plans`, plan)).status).toBeLessThan(500);
    },
  );

  it.each(['animals', 'probes', 'readings', 'round', 'weather/winters', 'notices'])(
    'in the query and the path of %s changes nothing but the answer',
    async (path) => {
      const before = await database.kysely.selectFrom('animals').select('id').execute();
      for (const text of Object.values(PAYLOADS)) {
        const hostile = encodeURIComponent(text);
        const query = `probeId=${hostile}&from=${hostile}&to=${hostile}&day=${hostile}&fromDay=${hostile}`;
        expect((await ask('GET', `${path}?${query}`)).status).toBeLessThan(500);
        expect([404, 405]).toContain((await ask('GET', `${path}/${hostile}`)).status);
      }
      expect(await database.kysely.selectFrom('animals').select('id').execute()).toEqual(before);
    },
  );

  it('with line breaks or control characters never gets into a one-line field, where mail and headers take it from', async () => {
    for (const bad of ['a\r\nBcc: other@elsewhere.example', 'a\nb', 'a\0b', 'a\u001b[2Jb', 'a\u0085b']) {
      expect((await ask('POST', 'animals', { ...SEDGE, id: id(20_000), name: bad })).status).toBe(422);
      const address = { id: id(20_001), kind: 'email', address: `wren@example.org${bad}` };
      expect((await ask('POST', 'channels', address)).status).toBe(422);
      const share = { id: id(20_002), animalId: SEDGE.id, forWhom: bad, until: '2026-12-20T00:00:00Z' };
      expect((await ask('POST', `animals/${SEDGE.id}/shares`, share)).status).toBe(422);
    }
  });

  it('cannot add a header to an answer', async () => {
    for (const path of [
      'animals/x%0d%0aset-cookie:%20a=b',
      'readings?probeId=%0d%0aset-cookie:%20a=b',
      '/%0d%0aset-cookie:%20a=b',
      '/problems/x%0d%0aset-cookie:%20a=b',
    ])
      expect((await ask('GET', path)).headers.get('set-cookie')).toBeNull();
  });

  it('in its names cannot reach the prototype of anything', async () => {
    const polluting = `{"id":"${id(20_010)}","name":"x","species":"unknown","sex":"female","__proto__":{"role":"tutor"},"constructor":{"prototype":{"polluted":1}}}`;
    expect((await ask('POST', 'animals', polluting)).status).toBe(422);
    expect(({} as { polluted?: number }).polluted).toBeUndefined();
    for (const name of ['__proto__', 'constructor', 'toString'])
      expect((await ask('GET', `/problems/${name}`)).status).toBe(404);
  });
});

describe('an export to a spreadsheet', () => {
  it('holds no cell that would run, and every text comes back as it was', async () => {
    const starts = ['=1+1', '+1+1', '-1+1', '@SUM(1)', '\t=1', '＝1+1', "'=1", "''=1", '="a""b"', ' =1'];
    for (const [i, start] of starts.entries())
      expect(
        (
          await ask('POST', `animals/${SEDGE.id}/diary`, {
            id: id(30_000 + i),
            animalId: SEDGE.id,
            at: '2026-12-03T08:00:00Z',
            kind: 'note',
            note: start,
          })
        ).status,
      ).toBe(200);
    const chunks: Uint8Array[] = [];
    await exportGroup(database, { groupId: GROUP.id, nowMs: NOW_MS }, (chunk) => chunks.push(chunk));
    const archive = Buffer.concat(chunks);
    const notes = new Map<string, string>();
    let cells = 0;
    for (const [name, bytes] of Object.entries(unzipSync(archive))) {
      if (!name.endsWith('.csv')) continue;
      const [head = [], ...rows] = parseCsv(Buffer.from(bytes)) as string[][];
      for (const row of rows) {
        for (const cell of row) {
          cells += 1;
          if (!/^-?\d+(\.\d+)?(e-?\d+)?$/.test(cell)) expect(cell).not.toMatch(/^[=+\-@\t\r\n＝＋－＠]/);
        }
        if (name === 'csv/diaryEntries.csv') notes.set(row[head.indexOf('id')]!, cellText(row[head.indexOf('note')]!));
      }
    }
    expect(cells).toBeGreaterThan(500);
    for (const [i, start] of starts.entries()) expect(notes.get(id(30_000 + i))).toBe(start);
    const other = await freshDatabase('sqlite');
    await importExport(other, archive, { nowMs: NOW_MS });
    expect(await list(other, SCOPE, DIARY)).toEqual(await list(database, SCOPE, DIARY));
    await other.close();
  });
});

describe('an archive to take in', () => {
  const refused = async (archive: Uint8Array) => {
    const empty = await freshDatabase('sqlite');
    const error = await importExport(empty, archive, { nowMs: NOW_MS }).then(
      () => undefined,
      (thrown: unknown) => thrown,
    );
    expect(await empty.kysely.selectFrom('groups').selectAll().execute()).toEqual([]);
    await empty.close();
    return error as { type?: string; message: string } | undefined;
  };
  const json = (value: unknown) => Buffer.from(JSON.stringify(value));

  it('that unpacks to a thousand times its size is refused before it is unpacked', async () => {
    const bomb = zipSync({ 'format.json': new Uint8Array(60_000_000) }, { level: 9 });
    expect(bomb.length).toBeLessThan(80_000);
    const from = performance.now();
    expect(await refused(bomb)).toMatchObject({ type: 'invalid' });
    expect((await refused(bomb))?.message).toBe(say('records.exportTooBig'));
    expect(performance.now() - from).toBeLessThan(2000);
  });

  it('that says it is small and is not is refused', async () => {
    const lying = Buffer.from(zipSync({ 'format.json': new Uint8Array(10_000_000) }, { level: 9 }));
    const directory = lying.lastIndexOf(Buffer.from('PK\x01\x02', 'latin1'));
    lying.writeUInt32LE(100, directory + 24);
    expect(await refused(lying)).toMatchObject({ type: 'invalid' });
  });

  it.each([
    ['is no archive', () => Buffer.from('PK but not really')],
    ['is cut off', () => zipSync({ 'format.json': json({ format: 'stillwinter-export' }) }).slice(0, 40)],
    ['holds null where the format stands', () => zipSync({ 'format.json': json(null) })],
    [
      'lists nothing sound',
      () =>
        zipSync({
          'format.json': json({ format: 'stillwinter-export', version: 1, groupId: GROUP.id, parts: [null, 7] }),
        }),
    ],
    [
      'has too many files',
      () => zipSync(Object.fromEntries(Array.from({ length: 20_001 }, (_, i) => [`f${i}`, new Uint8Array(0)]))),
    ],
  ])('that %s is refused in words', async (_, make) => {
    expect(await refused(make())).toMatchObject({ type: 'invalid' });
  });

  it('whose names climb out of their folder writes no file anywhere', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'stillwinter-climb-'));
    const before = readdirSync(folder);
    await refused(zipSync({ '../../climbed.txt': json('x'), '/absolute.txt': json('x'), 'format.json': json({}) }));
    expect(readdirSync(folder)).toEqual(before);
    rmSync(folder, { recursive: true });
  });
});

describe('a body', () => {
  const animal = () => ({ ...SEDGE, id: id(40_000) });

  it.each([
    undefined,
    '',
    'text/plain',
    'application/x-www-form-urlencoded',
    'multipart/form-data; boundary=x',
    'application/json-seq',
    'text/json',
  ])('sent as %s is not taken for JSON', async (type) => {
    const answer = await ask('POST', 'animals', JSON.stringify(animal()), { 'content-type': type ?? '' });
    expect(answer.status).toBe(415);
  });

  it('with a byte that is no UTF-8, with a comment, or cut short is refused', async () => {
    for (const body of ['{"name":"\xff', '{"a":1,}', '// x\n{}', '{"a":', 'NaN', '', '\ufeff'])
      expect((await ask('POST', 'animals', body)).status).toBe(400);
  });

  it('nested a hundred thousand deep is refused, and the next request answered', async () => {
    for (const [open, close] of [
      ['[', ']'],
      ['{"a":', '}'],
    ] as const) {
      const deep = `${open.repeat(100_000)}1${close.repeat(100_000)}`;
      expect([400, 422]).toContain((await ask('POST', 'animals', deep)).status);
      const inside = `[{"id":"${id(40_001)}","kind":"diary","body":{"a":${open.repeat(5000)}1${close.repeat(5000)}}}]`;
      expect((await ask('POST', 'batch', inside)).status).toBeLessThan(500);
    }
    expect((await ask('GET', 'animals')).status).toBe(200);
  });

  it('too large is refused, also when it does not say how large it is', async () => {
    const much = JSON.stringify({ ...animal(), notes: 'x'.repeat(1_100_000) });
    expect((await ask('POST', 'animals', much)).status).toBe(413);
    expect((await ask('POST', 'animals', much, { 'content-length': '12' })).status).toBe(413);
    expect((await ask('POST', 'readings', `[${'0,'.repeat(4_100_000)}0]`)).status).toBe(413);
  });
});

describe('a page elsewhere', () => {
  it.each([
    'rebound.example',
    'localhost.rebound.example',
    'localhost@rebound.example',
    'rebound.example:8190',
    '',
    '127.0.0.1.rebound.example',
    'localhost, rebound.example',
  ])('that points the name “%s” at this machine gets nothing', async (host) => {
    expect((await ask('GET', 'animals', undefined, { host })).status).toBe(421);
  });

  it('cannot choose our name by a forwarded one', async () => {
    const headers = { host: 'rebound.example', 'x-forwarded-host': 'localhost', forwarded: 'host=localhost' };
    expect((await ask('GET', 'animals', undefined, headers)).status).toBe(421);
  });

  it.each([
    'null',
    'http://localhost.elsewhere.example',
    'http://localhost:1',
    'http://elsewhere.example/localhost',
    'file://',
    'http://localhost, http://elsewhere.example',
  ])('with the origin “%s” changes nothing', async (origin) => {
    const before = (await ask('GET', 'animals')).body;
    for (const [method, path] of [
      ['POST', 'animals'],
      ['PUT', `animals/${SEDGE.id}`],
      ['DELETE', `animals/${SEDGE.id}`],
    ] as const)
      expect(
        (await ask(method, path, method === 'DELETE' ? undefined : { ...SEDGE, name: 'Taken' }, { origin })).status,
      ).toBe(403);
    expect((await ask('GET', 'animals')).body).toEqual(before);
  });

  it('is never told that it may read answers', async () => {
    const answer = await ask('GET', 'animals', undefined, { origin: 'http://elsewhere.example' });
    expect([...answer.headers.keys()].filter((name) => name.startsWith('access-control'))).toEqual([]);
  });
});

describe('a path', () => {
  let folder: string;
  let server: Awaited<ReturnType<typeof startServer>>;
  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'stillwinter-path-'));
    mkdirSync(join(folder, 'web', 'assets'), { recursive: true });
    writeFileSync(join(folder, 'web', 'index.html'), '<!doctype html><title>Stillwinter</title>');
    writeFileSync(join(folder, 'secret.txt'), 'not for the web');
    server = await startServer({
      dataFolder: join(folder, 'data'),
      port: 0,
      webFolder: join(folder, 'web'),
      outside: {},
    });
  });
  afterAll(async () => {
    await server.stop();
    rmSync(folder, { recursive: true });
  });

  /** Sent byte for byte: a client that tidies the path up would hide the attack. */
  const raw = (request: string) =>
    new Promise<string>((done, failed) => {
      const socket = connect(server.port, '127.0.0.1', () => socket.write(request));
      let said = '';
      socket.on('data', (chunk) => {
        said += chunk;
      });
      socket.on('close', () => done(said));
      socket.on('error', failed);
    });

  it.each([
    '/../secret.txt',
    '/assets/../../secret.txt',
    '/..%2fsecret.txt',
    '/%2e%2e/secret.txt',
    '/%2e%2e%2fsecret.txt',
    '/..%5csecret.txt',
    '/..\\secret.txt',
    '/....//secret.txt',
    '//secret.txt',
    '/assets/..%252f..%252fsecret.txt',
    '/%c0%ae%c0%ae/secret.txt',
    '/secret.txt%00.html',
    '/../data/stillwinter.sqlite',
    'http://127.0.0.1/../secret.txt',
  ])('“%s” does not climb out of the folder of the screens', async (path) => {
    const said = await raw(`GET ${path} HTTP/1.1\r\nHost: 127.0.0.1:${server.port}\r\nConnection: close\r\n\r\n`);
    expect(said).toMatch(/^HTTP\/1\.1 (200|4\d\d)/);
    expect(said).not.toContain('not for the web');
    expect(said).not.toContain('SQLite format');
  });

  it('cannot be smuggled in with two lengths, a length and chunks, or a broken header', async () => {
    const start = `POST /api/v1/animals HTTP/1.1\r\nHost: 127.0.0.1:${server.port}\r\nConnection: close\r\nContent-Type: application/json\r\n`;
    for (const rest of [
      'Content-Length: 2\r\nContent-Length: 40\r\n\r\n{}',
      'Content-Length: 2\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\n{}',
      'X-A: b\rSet-Cookie: c\r\nContent-Length: 2\r\n\r\n{}',
      `X-A: ${'a'.repeat(40_000)}\r\nContent-Length: 2\r\n\r\n{}`,
    ])
      expect(await raw(start + rest)).toMatch(/^HTTP\/1\.1 4\d\d/);
    expect((await fetch(`${server.address}/health`)).status).toBe(200);
  });
});

describe('somebody who wants in', () => {
  const TUTOR = { id: id(900), name: 'Ada', signInName: 'ada', passphrase: 'plain copper kettle' };
  let own: Database;
  let app: ReturnType<typeof testApp>;
  beforeAll(async () => {
    own = await freshDatabase('sqlite');
    await smallGroup(own);
    app = testApp(own);
    await app.ask('POST', 'session/set-up', TUTOR);
  });
  afterAll(() => own.close());
  const signIn = (passphrase: string, headers: Record<string, string> = {}, signInName = 'ada') =>
    app.ask('POST', 'session', { signInName, passphrase }, headers);

  it('cannot fix the session of another: signing in makes a new token and never takes one that was brought', async () => {
    const brought = 'a'.repeat(43);
    const cookie = { cookie: `stillwinter_session=${brought}; __Host-stillwinter_session=${brought}` };
    const answer = await signIn(TUTOR.passphrase, cookie);
    expect(answer.status).toBe(200);
    expect(cookieOf(answer).cookie).not.toContain(brought);
    expect((await app.ask('GET', 'animals', undefined, cookie)).status).toBe(401);
    const [one, two] = [await signIn(TUTOR.passphrase), await signIn(TUTOR.passphrase)];
    expect(cookieOf(one).cookie).not.toBe(cookieOf(two).cookie);
  });

  it('gets nowhere with a made-up, empty, huge or hostile token', async () => {
    for (const token of ['', 'x', `' or '1'='1`, '%00', 'a'.repeat(6000), '__proto__', '../../x']) {
      const cookie = { cookie: `stillwinter_session=${encodeURIComponent(token)}` };
      expect((await app.ask('GET', 'animals', undefined, cookie)).status).toBe(401);
      const shared = await app.ask('GET', `shared/${encodeURIComponent(token)}`);
      expect(shared.status).toBe(404);
    }
  });

  it('is slowed after ten tries, whatever address a header claims and however the name is spelled', async () => {
    const seen: number[] = [];
    for (let i = 0; i < 11; i++) {
      const address = `10.0.0.${i}`;
      const claims = { 'x-forwarded-for': address, 'x-real-ip': address, forwarded: `for=${address}` };
      seen.push((await signIn('wrong', claims, [' Eve', 'EVE', 'eve '][i % 3])).status);
    }
    expect(seen.slice(0, 10)).toEqual(Array(10).fill(401));
    expect(seen[10]).toBe(429);
    const waited = await signIn('wrong', {}, 'eve');
    expect(Number(waited.headers.get('retry-after'))).toBeGreaterThan(0);
  });

  it('cannot raise their own role or set up a second first person', async () => {
    expect((await app.ask('POST', 'session/set-up', { ...TUTOR, id: id(901), signInName: 'eve' })).status).toBe(403);
    const joining = { ...TUTOR, id: id(902), signInName: 'eve', role: 'tutor', token: 'a'.repeat(43) };
    expect((await app.ask('POST', 'session/join', joining)).status).toBe(422);
  });
});
