import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { accessFaults, openPage, openStage, overflow, phone, picture, type Stage, visit } from './harness.ts';

let stage: Stage;
const ask = async (path: string, method = 'GET', body?: object) =>
  (
    await fetch(`${stage.server.address}/api/v1/${path}`, {
      method,
      headers: { 'content-type': 'application/json' },
      ...(body ? { body: JSON.stringify(body) } : {}),
    })
  ).json();

beforeAll(async () => {
  stage = await openStage({ demonstration: true });
});
afterAll(() => stage?.close());

describe('a keeper who reads °F, ounces and inches', () => {
  it('turns the normals of the place with the unit, and keeps the climate they tell', async () => {
    const { page, complaints } = await openPage(stage, phone);
    const before = await ask('group');
    await visit(page, '/settings');
    for (const unit of ['°F', 'oz', 'in']) await page.getByRole('radio', { name: unit, exact: true }).check();
    const july = page.getByLabel('July, Mean highest, °F');
    const { maxC } = before.climateNormals[6];
    expect(Number(await july.inputValue())).toBeCloseTo((maxC * 9) / 5 + 32, 1);
    await july.fill('68');
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    await page.getByText('Saved.', { exact: false }).first().waitFor();
    const after = await ask('group');
    expect(after).toMatchObject({ temperatureUnit: 'F', massUnit: 'oz', lengthUnit: 'in' });
    expect(after.climateNormals[6].maxC).toBe(20);
    expect(after.climateNormals[6].minC).toBeCloseTo(before.climateNormals[6].minC, 1);
    expect(await accessFaults(page)).toEqual([]);
    await picture(page, 'american-settings-360');
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('reads the emergency pages in °F, a fresh page opened there alone as well', async () => {
    const { page } = await openPage(stage, phone);
    await visit(page, '/now/frost');
    await page.getByText('Carry the whole box to a place at 41 to 46 °F.').waitFor();
    // Sources stay in the units they were published in.
    const said = await page.locator('main h1, main .lead, main .steps').allTextContents();
    expect(said.join()).not.toContain('°C');
    await picture(page, 'american-now-360');
    await page.context().close();
  });

  it('builds in inches: what is typed is what is built, and nothing is left in mm', async () => {
    const { page, complaints } = await openPage(stage, phone);
    await visit(page, '/places/build');
    await page.getByText('Worst of 30 winters').waitFor({ timeout: 30_000 });
    const wall = page.getByRole('spinbutton', { name: 'Thickness of the wall' });
    expect(await wall.textContent()).toBe('1.57\u00a0in');
    await wall.press('ArrowUp');
    expect(await wall.textContent()).toBe('1.75\u00a0in');
    await wall.press('Enter');
    await page.locator('.value-editor input').fill('2');
    await page.keyboard.press('Enter');
    expect(await wall.textContent()).toBe('2\u00a0in');
    const animal = page.getByRole('spinbutton', { name: 'Mass of the animal' });
    await animal.press('Enter');
    await page.locator('.value-editor input').fill('35');
    await page.keyboard.press('Enter');
    expect(await animal.textContent()).toBe('35.0\u00a0oz');
    await page.getByText('2 in polystyrene', { exact: false }).first().waitFor();
    // The advice comes when nothing has moved for a moment.
    await page
      .locator('.build-advice, main')
      .getByText(/builds|This build/)
      .first()
      .waitFor({ timeout: 30_000 });
    const left = await page.evaluate(() =>
      [...document.querySelectorAll('main p, main li, main td, main th, main label, main .moved')]
        .filter((one) => !one.closest('.why > div'))
        .map((one) => one.textContent ?? '')
        .filter((text) => /\d[ \u00a0](mm|cm|°C|g)(?!\w)/.test(text)),
    );
    expect(left).toEqual([]);
    expect(await overflow(page)).toEqual([]);
    await picture(page, 'american-builder-360');
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('gets papers in °F', async () => {
    const [stay] = await ask('stays');
    const calendar = await fetch(`${stage.server.address}/api/v1/animals/${stay.animalId}/calendar.ics`);
    const text = (await calendar.text()).replace(/\r\n /g, '');
    expect(text).toContain('about 86 °F');
    expect(text).not.toContain('°C');
  });
});
