import type { Page } from 'playwright-core';
import sharp from 'sharp';
import { v7 as uuidv7 } from 'uuid';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { accessFaults, laptop, openPage, openStage, overflow, phone, picture, type Stage, visit } from './harness.ts';

let stage: Stage;
let animalId = '';
let boxId = '';
let examinationId = '';
let noticeId = '';

beforeAll(async () => {
  stage = await openStage({ demonstration: true });
  const ask = async (path: string) => (await fetch(`${stage.server.address}/api/v1/${path}`)).json();
  // The animal with the most recorded, asleep in a box.
  const [stay] = await ask('stays');
  animalId = stay.animalId;
  boxId = stay.boxId;
  examinationId = (await ask(`animals/${animalId}/examinations`)).at(-1).id;
  // Something to bring back, and a picture to be shown by.
  const [weighed] = await ask(`animals/${animalId}/measurements`);
  await fetch(`${stage.server.address}/api/v1/animals/${animalId}/measurements/${weighed.id}`, { method: 'DELETE' });
  const image = await sharp({ create: { width: 400, height: 300, channels: 3, background: '#7a6f48' } })
    .jpeg()
    .toBuffer();
  await fetch(`${stage.server.address}/api/v1/animals/${animalId}/photographs?id=${uuidv7()}&takenOn=2025-10-04`, {
    method: 'POST',
    headers: { 'content-type': 'image/jpeg' },
    body: new Uint8Array(image),
  });
  // Without a notice the address leads to the round all the same.
  noticeId = (await ask('notices'))[0]?.id ?? 'over';
});
afterAll(() => stage?.close());

const screens = () =>
  [
    ['round', '/'],
    ['animals', '/animals'],
    ['animal', `/animals/${animalId}`],
    ['new-animal', '/animals/new'],
    ['edit-animal', `/animals/${animalId}/edit`],
    ['examination', `/animals/${animalId}/examination`],
    ['record', `/animals/${animalId}/record`],
    ['examination-changed', `/animals/${animalId}/examinations/${examinationId}`],
    ['deleted', '/deleted'],
    ['places', '/places'],
    ['builder', '/places/build'],
    ['saved-box', `/places/boxes/${boxId}`],
    ['dry-run', `/places/boxes/${boxId}/dry-run`],
    ['plans', '/plans'],
    ['plan', `/plans/${animalId}`],
    ['readings', '/readings'],
    ['thermometers', '/readings/thermometers'],
    ['import', '/readings/import'],
    ['group', '/group'],
    ['papers', '/papers'],
    ['settings', '/settings'],
    ['now', '/now'],
    ['now-frost', '/now/frost'],
    ['notice', `/notices/${noticeId}`],
    ['not-found', '/nowhere'],
  ] as const;

/** Waits for what a screen works out after it has been read. */
async function settle(page: Page, name: string) {
  if (name === 'builder' || name === 'saved-box')
    await page.getByText('Worst of 30 winters').waitFor({ timeout: 30_000 });
  if (name === 'readings') await page.locator('.chart-told').waitFor();
}

describe.each([
  ['phone', phone, 'light'],
  ['laptop', laptop, 'light'],
] as const)('on a %s of %o', (device, size, colorScheme) => {
  it('shows every screen without a fault of access, a sideways scroll, a complaint or a breach of policy', async () => {
    const { page, complaints } = await openPage(stage, size, { colorScheme });
    const found: string[] = [];
    for (const [name, path] of screens()) {
      await visit(page, path);
      await settle(page, name);
      await picture(page, `${name}-${size.width}`);
      for (const fault of await accessFaults(page)) found.push(`${name} ${device}: ${fault}`);
      for (const wide of await overflow(page)) found.push(`${name} ${device} overflows: ${wide}`);
    }
    expect(found).toEqual([]);
    expect(complaints).toEqual([]);
    await page.context().close();
  }, 300_000);
});

describe('in a dark shed', () => {
  it('keeps enough contrast on every screen', async () => {
    const { page } = await openPage(stage, phone, { colorScheme: 'dark' });
    const found: string[] = [];
    for (const [name, path] of screens()) {
      await visit(page, path);
      await settle(page, name);
      await picture(page, `${name}-dark`);
      for (const fault of await accessFaults(page, ['color-contrast'])) found.push(`${name}: ${fault}`);
    }
    expect(found).toEqual([]);
    await page.context().close();
  }, 300_000);
});

describe('at 200 % zoom on a small laptop', () => {
  it('reflows every screen to 320 px', async () => {
    const { page } = await openPage(stage, { width: 320, height: 400 });
    const found: string[] = [];
    for (const [name, path] of screens()) {
      await visit(page, path);
      for (const wide of await overflow(page)) found.push(`${name}: ${wide}`);
    }
    expect(found).toEqual([]);
    await page.context().close();
  }, 300_000);
});

describe('on paper', () => {
  it('draws everything within the sheet, and leaves nothing to press', async () => {
    // 180 mm between the margins, at 96 dots to the inch.
    const { page } = await openPage(stage, laptop);
    const found: string[] = [];
    for (const [name, path] of screens()) {
      await page.setViewportSize(laptop);
      await page.emulateMedia({ media: 'screen' });
      await visit(page, path);
      await settle(page, name);
      await page.emulateMedia({ media: 'print' });
      // Measured in the same breath as the page is narrowed: printing leaves no time to draw anew for the sheet.
      const wide = await page.evaluate(() => {
        document.documentElement.style.width = '680px';
        return [...document.querySelectorAll('main *')]
          .filter((one) => {
            const { right, width } = one.getBoundingClientRect();
            return width > 0 && right > 681 && one.closest('.unseen, defs') === null;
          })
          .map((one) => `${one.tagName} ${one.getAttribute('class') ?? ''} ${one.textContent?.slice(0, 30)}`);
      });
      for (const one of wide) found.push(`${name}: ${one}`);
      if ((await page.locator('main .button:visible').count()) > 0) found.push(`${name}: a button on paper`);
    }
    expect(found).toEqual([]);
    await page.context().close();
  }, 300_000);
});
