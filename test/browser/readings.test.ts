import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openPage, openStage, phone, type Stage, visit } from './harness.ts';

let stage: Stage;
let boxId = '';
beforeAll(async () => {
  stage = await openStage({ demonstration: true });
  const boxes = await (await fetch(`${stage.server.address}/api/v1/boxes`)).json();
  boxId = boxes.find((box: { name: string }) => box.name === 'Fish box').id;
});
afterAll(() => stage?.close());

describe('the readings', () => {
  it('move by keys, and a reading left out with a reason stays visible as left out', async () => {
    const { page, complaints } = await openPage(stage, phone);
    await visit(page, '/readings');
    const shown = page.getByText(/^Shown: /);
    const before = await shown.textContent();
    await page.getByRole('application').focus();
    await page.keyboard.press('+');
    await expect.poll(() => shown.textContent()).not.toBe(before);
    await page.keyboard.press('ArrowRight');
    await page.locator('.chart-told', { hasText: '°C' }).waitFor();

    await page.getByText('Correct a reading or leave it out').click();
    const late = page.locator('details:has-text("Correct a reading") tbody tr').last();
    await late.getByRole('checkbox').check();
    await page.getByRole('button', { name: 'Save' }).click();
    await page.getByText('Say why').waitFor();
    await page.getByLabel('Why').fill('=probe on the window sill');
    await page.getByRole('button', { name: 'Save' }).click();
    await late.getByText('left out: =probe on the window sill').waitFor();

    const file = await page.evaluate(async () => {
      const link = document.querySelector<HTMLAnchorElement>('a[download]');
      return (await fetch(link?.href ?? '')).text();
    });
    const row = file.split('\r\n').find((line) => line.includes('window sill'));
    // Text that a spreadsheet would take for a formula is disarmed.
    expect(row).toContain(`"'=probe on the window sill"`);
    expect(row).toContain('"excluded"');
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('checks a thermometer in melting ice and refuses one that is far off', async () => {
    const { page } = await openPage(stage, phone);
    await visit(page, '/readings/thermometers');
    const probe = page.locator('.lines > li').first();
    await probe.getByText('Check in melting ice').click();
    await probe.getByLabel('The thermometer shows').fill('4,2');
    await probe.getByText('No offset is stored').waitFor();
    await probe.getByLabel('The thermometer shows').fill('0,3');
    await probe.getByRole('button', { name: /Store the offset/ }).click();
    await probe.getByText('is added to what comes in from now on').waitFor();
    const [stored] = await (await fetch(`${stage.server.address}/api/v1/probes`)).json();
    expect(stored.offsetC).toBeCloseTo(-0.3, 9);
    await page.context().close();
  });
});

describe('a dry run', () => {
  it('is refused in plain words when it is too short, and otherwise kept with the box and its place', async () => {
    const { page, complaints } = await openPage(stage, phone);
    await visit(page, `/places/boxes/${boxId}/dry-run`);
    const from = page.getByLabel('First day of the dry run');
    const usual = await from.inputValue();
    await from.fill(await page.getByLabel('Last day of the dry run').inputValue());
    await page.getByRole('button', { name: 'See what it teaches' }).click();
    await page.getByText('Nothing was changed').waitFor({ timeout: 20_000 });
    await from.fill(usual);
    await page.getByRole('button', { name: 'See what it teaches' }).click();
    await page.getByRole('button', { name: 'Use this from now on' }).click({ timeout: 20_000 });
    await page.getByText('Every forecast now goes by it').waitFor();
    const box = await (await fetch(`${stage.server.address}/api/v1/boxes/${boxId}`)).json();
    expect(box.description.tuning.lossFactor).toBeGreaterThan(0.2);
    expect(box.description.animal).toBeDefined();
    const place = await (await fetch(`${stage.server.address}/api/v1/places/${box.placeId}`)).json();
    expect(place.description.tuning.massFactor).toBeGreaterThan(0.1);
    expect(complaints).toEqual([]);
    await page.context().close();
  });
});
