import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { unzipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Database } from '../../src/records/database.ts';
import { demoId } from '../../src/records/demo/group.ts';
import { loadDemonstration } from '../../src/records/demo/story.ts';
import { list } from '../../src/records/entries.ts';
import { saveGroup } from '../../src/records/groups.ts';
import { STAY } from '../../src/records/kinds.ts';
import { createApp } from '../../src/server/app.ts';
import { GROUP, id, NOW_MS } from '../records/given.ts';
import { freshDatabase, STORES } from '../records/stores.ts';

function server(database: Database) {
  const dataFolder = mkdtempSync(join(tmpdir(), 'stillwinter-'));
  const app = createApp({ context: { database, nowMs: () => NOW_MS, dataFolder }, webFolder: '/nowhere' });
  const ask = (method: string, path: string, body?: Uint8Array, type = 'application/zip') =>
    app.request(`/api/v1/${path}`, {
      method,
      headers: { host: 'localhost', ...(body ? { 'content-type': type } : {}) },
      ...(body ? { body: new Uint8Array(body) } : {}),
    });
  return { dataFolder, ask, gone: () => rmSync(dataFolder, { recursive: true }) };
}

describe.each(STORES)('archives of records on %s', (store) => {
  let here: Database;
  let there: Database;
  let from: ReturnType<typeof server>;
  let to: ReturnType<typeof server>;
  let history: Uint8Array;
  let stay: string;
  beforeAll(async () => {
    here = await freshDatabase('sqlite');
    await loadDemonstration(here, NOW_MS);
    there = await freshDatabase(store);
    await saveGroup(there, GROUP, null, NOW_MS);
    from = server(here);
    to = server(there);
    const stays = await list(here, { groupId: demoId(1), personId: null, nowMs: NOW_MS }, STAY);
    stay = stays.find((one) => one.animalId === demoId(12))!.id;
    const limit = new TextEncoder().encode(JSON.stringify({ ruleId: 'under-3', limit: 3.5 }));
    expect((await from.ask('PUT', `stays/${stay}/limits`, limit, 'application/json')).status).toBe(200);
    const answer = await from.ask('GET', `animals/${demoId(12)}/archive`);
    expect(answer.headers.get('content-type')).toBe('application/zip');
    expect(answer.headers.get('content-disposition')).toMatch(/^attachment; filename="bramble\.zip"/);
    history = new Uint8Array(await answer.arrayBuffer());
  });
  afterAll(async () => {
    for (const one of [from, to]) one.gone();
    for (const one of [here, there]) await one.close();
  });
  const sent = async (number: number, archive: Uint8Array) => {
    const answer = await to.ask('POST', `archives?id=${id(number)}`, archive);
    return { status: answer.status, body: await answer.json() };
  };
  const takenIn = async (number: number) => (await to.ask('POST', `archives/${id(number)}/take-in`)).json();

  it('an animal’s history says nothing of where its group is, and leaves no copy behind', async () => {
    expect(Buffer.from(unzipSync(history)['json/groups.json']!).toString()).toBe('[]');
    // The copy goes when its stream has closed.
    await expect.poll(() => readdirSync(join(from.dataFolder, 'archives'))).toEqual([]);
  });

  it('is told before it is taken in, joins the group once, and can be read there', async () => {
    const { body } = await sent(801, history);
    expect(body).toMatchObject({ animals: [{ id: demoId(12), name: 'Bramble', known: false }] });
    expect(body).not.toHaveProperty('groupName');
    expect(body.records).toBeGreaterThan(10);
    const first = await takenIn(801);
    expect(first).toEqual({ records: expect.any(Number), readings: body.readings, differing: 0 });
    expect(first.records).toBeGreaterThanOrEqual(body.records);
    expect((await to.ask('GET', `animals/${demoId(12)}`)).status).toBe(200);
    const limits = await (await to.ask('GET', `stays/${stay}/limits`)).json();
    expect(limits.limits).toEqual([{ ruleId: 'under-3', limit: 3.5 }]);
    expect(limits).toEqual(await (await from.ask('GET', `stays/${stay}/limits`)).json());

    expect((await sent(802, history)).body.animals[0].known).toBe(true);
    expect(await takenIn(802)).toEqual({ records: 0, readings: 0, differing: 0 });
  });

  it('what was changed here meanwhile stays, and is counted', async () => {
    const bramble = await (await to.ask('GET', `animals/${demoId(12)}`)).json();
    const changed = { ...bramble, name: 'Bramble the second' };
    const text = new TextEncoder().encode(JSON.stringify(changed));
    expect((await to.ask('PUT', `animals/${demoId(12)}`, text, 'application/json')).status).toBe(200);
    await sent(803, history);
    expect(await takenIn(803)).toEqual({ records: 0, readings: 0, differing: 1 });
    expect((await (await to.ask('GET', `animals/${demoId(12)}`)).json()).name).toBe('Bramble the second');
  });

  it('is gone once taken in or thrown away, and what is no archive is refused', async () => {
    expect((await to.ask('POST', `archives/${id(803)}/take-in`)).status).toBe(404);
    await sent(804, history);
    expect((await to.ask('DELETE', `archives/${id(804)}`)).status).toBe(204);
    expect((await to.ask('POST', `archives/${id(804)}/take-in`)).status).toBe(404);
    expect((await sent(805, new TextEncoder().encode('no zip'))).status).toBe(422);
    expect((await to.ask('POST', `archives?id=${id(806)}`, history, 'text/csv')).status).toBe(415);
  });

  it('backups are listed and made', async () => {
    const list = async (method: string) => (await to.ask(method, 'backups')).json();
    if (store === 'sqlite') {
      expect(await list('GET')).toEqual({ ownTools: false, backups: [] });
      const { backups } = await list('POST');
      expect(backups).toEqual([{ madeAt: new Date(NOW_MS).toISOString(), bytes: expect.any(Number) }]);
      expect(await list('GET')).toMatchObject({ backups });
    } else {
      expect(await list('GET')).toEqual({ ownTools: true, backups: [] });
      expect((await to.ask('POST', 'backups')).status).toBe(403);
    }
  });
});
