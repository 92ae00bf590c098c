import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { accessFaults, openPage, openStage, overflow, phone, picture, type Stage, visit } from './harness.ts';

let stage: Stage;
beforeAll(async () => {
  stage = await openStage({ demonstration: true });
});
afterAll(() => stage?.close());

describe('a logger’s file', () => {
  it('is asked about where it is unclear, shown before it is kept, and kept once', async () => {
    const { page, complaints } = await openPage(stage, phone);
    await visit(page, '/readings/import');
    const rows = Array.from(
      { length: 30 },
      (_, i) => `03/04/2026 ${String(i % 24).padStart(2, '0')}:${i < 24 ? '00' : '30'},${(5 + i / 20).toFixed(1)}`,
    );
    const text = `Time,Shelf (°C)\n${rows.join('\n')}\n`;
    const file = { name: 'shelf.csv', mimeType: 'text/csv', buffer: Buffer.from(text) };
    await page.locator('input[type=file]').setInputFiles(file);
    await page.getByRole('heading', { name: 'What was found' }).waitFor();
    const save = page.getByRole('button', { name: /^Save \d+ readings/ });
    expect(await save.isDisabled()).toBe(true);
    expect(await accessFaults(page)).toEqual([]);
    expect(await overflow(page)).toEqual([]);
    await picture(page, 'import-asked-360');
    await page.locator('.note[data-level=act] .choice input').first().click({ force: true });
    await expect.poll(() => save.isEnabled()).toBe(true);
    await picture(page, 'import-ready-360');
    const named = page.getByLabel('Name of the new thermometer for “shelf”');
    await named.fill('');
    await page.getByText('Give it a name').waitFor();
    expect(await save.isDisabled()).toBe(true);
    await named.fill('Larder, top shelf');
    expect(await overflow(page)).toEqual([]);
    expect(await accessFaults(page)).toEqual([]);
    await picture(page, 'import-named-360');
    await save.click();
    await page.getByText('30 readings are new').waitFor();
    await page.getByText('New thermometers: Larder, top shelf').waitFor();
    await page.getByRole('button', { name: 'Another file' }).click();
    await page.locator('input[type=file]').setInputFiles(file);
    await page.locator('.note[data-level=act] .choice input').first().click({ force: true });
    await page.getByLabel(/^“shelf”, 30 readings, goes to/).selectOption({ label: 'Larder, top shelf' });
    await save.click();
    await page.getByText('0 readings are new; 30 were there already').waitFor();
    expect(complaints).toEqual([]);
    await page.context().close();
  });
});
