import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Database } from '../../src/records/database.ts';
import { id, SEDGE, smallGroup } from '../records/given.ts';
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
});
