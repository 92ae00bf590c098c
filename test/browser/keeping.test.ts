import { statSync } from 'node:fs';
import jsQr from 'jsqr';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { GROUP } from '../records/given.ts';
import { accessFaults, laptop, openPage, openStage, overflow, phone, picture, type Stage, visit } from './harness.ts';

let here: Stage;
let there: Stage;
beforeAll(async () => {
  here = await openStage({ demonstration: true });
  there = await openStage();
  const made = await fetch(`${there.server.address}/api/v1/group`, {
    method: 'PUT',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(GROUP),
  });
  expect(made.status).toBeLessThan(300);
});
afterAll(async () => {
  await here?.close();
  await there?.close();
});

describe('records taken along', () => {
  it('an animal’s history is downloaded, looked at elsewhere, taken in, and stands on its page there', async () => {
    const giver = await openPage(here, phone);
    await visit(giver.page, '/animals');
    await giver.page.getByRole('link', { name: 'Bramble' }).first().click();
    await giver.page.getByText('Hand over to another keeper').click();
    const [download] = await Promise.all([
      giver.page.waitForEvent('download'),
      giver.page.getByRole('link', { name: 'Download the history' }).click(),
    ]);
    expect(download.suggestedFilename()).toBe('Bramble.zip');
    const file = await download.path();
    expect(statSync(file).size).toBeGreaterThan(5000);

    const taker = await openPage(there, phone);
    await visit(taker.page, '/group');
    await taker.page.getByLabel('Choose an archive').setInputFiles(file);
    await taker.page.getByText('Bramble is new here').waitFor();
    expect(await accessFaults(taker.page)).toEqual([]);
    expect(await overflow(taker.page)).toEqual([]);
    await picture(taker.page, 'archive-360');
    await taker.page.getByRole('button', { name: 'Take it in' }).click();
    await taker.page.getByText(/Taken in: \d+ records/).waitFor();
    await taker.page.getByRole('link', { name: 'Bramble' }).first().click();
    await taker.page.getByRole('heading', { level: 1, name: 'Bramble' }).waitFor();
    expect([...giver.complaints, ...taker.complaints]).toEqual([]);
  });

  it('what is no archive is refused in words, and a backup is made', async () => {
    const { page, complaints } = await openPage(here, laptop);
    await visit(page, '/group');
    await page
      .getByLabel('Choose an archive')
      .setInputFiles({ name: 'holiday.zip', mimeType: 'application/zip', buffer: Buffer.from('no archive') });
    await page.getByRole('alert').getByText('This is no export of Stillwinter').waitFor();
    await page.getByText('There is no backup yet').waitFor();
    await page.getByRole('button', { name: 'Make a backup now' }).click();
    await page.getByText('The newest backup is from').waitFor();
    expect(complaints).toEqual([]);
  });
});

describe('an invitation', () => {
  it('is a link that works once, and a code that a phone reads as that link, in both themes', async () => {
    for (const colorScheme of ['light', 'dark'] as const) {
      const { page, complaints } = await openPage(there, phone, { colorScheme });
      if (colorScheme === 'light') {
        await visit(page, '/group');
        await page.evaluate(async () =>
          fetch('/api/v1/session/set-up', {
            method: 'POST',
            headers: { 'content-type': 'application/json' },
            body: JSON.stringify({
              id: '01980d2e-7c00-7000-8000-0000000000aa',
              name: 'Wren',
              signInName: 'wren',
              passphrase: 'plain copper kettle',
            }),
          }),
        );
      } else {
        await page.goto('/');
        await page.evaluate(async () =>
          fetch('/api/v1/session', {
            method: 'POST',
            headers: { 'content-type': 'application/json' },
            body: JSON.stringify({ signInName: 'wren', passphrase: 'plain copper kettle' }),
          }),
        );
      }
      await visit(page, '/group');
      await page.getByText('Invite a person').click();
      await page.getByRole('button', { name: 'Make a link' }).click();
      const code = page.getByRole('img', { name: 'The link as a QR code' });
      await code.waitFor();
      const link = await page.locator('code', { hasText: '/join/' }).textContent();
      const { data, info } = await sharp(await code.screenshot())
        .ensureAlpha()
        .raw()
        .toBuffer({ resolveWithObject: true });
      // Read back by an independent decoder.
      expect(jsQr(new Uint8ClampedArray(data), info.width, info.height)?.data).toBe(link);
      await page.getByText('works on this computer only').waitFor();
      expect(await accessFaults(page)).toEqual([]);
      expect(await overflow(page)).toEqual([]);
      await picture(page, `invitation-360-${colorScheme}`);
      expect(complaints).toEqual([]);
    }
  });
});
