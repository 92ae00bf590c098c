import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { accessFaults, laptop, openPage, openStage, overflow, phone, picture, type Stage, visit } from './harness.ts';

let stage: Stage;
beforeAll(async () => {
  stage = await openStage({ demonstration: true });
});
afterAll(() => stage?.close());

const ask = async (path: string) => (await fetch(`${stage.server.address}/api/v1/${path}`)).json();
const named = async (path: string, name: string) =>
  (await ask(path)).find((one: { name: string }) => one.name === name);

describe('a saved place or box', () => {
  it('is changed from its own line, as the same record, with what was there before', async () => {
    const { page, complaints } = await openPage(stage, phone);
    const before = await named('places', 'Cart shed');
    await visit(page, '/places');
    const section = page.locator('section', { has: page.getByRole('heading', { name: 'Cart shed' }) });
    await section.getByText('Change or delete').first().click();
    await section.getByRole('link', { name: /^Change how it is built/ }).click();
    await page.getByRole('heading', { name: 'How Cart shed is built' }).waitFor();
    await page.locator('canvas').waitFor();
    const value = (name: string) => page.getByRole('spinbutton', { name, exact: true });
    expect(await value('Thickness of the walls').textContent()).toBe('14\u00a0mm');
    await value('Lining of the walls').press('PageUp');
    await value('What lines the walls').waitFor();
    await value('Air changes in an hour').press('ArrowDown');
    await value('The long side looks to the').press('ArrowUp');
    await value('Thickness of the walls').click();
    await page.locator('.value-editor input').fill('19');
    await page.getByRole('button', { name: 'Done' }).click();
    await picture(page, 'place-360');
    expect(await accessFaults(page)).toEqual([]);
    expect(await overflow(page)).toEqual([]);
    // Kept on the device while it is told, as every form.
    await page.reload();
    await page.locator('canvas').waitFor();
    await page.getByRole('button', { name: 'Save the place' }).click();
    await page.waitForURL('**/places');
    const after = await named('places', 'Cart shed');
    expect(after).toMatchObject({
      id: before.id,
      revision: before.revision + 1,
      description: {
        kind: 'building',
        preset: 'timber-shed',
        airChangesPerHour: 2.9,
        walls: [
          { material: 'softwood', thicknessMm: 19 },
          { material: 'polystyrene', thicknessMm: 40 },
        ],
      },
    });
    expect(after.description.facingDeg).not.toBe(before.description.facingDeg);
    // What did not move is not written down as if it had been measured.
    expect(Object.keys(after.description).sort()).toEqual([
      'airChangesPerHour',
      'facingDeg',
      'kind',
      'preset',
      'walls',
    ]);
    await section.getByText('Change or delete').first().click();
    await section.getByText('Before: Cart shed, a timber shed', { exact: false }).waitFor();
    await picture(page, 'places-history-360');
    expect(await accessFaults(page)).toEqual([]);
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('is a refrigerator told by its own sentence, or a box that keeps what its sentence does not tell', async () => {
    const { page, complaints } = await openPage(stage, laptop);
    const fridge = await named('places', 'Larder refrigerator');
    await visit(page, `/places/${fridge.id}`);
    await page.getByRole('spinbutton', { name: 'Door openings a day' }).press('ArrowUp');
    await page.getByText('the lower shelf').waitFor();
    await picture(page, 'place-refrigerator-1280');
    expect(await accessFaults(page)).toEqual([]);
    expect(await overflow(page)).toEqual([]);
    await page.getByRole('button', { name: 'Save the place' }).click();
    await page.waitForURL('**/places');
    expect((await named('places', 'Larder refrigerator')).description).toEqual({
      ...fridge.description,
      doorsPerDay: 2,
    });

    const chest = await named('boxes', 'Tea chest');
    const section = page.locator('li', { has: page.getByRole('link', { name: 'Tea chest', exact: true }) });
    await section.getByText('Change or delete').click();
    await section.getByRole('link', { name: /^Change how it is built/ }).click();
    await page.locator('canvas').waitFor();
    await page.getByRole('spinbutton', { name: 'Depth of the bedding' }).press('ArrowUp');
    await page.getByRole('button', { name: 'Save this box' }).click();
    await page.waitForURL('**/places');
    expect((await named('boxes', 'Tea chest')).description).toEqual({
      ...chest.description,
      bedding: { material: 'shredded-paper', depthMm: 70 },
    });

    const shed = await named('places', 'Coal cellar');
    await visit(page, `/places/${shed.id}`);
    await page.locator('canvas').waitFor();
    await picture(page, 'place-1280');
    expect(complaints).toEqual([]);
    await page.context().close();
  });
});
