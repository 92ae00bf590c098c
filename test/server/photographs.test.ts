import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Database } from '../../src/records/database.ts';
import { id, NOW_MS, SEDGE, smallGroup } from '../records/given.ts';
import { freshDatabase, STORES } from '../records/stores.ts';
import { testApp } from './given.ts';

describe.each(STORES)('photographs on %s', (store) => {
  let database: Database;
  let api: ReturnType<typeof testApp>['api'];
  beforeAll(async () => {
    database = await freshDatabase(store);
    await smallGroup(database);
    api = testApp(database).api;
  });
  afterAll(() => database.close());

  const many = `/api/v1/animals/${SEDGE.id}/photographs`;
  const send = (bytes: Uint8Array, type: string, photographId: string) =>
    api.request(`${many}?id=${photographId}&takenOn=2026-12-01`, {
      method: 'POST',
      headers: { host: 'localhost', 'content-type': type },
      body: new Uint8Array(bytes),
    });
  const get = (path: string) => api.request(path, { headers: { host: 'localhost' } });

  it('are made anew: turned the right way up, and without place and device', async () => {
    const picture = await sharp({ create: { width: 60, height: 40, channels: 3, background: '#7a8b6f' } })
      .withExif({ IFD0: { Make: 'Camera of Ada' }, IFD3: { GPSLatitudeRef: 'N', GPSLatitude: '52/1 18/1 0/1' } })
      .withMetadata({ orientation: 6 })
      .jpeg()
      .toBuffer();
    expect(picture.toString('latin1')).toContain('Exif');
    const kept = await send(picture, 'image/jpeg', id(300));
    expect(await kept.json()).toMatchObject({ widthPx: 40, heightPx: 60, takenOn: '2026-12-01' });
    const image = await get(`${many}/${id(300)}/image`);
    expect(image.headers.get('content-type')).toBe('image/jpeg');
    const bytes = Buffer.from(await image.arrayBuffer());
    expect(bytes.toString('latin1')).not.toMatch(/Exif|GPS|Camera of Ada/);
    expect((await sharp(bytes).metadata()).exif).toBeUndefined();
  });

  it('that are no pictures are refused, whatever they claim to be', async () => {
    const page = Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>');
    expect((await send(page, 'image/svg+xml', id(301))).status).toBe(415);
    expect((await send(Buffer.from('GIF89a and then nothing'), 'image/jpeg', id(302))).status).toBe(422);
    expect((await get(`${many}/${id(302)}/image`)).status).toBe(404);
  });

  it('that unpack to far more pixels than they weigh are refused', async () => {
    const bomb = await sharp({ create: { width: 9000, height: 9000, channels: 3, background: '#000' } })
      .png()
      .toBuffer();
    expect(bomb.byteLength).toBeLessThan(1_000_000);
    expect((await send(bomb, 'image/png', id(303))).status).toBe(422);
  });

  const plain = (background: string) =>
    sharp({ create: { width: 800, height: 600, channels: 3, background } })
      .jpeg()
      .toBuffer();
  const put = (photographId: string, body: object) =>
    api.request(`${many}/${photographId}`, {
      method: 'PUT',
      headers: { host: 'localhost', 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });

  it('are kept once, however often they are sent, and come small for a list', async () => {
    const first = await (await send(await plain('#33401f'), 'image/jpeg', id(310))).json();
    const again = await send(await plain('#33401f'), 'image/jpeg', id(310));
    expect(await again.json()).toEqual(first);
    const small = await get(`${many}/${id(310)}/image?size=small`);
    expect(await sharp(Buffer.from(await small.arrayBuffer())).metadata()).toMatchObject({ width: 360, height: 270 });
  });

  it('get another day and caption, with the picture left as it is, and tell of a second edit', async () => {
    const [kept] = (await (await get(many)).json()).filter((one: { id: string }) => one.id === id(310));
    const edit = { ...kept, takenOn: '2025-10-04', note: 'Shell from above', widthPx: 7 };
    const changed = await (await put(id(310), edit)).json();
    expect(changed).toMatchObject({ takenOn: '2025-10-04', note: 'Shell from above', widthPx: 800, revision: 2 });
    expect((await put(id(310), { ...kept, note: 'Another' })).status).toBe(409);
    expect((await put(id(310), { ...changed, takenOn: '2027-10-04' })).status).toBe(422);
    expect((await put(id(311), changed)).status).toBe(422);
  });

  it('show an animal by the newest, or by the one chosen, never by a photograph of another', async () => {
    const { ask } = testApp(database);
    const main = async () => (await ask('GET', 'photographs/main')).body.map((one: { id: string }) => one.id);
    expect(await main()).toEqual([id(300)]);
    const other = { ...SEDGE, id: id(312), name: 'Bracken' };
    await ask('POST', 'animals', other);
    expect((await ask('PUT', `animals/${other.id}`, { ...other, photographId: id(310) })).status).toBe(422);
    expect((await ask('PUT', `animals/${SEDGE.id}`, { ...SEDGE, photographId: id(310) })).status).toBe(200);
    expect(await main()).toEqual([id(310)]);
    await ask('DELETE', `animals/${SEDGE.id}/photographs/${id(310)}`);
    expect(await main()).toEqual([id(300)]);
    expect((await get(`/api/v1/animals/${other.id}/photographs/${id(300)}/image`)).status).toBe(404);
  });

  it('are seen by the holder of a link, of that one animal only', async () => {
    const { ask } = testApp(database);
    const until = new Date(NOW_MS + 86_400_000).toISOString();
    const share = async (animalId: string, shareId: string) =>
      (await ask('POST', `animals/${animalId}/shares`, { id: shareId, animalId, forWhom: 'Dr Hollis', until })).body
        .token;
    const own = await share(SEDGE.id, id(320));
    const strange = await share(id(312), id(321));
    expect((await get(`/api/v1/shared/${own}/photographs/${id(300)}/image`)).status).toBe(200);
    expect((await get(`/api/v1/shared/${strange}/photographs/${id(300)}/image`)).status).toBe(404);
  });
});
