import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { accessFaults, laptop, openPage, openStage, overflow, phone, picture, type Stage, visit } from './harness.ts';

let stage: Stage;
let animalId = '';
beforeAll(async () => {
  stage = await openStage({ demonstration: true });
  const [stay] = await (await fetch(`${stage.server.address}/api/v1/stays`)).json();
  animalId = stay.animalId;
});
afterAll(() => stage?.close());

const ask = async (path: string) => (await fetch(`${stage.server.address}/api/v1/${path}`)).json();

describe('an examination with one hand', () => {
  it('goes part by part, says what each answer means at once, and keeps what was found', async () => {
    const { page, complaints } = await openPage(stage, phone);
    await visit(page, `/animals/${animalId}/examination`);
    await page.getByText('Part 1 of', { exact: false }).waitFor();
    expect(await page.locator('.exam-part').count()).toBe(1);
    await page.locator('.choice', { hasText: 'sunken' }).click();
    await page.getByText('Failed.', { exact: false }).waitFor();
    await picture(page, 'care-exam-360', false);
    expect(await accessFaults(page)).toEqual([]);
    expect(await overflow(page)).toEqual([]);
    await page.getByRole('button', { name: 'Next part' }).click();
    for (let part = 2; part <= 8; part++) {
      await page.getByText(`Part ${part} of`, { exact: false }).waitFor();
      await picture(page, `care-exam-${part}-360`, false);
      await page.getByRole('button', { name: 'Could not see it: next' }).click();
    }
    await page.getByText('All parts seen', { exact: false }).waitFor();
    await page.locator('dd', { hasText: 'Sunken (failed)' }).waitFor();
    await picture(page, 'care-exam-last-360');
    expect(await accessFaults(page)).toEqual([]);
    const before = (await ask(`animals/${animalId}/examinations`)).length;
    await page.getByRole('button', { name: 'Save the examination' }).click();
    await page.getByRole('heading', { level: 1 }).waitFor();
    await expect.poll(async () => (await ask(`animals/${animalId}/examinations`)).length).toBe(before + 1);
    expect((await ask(`animals/${animalId}/examinations`)).at(-1).findings).toEqual({ eyes: 'sunken' });
    expect(complaints).toEqual([]);
    await page.context().close();
  });
});

describe('a plan on the screen and on paper', () => {
  it('folds the stages that are not the present one, and prints them all', async () => {
    const { page } = await openPage(stage, laptop);
    await visit(page, `/plans/${animalId}`);
    expect(await page.locator('.stage-tasks[open]').count()).toBe(1);
    const folded = page.locator('.stage-tasks:not([open]) dl').first();
    expect(await folded.isVisible()).toBe(false);
    await page.emulateMedia({ media: 'print' });
    expect(await folded.isVisible()).toBe(true);
    await page.emulateMedia({ media: null });
    await picture(page, 'care-plan-1280');
    await page.context().close();
  });
});
