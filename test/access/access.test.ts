import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { hashPassphrase, refuseWeak } from '../../src/access/passphrase.ts';
import { resetPassphrase } from '../../src/access/people.ts';
import { IDLE_MS, LONGEST_MS, openSession } from '../../src/access/sessions.ts';
import type { Database } from '../../src/records/database.ts';
import { make } from '../../src/records/entries.ts';
import { ANIMAL } from '../../src/records/kinds.ts';
import { id, NOW_MS, SCOPE, SEDGE, smallGroup } from '../records/given.ts';
import { freshDatabase, STORES } from '../records/stores.ts';
import { cookieOf, testApp } from '../server/given.ts';

const TUTOR = { id: id(900), name: 'Ada Fen', signInName: 'Ada', passphrase: 'plain copper kettle' };

describe('a passphrase', () => {
  it('is kept as Argon2id with 46 MiB and two passes', async () => {
    expect(await hashPassphrase('plain copper kettle')).toMatch(/^\$argon2id\$v=19\$m=47104,t=2,p=1\$/);
  });

  it.each([
    'password1234',
    'aaaaaaaaaaaaaa',
    'abcabcabcabc',
    'Ada Fen 1987',
    'correct horse battery staple',
    '1q2w3e4r5t6y',
  ])('“%s” is refused as too easily guessed', (passphrase) => {
    expect(() => refuseWeak(passphrase, ['Ada Fen', 'ada'])).toThrow('guessed');
  });

  it.each(['plain copper kettle', 'ÿ unicode ♥ is fine too', 'fourteen small snails', `${'long '.repeat(39)}end`])(
    '“%s” is taken',
    (passphrase) => {
      expect(() => refuseWeak(passphrase, ['Ada Fen', 'ada'])).not.toThrow();
    },
  );
});

