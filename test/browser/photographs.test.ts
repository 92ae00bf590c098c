import type { Locator } from 'playwright-core';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  accessFaults,
  laptop,
  type Opened,
  openPage,
  openStage,
  overflow,
  phone,
  picture,
  type Stage,
  visit,
} from './harness.ts';

let stage: Stage;
let animalId = '';
beforeAll(async () => {
  stage = await openStage({ demonstration: true });
  animalId = (await ask('stays'))[0].animalId;
});
afterAll(() => stage?.close());

const ask = async (path: string) => (await fetch(`${stage.server.address}/api/v1/${path}`)).json();
const kept = () => ask(`animals/${animalId}/photographs`);

/** A drawn shell from above, as a camera would hand it over: large, and with the place it was taken at. */
async function drawnShell(scute: string): Promise<Buffer> {
  const rows = [0, 1, 2, 3, 4]
    .map((row) => `<rect x="${1000 + row * 400}" y="900" width="360" height="420" />`)
    .join('');
  const drawing = `<svg xmlns="http://www.w3.org/2000/svg" width="4000" height="2200">
    <rect width="4000" height="2200" fill="#d9d2bd" /><ellipse cx="2000" cy="1100" rx="1300" ry="800" fill="#4d452c" />
    <g fill="${scute}">${rows}</g></svg>`;
  return sharp(Buffer.from(drawing))
    .withExif({ IFD3: { GPSLatitudeRef: 'N', GPSLatitude: '52/1 18/1 0/1' } })
    .jpeg()
    .toBuffer();
}

const file = (buffer: Buffer, name = 'shell.jpg', mimeType = 'image/jpeg') => ({ name, mimeType, buffer });

