import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { accessFaults, laptop, openPage, openStage, overflow, phone, picture, type Stage, visit } from './harness.ts';

let stage: Stage;
beforeAll(async () => {
  stage = await openStage({ demonstration: true });
});
afterAll(() => stage?.close());

describe('the builder of places and boxes', () => {
  it('searches builds on a thread of its own, can be stopped, and sets the fridge method beside the box by keys alone', async () => {
    const { page, complaints } = await openPage(stage, phone);
    await visit(page, '/places/build');
    await page.locator('canvas').waitFor();
    const help = page.locator('section[aria-labelledby=helps]');
    await help.getByRole('button', { name: 'Stop' }).click();
    await help.getByText('Stopped.', { exact: false }).waitFor();
    await page.getByRole('button', { name: 'Keep this build beside the next' }).click();

    const place = page.getByRole('spinbutton', { name: 'Place', exact: true });
    await place.press('End');
    await page.getByText('If the current fails and the door stays shut', { exact: false }).waitFor();
    const table = page.locator('section[aria-labelledby=beside] tbody tr');
    expect(await table.count()).toBe(2);
    expect(await table.first().textContent()).toContain('held by the thermostat');

    // A warmer setting is a warmer animal, told in the sentence and in the figures.
    const coldest = async () => Number(/(-?[\d.]+)\s°C/.exec((await table.first().textContent()) ?? '')?.[1]);
    const before = await coldest();
    await page.getByRole('spinbutton', { name: 'Stops cooling at' }).press('PageUp');
    await expect.poll(coldest).toBeGreaterThan(before + 1);
    expect(await accessFaults(page)).toEqual([]);
    expect(await overflow(page)).toEqual([]);
    await picture(page, 'builder-refrigerator-360');
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('names what would hold the band, and shows it at a press', async () => {
    const { page, complaints } = await openPage(stage, laptop);
    await visit(page, '/places/build');
    await page.locator('canvas').waitFor();
    const help = page.locator('section[aria-labelledby=helps]');
    await help.getByText('How sure is this?', { exact: false }).waitFor({ timeout: 20_000 });
    await help.getByText('How much each value matters').click();
    await help.getByRole('rowheader', { name: '1 litre more water' }).waitFor();
    expect(await accessFaults(page)).toEqual([]);
    await picture(page, 'builder-advice-1280');
    const show = help.getByRole('button', { name: /^Show/ }).first();
    const fridge = (await show.textContent()) === 'Show the fridge method';
    await show.click();
    if (fridge) await page.getByText('If the current fails', { exact: false }).waitFor();
    else await help.getByText('This build stays in the band', { exact: false }).waitFor({ timeout: 20_000 });
    expect(complaints).toEqual([]);
    await page.context().close();
  });
});
