import ICAL from 'ical.js';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Database } from '../../src/records/database.ts';
import { make } from '../../src/records/entries.ts';
import { ANIMAL } from '../../src/records/kinds.ts';
import { fileAnswer } from '../../src/server/file-answer.ts';
import { id, SCOPE, SEDGE, smallGroup } from '../records/given.ts';
import { freshDatabase } from '../records/stores.ts';
import { cookieOf, testApp } from './given.ts';

const PARTS = ['eyes', 'nose', 'mouth', 'limbs', 'shell', 'tail', 'breathing', 'droppings'];
const answers = {
  appetiteNormal: true,
  weightNormal: true,
  hydrated: true,
  carryingEggs: false,
  illness: false,
  treatment: false,
};
const PAPERS = ['plan-sheet', 'box-label', 'diary-sheet', 'vet-summary'];

describe('papers over HTTP', () => {
  let database: Database;
  let app: ReturnType<typeof testApp>;
  let tutor: Record<string, string>;
  const animal = `animals/${SEDGE.id}`;
  const get = (path: string, cookies = tutor) => app.ask('GET', path, undefined, cookies);
  const subscribe = async (number: number, cookies = tutor): Promise<string> =>
    (await app.ask('POST', 'calendars', { id: id(number), forWhom: 'Phone' }, cookies)).body.path;

  beforeAll(async () => {
    database = await freshDatabase('sqlite');
    await smallGroup(database);
    app = testApp(database);
    const person = { id: id(900), name: 'Ada', signInName: 'ada', passphrase: 'plain copper kettle' };
    tutor = cookieOf(await app.ask('POST', 'session/set-up', person));
    await app.ask(
      'PUT',
      animal,
      { ...SEDGE, name: 'Želva', birthDate: '2009-08-14', acquiredOn: '2010-06-01', wintersSlept: 14 },
      tutor,
    );
    const of = { animalId: SEDGE.id };
    const size = { id: id(20), ...of, at: '2026-11-20T09:00:00Z', massG: 1180, sclMm: 178, kind: 'routine' };
    await app.ask('POST', `${animal}/measurements`, size, tutor);
    const findings = Object.fromEntries(PARTS.map((part) => [part, 'clear']));
    const examination = { id: id(21), ...of, at: '2026-11-20T09:10:00Z', moment: 'before', findings, answers };
    await app.ask('POST', `${animal}/examinations`, examination, tutor);
    await app.ask(
      'POST',
      `${animal}/health-events`,
      { id: id(22), ...of, kind: 'parasite-check', fromDay: '2026-09-01' },
      tutor,
    );
    await make(database, SCOPE, ANIMAL, { ...SEDGE, id: id(70), name: 'Bare' });
    await make(database, SCOPE, ANIMAL, { ...SEDGE, id: id(71), name: 'Sulcata', species: 'Stigmochelys pardalis' });
  });
  afterAll(() => database.close());

  const plan = (number: number, sleepDay: string) =>
    app.ask(
      'POST',
      `${animal}/plans`,
      {
        id: id(number),
        request: { species: SEDGE.species, sclMm: 178, latitudeDeg: 52, sleepDay, sleepDays: 40 },
        reason: 'Plan',
      },
      tutor,
    );

  it('say what is missing while there is no plan, and give the summary for the vet all the same', async () => {
    for (const paper of ['plan-sheet', 'box-label', 'diary-sheet']) {
      const answer = await get(`animals/${id(70)}/papers/${paper}.pdf`);
      expect(answer.status).toBe(404);
      expect(answer.body.detail).toContain('no winter plan for Bare');
    }
    expect((await get(`animals/${id(70)}/calendar.ics`)).status).toBe(404);
    expect((await get(`animals/${id(70)}/papers/vet-summary.pdf`)).status).toBe(200);
  });

  it('come as PDF files with a safe name, kept by no cache', async () => {
    expect((await plan(23, '2027-01-20')).status).toBe(200);
    for (const paper of PAPERS) {
      const { status, body, headers } = await get(`${animal}/papers/${paper}.pdf`);
      expect(status).toBe(200);
      expect(body.slice(0, 5)).toBe('%PDF-');
      expect(headers.get('content-type')).toBe('application/pdf');
      expect(headers.get('cache-control')).toBe('no-store');
      expect(headers.get('content-disposition')).toMatch(
        /^inline; filename="zelva-[a-z-]+\.pdf"; filename\*=UTF-8''%C5%BDelva%20[\w%]+\.pdf$/,
      );
    }
    expect((await get('papers/handout.pdf')).body.slice(0, 5)).toBe('%PDF-');
    expect((await get(`${animal}/papers/box-label.pdf?size=A5`)).status).toBe(200);
    expect((await get(`${animal}/papers/box-label.pdf?size=A3`)).status).toBe(422);
  });

  it('give no label for a box to an animal that stays awake', async () => {
    const of = { animalId: id(71), at: '2026-11-20T09:00:00Z' };
    await app.ask(
      'POST',
      `animals/${id(71)}/measurements`,
      { id: id(24), ...of, massG: 4600, sclMm: 290, kind: 'routine' },
      tutor,
    );
    const request = { species: 'Stigmochelys pardalis', sclMm: 290, latitudeDeg: 52, wish: 'awake' };
    expect(
      (await app.ask('POST', `animals/${id(71)}/plans`, { id: id(25), request, reason: 'Awake' }, tutor)).status,
    ).toBe(200);
    const label = await get(`animals/${id(71)}/papers/box-label.pdf`);
    expect(label.status).toBe(422);
    expect(label.body.type).toBe('/problems/not-hibernating');
    expect((await get(`animals/${id(71)}/papers/diary-sheet.pdf`)).status).toBe(200);
  });

  it('put every plan into a calendar that needs no session, says when nothing changed, and moves with the plan', async () => {
    const path = await subscribe(40);
    expect(path).toMatch(/^\/calendar\/[\w-]{43}\.ics$/);
    const first = await get(path, {});
    expect(first.headers.get('content-type')).toBe('text/calendar; charset=utf-8');
    const summaries = (text: string) =>
      new ICAL.Component(ICAL.parse(text))
        .getAllSubcomponents('vevent')
        .map((event) => String(event.getFirstPropertyValue('summary')));
    expect(summaries(first.body).some((summary) => summary.startsWith('Želva: '))).toBe(true);
    expect(summaries(first.body).some((summary) => summary.startsWith('Sulcata: '))).toBe(true);
    const etag = first.headers.get('etag')!;
    expect((await get(path, { 'if-none-match': etag })).status).toBe(304);
    await plan(26, '2027-01-24');
    const moved = await get(path, { 'if-none-match': etag });
    expect(moved.status).toBe(200);
    const putDown = new ICAL.Component(ICAL.parse(moved.body))
      .getAllSubcomponents('vevent')
      .find(
        (event) =>
          String(event.getFirstPropertyValue('uid')).includes(SEDGE.id) &&
          String(event.getFirstPropertyValue('uid')).endsWith('-put-down'),
      )!;
    expect(String(putDown.getFirstPropertyValue('dtstart'))).toBe('2027-01-24');
    expect(putDown.getFirstPropertyValue('sequence')).toBe(2);
  });

  it('hand the secret out once and keep its hash alone; a revoked or guessed address finds nothing', async () => {
    const path = await subscribe(41);
    const token = path.slice('/calendar/'.length, -'.ics'.length);
    const rows = await database.kysely.selectFrom('calendarLinks').selectAll().execute();
    expect(JSON.stringify(rows)).not.toContain(token);
    expect(JSON.stringify((await get('calendars')).body)).not.toContain(token);
    expect((await get(path, {})).status).toBe(200);
    expect((await app.ask('DELETE', `calendars/${id(41)}`, undefined, tutor)).status).toBe(204);
    expect((await get(path, {})).status).toBe(404);
    for (const guess of [
      `/calendar/${'x'.repeat(43)}.ics`,
      '/calendar/.ics',
      "/calendar/' or 1=1--.ics",
      '/calendar/../health.ics',
    ])
      expect((await get(guess, {})).status).toBe(404);
  });

  it('show a keeper’s calendar that keeper’s animals alone, and nothing once the keeper has left', async () => {
    const invited = await app.ask('POST', 'people/invitations', { id: id(50), role: 'keeper', animalIds: [] }, tutor);
    const person = { id: id(51), name: 'Wren', signInName: 'wren', passphrase: 'seven grey pebbles' };
    const keeper = cookieOf(await app.ask('POST', 'session/join', { ...person, token: invited.body.token }));
    const path = await subscribe(52, keeper);
    expect((await get(path, {})).body).not.toContain('BEGIN:VEVENT');
    expect((await get('calendars', keeper)).body.map((link: { id: string }) => link.id)).toEqual([id(52)]);
    expect((await get('calendars')).body.map((link: { id: string }) => link.id)).toContain(id(52));
    expect((await app.ask('DELETE', `calendars/${id(40)}`, undefined, keeper)).status).toBe(404);
    for (const paper of PAPERS) expect((await get(`${animal}/papers/${paper}.pdf`, keeper)).status).toBe(404);
    await app.ask('DELETE', `people/${id(51)}`, undefined, tutor);
    expect((await get(path, {})).status).toBe(404);
  });
});

describe('the name of a file', () => {
  it.each([
    ['Želva', 'filename="zelva.pdf"'],
    ['..\\..//etc\r\nSet-Cookie: a="b"; c', 'filename="etc-set-cookie-a-b-c.pdf"'],
    ['亀', 'filename="stillwinter.pdf"'],
    ['\ud800', 'filename="stillwinter.pdf"'],
    ['', 'filename="stillwinter.pdf"'],
  ])('%j ends no header and names no folder', (name, expected) => {
    const header = fileAnswer('', 'application/pdf', name, 'pdf').headers.get('content-disposition')!;
    expect(header).toContain(expected);
    const whole = decodeURIComponent(header.split("filename*=UTF-8''")[1]!);
    expect(whole).not.toMatch(/[\r\n/\\"]|^\./);
  });
});