describe('photographs of an animal', () => {
  let opened: Opened;
  let section: Locator;
  beforeAll(async () => {
    opened = await openPage(stage, phone);
    await visit(opened.page, `/animals/${animalId}`);
    section = opened.page.locator('section[aria-labelledby=photographs]');
  });
  afterAll(() => opened?.page.context().close());

  it('are taken with a day and a caption, and kept without the place', async () => {
    const { page } = opened;
    await section.getByText('No photograph yet', { exact: false }).waitFor();
    for (const [day, note, scute] of [
      ['2024-10-04', 'Shell from above', '#8a7b45'],
      ['2026-10-02', 'Shell from above, a year of growth', '#a08f55'],
    ] as const) {
      await section.getByLabel('Choose a picture').setInputFiles(file(await drawnShell(scute)));
      await section.getByLabel('Taken on').fill(day);
      await section.getByLabel('Caption').fill(note);
      await picture(page, 'photo-new-360', false);
      await section.getByRole('button', { name: 'Keep the photograph' }).click();
      await section.locator('.photos li', { hasText: note }).waitFor();
    }
    const list = await kept();
    expect(list).toHaveLength(2);
    expect(list[0]).toMatchObject({ widthPx: 2000, heightPx: 1100, takenOn: '2024-10-04' });
    const bytes = await fetch(`${stage.server.address}/api/v1/animals/${animalId}/photographs/${list[0].id}/image`);
    expect(Buffer.from(await bytes.arrayBuffer()).toString('latin1')).not.toMatch(/Exif|GPS/);
    expect(await section.locator('.photos li').first().textContent()).toContain('a year of growth');
  });

  it('of two years stand beside each other', async () => {
    const { page } = opened;
    await section.getByText('Set two years beside each other').click();
    await section.locator('.photo-pair img').nth(1).waitFor();
    await picture(page, 'photo-section-360');
    expect(await accessFaults(page)).toEqual([]);
    expect(await overflow(page)).toEqual([]);

    await section
      .getByRole('button', { name: /Look at it large/ })
      .first()
      .click();
    const large = page.getByRole('dialog');
    await large.getByText('1 of 2').waitFor();
    await page.keyboard.press('ArrowRight');
    await large.getByText('2 of 2').waitFor();
    const shown = (await large.locator('img').boundingBox())!;
    await page.mouse.move(shown.x + 40, shown.y + 40);
    await page.mouse.down();
    await page.mouse.move(shown.x + 200, shown.y + 44);
    await page.mouse.up();
    await large.getByText('1 of 2').waitFor();
    await picture(page, 'photo-large-360', false);
    expect(await accessFaults(page)).toEqual([]);
  });

  it('get another caption, become the one an animal is shown by, are deleted and brought back', async () => {
    const { page, complaints } = opened;
    const large = page.getByRole('dialog');
    await large.getByText('Change or delete').click();
    await large.getByLabel('Caption').fill('Lid side, in the sun');
    await large.getByRole('button', { name: 'Save' }).click();
    await large.getByText('Saved.').waitFor();
    await large.getByText('Lid side, in the sun', { exact: false }).first().waitFor();
    await large.getByRole('button', { name: 'Older' }).click();
    await large.getByText('2 of 2').waitFor();
    await large.getByText('Change or delete').click();
    await large.getByRole('button', { name: /^Show .* by this one/ }).click();
    await large.getByRole('button', { name: /by the newest again/ }).waitFor();
    await expect.poll(async () => (await ask('photographs/main'))[0].takenOn).toBe('2024-10-04');
    await large.getByRole('button', { name: 'Delete the photograph' }).click();
    await large.waitFor({ state: 'detached' });
    await section.getByRole('button', { name: 'Undo' }).waitFor();
    expect(await kept()).toHaveLength(1);
    await section.getByRole('button', { name: 'Undo' }).click();
    await section.locator('.photos li').nth(1).waitFor();
    await page.keyboard.press('Escape');
    await visit(page, '/animals');
    await page.locator('.animal-list .portrait').waitFor();
    await picture(page, 'photo-animals-360');
    expect(complaints).toEqual([]);
    await page.setViewportSize(laptop);
    await visit(page, `/animals/${animalId}`);
    await page.locator('h1 >> xpath=ancestor::div[contains(@class, "with-portrait")]').locator('.portrait').waitFor();
    await picture(page, 'photo-animal-1280');
  });

  it('that are no pictures are refused by name, before anything is sent', async () => {
    const { page } = await openPage(stage, phone);
    await visit(page, `/animals/${animalId}`);
    const section = page.locator('section[aria-labelledby=photographs]');
    await section.getByLabel('Choose a picture').setInputFiles(file(Buffer.from('a letter'), 'letter.jpg'));
    await section.getByText('letter.jpg is not a picture', { exact: false }).waitFor();
    expect(await section.getByRole('button', { name: 'Keep the photograph' }).count()).toBe(0);
    await page.context().close();
  });

  it('taken without network wait on the device through a reload, and are sent once when it is back', async () => {
    const { page } = await openPage(stage, phone, { serviceWorkers: 'allow' });
    await visit(page, `/animals/${animalId}`);
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    const before = (await kept()).length;
    const section = page.locator('section[aria-labelledby=photographs]');
    await stage.lose();
    await section.getByLabel('Choose a picture').setInputFiles(file(await drawnShell('#665')));
    await section.getByRole('button', { name: 'Keep the photograph' }).click();
    await section.getByText('waiting for the network', { exact: false }).waitFor();
    await page.reload();
    await section.getByText('waiting for the network', { exact: false }).waitFor();
    await picture(page, 'photo-waiting-360');
    await stage.regain();
    await page.evaluate(() => dispatchEvent(new Event('online')));
    await section.locator('.photo-waiting').waitFor({ state: 'detached' });
    expect(await kept()).toHaveLength(before + 1);
    await page.context().close();
  });
});

describe('somebody who may only read', () => {
  it('sees the photographs and is offered neither adding nor changing', async () => {
    const { page } = await openPage(stage, phone);
    await page.route('**/api/v1/session', async (route) => {
      const answer = await route.fetch();
      await route.fulfill({ response: answer, json: { ...(await answer.json()), role: 'reader' } });
    });
    await visit(page, `/animals/${animalId}`);
    const section = page.locator('section[aria-labelledby=photographs]');
    await section
      .getByRole('button', { name: /Look at it large/ })
      .first()
      .click();
    await page.getByRole('dialog').getByText('1 of', { exact: false }).waitFor();
    expect(await page.getByText('Change or delete', { exact: true }).count()).toBe(0);
    expect(await section.getByLabel('Choose a picture').count()).toBe(0);
    await page.context().close();
  });
});