describe.each(STORES)('people and sessions on %s', (store) => {
  let database: Database;
  let nowMs = NOW_MS;
  let ask: ReturnType<typeof testApp>['ask'];
  let tutor: Record<string, string>;
  beforeAll(async () => {
    database = await freshDatabase(store);
    await smallGroup(database);
    ask = testApp(database, () => nowMs).ask;
  });
  afterAll(() => database.close());

  it('begin open to this machine alone, and closed once the first person is set up', async () => {
    expect((await ask('GET', 'animals')).status).toBe(200);
    const made = await ask('POST', 'session/set-up', TUTOR);
    expect(made.body).toMatchObject({ role: 'tutor', signInName: 'ada' });
    expect(made.headers.get('set-cookie')).toMatch(/HttpOnly.*SameSite=Lax/i);
    tutor = cookieOf(made);
    expect((await ask('GET', 'animals')).status).toBe(401);
    expect((await ask('GET', 'animals', undefined, tutor)).status).toBe(200);
    expect((await ask('POST', 'session/set-up', { ...TUTOR, id: id(999) })).status).toBe(403);
  });

  it('sign in by name, whatever its capitals, and say the same of a wrong name and a wrong passphrase', async () => {
    const wrong = await ask('POST', 'session', { signInName: 'ada', passphrase: 'not this one at all' });
    const nobody = await ask('POST', 'session', { signInName: 'bob', passphrase: 'not this one at all' });
    expect(wrong.status).toBe(401);
    expect(nobody.body).toEqual(wrong.body);
    const right = await ask('POST', 'session', { signInName: ' ADA ', passphrase: TUTOR.passphrase });
    expect(right.status).toBe(200);
    expect((await ask('GET', 'session/all', undefined, cookieOf(right))).body).toHaveLength(2);
    await ask('DELETE', 'session', undefined, cookieOf(right));
    expect((await ask('GET', 'animals', undefined, cookieOf(right))).status).toBe(401);
  });

  it('are slowed after ten wrong tries for one name, and the owner is let in again after a while elsewhere', async () => {
    let last = 0;
    for (let i = 0; i < 11; i++)
      last = (await ask('POST', 'session', { signInName: 'carl', passphrase: `wrong number ${i}` })).status;
    expect(last).toBe(429);
    const other = await ask('POST', 'session', { signInName: 'ada', passphrase: TUTOR.passphrase });
    expect(other.status).toBe(200);
    await ask('DELETE', 'session', undefined, cookieOf(other));
  }, 60_000);

  it('join by an invitation that works once and for a week', async () => {
    await make(database, SCOPE, ANIMAL, { ...SEDGE, id: id(70), name: 'Bramble' });
    const asked = { id: id(910), role: 'keeper', animalIds: [id(70)] };
    const { token } = (await ask('POST', 'people/invitations', asked, tutor)).body;
    const person = { id: id(901), name: 'Carl', signInName: 'carl', passphrase: 'seven grey pebbles', token };
    nowMs = NOW_MS + 7 * 86_400_000 + 1;
    expect((await ask('POST', 'session/join', person)).status).toBe(404);
    nowMs = NOW_MS;
    const joined = await ask('POST', 'session/join', person);
    expect(joined.body).toMatchObject({ role: 'keeper' });
    expect((await ask('GET', 'animals', undefined, cookieOf(joined))).body).toMatchObject([
      { name: 'Bramble', keeperId: id(901) },
    ]);
    expect((await ask('POST', 'session/join', { ...person, id: id(902), signInName: 'dora' })).status).toBe(404);
    const stored = await database.kysely.selectFrom('invitations').select('tokenHash').execute();
    expect(JSON.stringify(stored)).not.toContain(token);
  });

  it('end after two weeks without a visit, and after 90 days in any case', async () => {
    const signedIn = async () =>
      cookieOf(await ask('POST', 'session', { signInName: 'ada', passphrase: TUTOR.passphrase }));
    const status = async (cookie: Record<string, string>) => (await ask('GET', 'animals', undefined, cookie)).status;
    const idle = await signedIn();
    nowMs = NOW_MS + IDLE_MS;
    expect(await status(idle)).toBe(200);
    nowMs += IDLE_MS + 1;
    expect(await status(idle)).toBe(401);
    nowMs = NOW_MS;
    const busy = await signedIn();
    for (nowMs = NOW_MS; nowMs <= NOW_MS + LONGEST_MS; nowMs += IDLE_MS / 2) expect(await status(busy)).toBe(200);
    nowMs = NOW_MS + LONGEST_MS + 1;
    expect(await status(busy)).toBe(401);
    nowMs = NOW_MS;
    tutor = await signedIn();
  });

  it('all end when the passphrase is changed, and the new one counts', async () => {
    const other = cookieOf(await ask('POST', 'session', { signInName: 'ada', passphrase: TUTOR.passphrase }));
    const wrong = await ask(
      'PUT',
      'session/passphrase',
      { old: 'not the old one', passphrase: 'three mild lanterns' },
      tutor,
    );
    expect(wrong.status).toBe(401);
    const changed = await ask(
      'PUT',
      'session/passphrase',
      { old: TUTOR.passphrase, passphrase: 'three mild lanterns' },
      tutor,
    );
    expect(changed.status).toBe(204);
    expect((await ask('GET', 'animals', undefined, other)).status).toBe(401);
    tutor = cookieOf(changed);
    expect((await ask('GET', 'animals', undefined, tutor)).status).toBe(200);
  });

  it('can be reset from the machine itself', async () => {
    await expect(resetPassphrase(database, 'nobody', 'fourteen small snails')).rejects.toThrow('“nobody”');
    expect((await resetPassphrase(database, 'ADA', 'fourteen small snails')).name).toBe('Ada Fen');
    expect((await ask('GET', 'animals', undefined, tutor)).status).toBe(401);
    tutor = cookieOf(await ask('POST', 'session', { signInName: 'ada', passphrase: 'fourteen small snails' }));
  });

  /** A device on which the keeper is signed in. */
  const carlsDevice = async () => ({
    cookie: `stillwinter_session=${await openSession(database, id(901), 'a phone', nowMs)}`,
  });

  it('take a new role at once, on every device; it is kept who changed it, and the invitations of a tutor end with that', async () => {
    const [phone, laptop] = [await carlsDevice(), await carlsDevice()];
    const role = (personId: string, wanted: string, who: Record<string, string>) =>
      ask('PUT', `people/${personId}/role`, { role: wanted }, who);
    const names = async (who: Record<string, string>) =>
      (await ask('GET', 'animals', undefined, who)).body.map((animal: { name: string }) => animal.name);
    expect(await names(phone)).toEqual(['Bramble']);
    expect((await role(id(901), 'tutor', phone)).status).toBe(403);
    expect((await role(id(901), 'reader', tutor)).body).toMatchObject({ id: id(901), role: 'reader' });
    expect(await names(laptop)).toEqual(['Bramble', 'Sedge']);
    expect((await ask('POST', 'animals', { ...SEDGE, id: id(71) }, phone)).status).toBe(403);
    // The same again is no second change.
    await role(id(901), 'reader', tutor);
    await role(id(901), 'tutor', tutor);
    const asked = { id: id(930), role: 'tutor', animalIds: [] };
    const { token } = (await ask('POST', 'people/invitations', asked, phone)).body;
    await role(id(901), 'keeper', tutor);
    expect(await names(laptop)).toEqual(['Bramble']);
    const person = { id: id(931), name: 'Dora', signInName: 'dora', passphrase: 'eleven quiet herons', token };
    expect((await ask('POST', 'session/join', person)).status).toBe(404);
    const trail = await database.kysely
      .selectFrom('changes')
      .select(['byPerson', 'before', 'after'])
      .where('recordId', '=', id(901))
      .orderBy('revision')
      .execute();
    expect(trail.map((row) => [row.byPerson, row.before, row.after])).toEqual([
      [TUTOR.id, '{"role":"keeper"}', '{"role":"reader"}'],
      [TUTOR.id, '{"role":"reader"}', '{"role":"tutor"}'],
      [TUTOR.id, '{"role":"tutor"}', '{"role":"keeper"}'],
    ]);
  });

  it('leave a group at least one tutor, though two step each other down at the same moment', async () => {
    const role = (personId: string, wanted: string, who: Record<string, string>) =>
      ask('PUT', `people/${personId}/role`, { role: wanted }, who);
    expect((await role(TUTOR.id, 'keeper', tutor)).status).toBe(403);
    expect((await role(id(999), 'keeper', tutor)).status).toBe(404);
    expect((await role(TUTOR.id, 'owner', tutor)).status).toBe(422);
    await role(id(901), 'tutor', tutor);
    const carl = await carlsDevice();
    await Promise.all([role(TUTOR.id, 'keeper', carl), role(id(901), 'keeper', tutor)]);
    const tutors = (await ask('GET', 'people', undefined, carl)).body.filter(
      (one: { role: string }) => one.role === 'tutor',
    );
    expect(tutors).toHaveLength(1);
    // With another tutor there, one's own role can be given away.
    const [present, other, who] = tutors[0].id === TUTOR.id ? [TUTOR.id, id(901), tutor] : [id(901), TUTOR.id, carl];
    await role(other, 'tutor', who);
    expect((await role(present, 'keeper', who)).status).toBe(200);
    await role(TUTOR.id, 'tutor', present === TUTOR.id ? carl : tutor);
    await role(id(901), 'keeper', tutor);
  });

  it('of a removed person end at once; the only tutor cannot be removed', async () => {
    const carl = await carlsDevice();
    expect((await ask('GET', 'animals', undefined, carl)).status).toBe(200);
    expect((await ask('DELETE', `people/${TUTOR.id}`, undefined, tutor)).status).toBe(403);
    expect((await ask('DELETE', `people/${id(901)}`, undefined, tutor)).status).toBe(204);
    expect((await ask('GET', 'animals', undefined, carl)).status).toBe(401);
    expect((await ask('GET', 'people', undefined, tutor)).body).toHaveLength(1);
  });

  it('share one animal with a vet until an instant, read-only, and can take it back', async () => {
    const share = {
      id: id(920),
      animalId: SEDGE.id,
      forWhom: 'Dr Hollis',
      until: new Date(NOW_MS + 86_400_000).toISOString(),
    };
    const path = `animals/${SEDGE.id}/shares`;
    const { token } = (await ask('POST', path, share, tutor)).body;
    const seen = await ask('GET', `shared/${token}`);
    expect(seen.body).toMatchObject({ forWhom: 'Dr Hollis', history: { animal: { name: 'Sedge' } } });
    expect((await ask('PUT', `shared/${token}`, {})).status).toBe(404);
    nowMs = NOW_MS + 86_400_001;
    expect((await ask('GET', `shared/${token}`)).status).toBe(404);
    nowMs = NOW_MS;
    await ask('DELETE', `${path}/${share.id}`, undefined, tutor);
    expect((await ask('GET', `shared/${token}`)).status).toBe(404);
    expect((await ask('GET', path, undefined, tutor)).body).toMatchObject([{ revoked: true }]);
    const forever = { ...share, id: id(921), until: '2029-01-01T00:00:00Z' };
    expect((await ask('POST', path, forever, tutor)).body.errors[0].where).toBe('until');
  });
});
