import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { accessFaults, openPage, openStage, overflow, phone, picture, type Stage, visit } from './harness.ts';

let stage: Stage;
beforeAll(async () => {
  stage = await openStage({ demonstration: true });
});
afterAll(() => stage?.close());
const ask = async (path: string) => (await fetch(`${stage.server.address}/api/v1/${path}`)).json();

describe('the limits of a stay', () => {
  it('are made tighter, told with who changed them, and put back to the usual', async () => {
    const [stay] = await ask('stays');
    const kept = async () => (await ask(`stays/${stay.id}/limits`)).limits;
    const { page, complaints } = await openPage(stage, phone);
    await visit(page, `/animals/${stay.animalId}`);
    const limits = page.locator('details', { hasText: 'Limits of the watch for this stay' }).last();
    await limits.locator('summary').first().click();
    const rule = limits.locator('.facts > div', { has: page.locator('dt', { hasText: /^Too warm$/ }) });
    await rule.getByText('Change', { exact: false }).first().click();
    await rule.getByLabel('Limit').fill('warm');
    expect(await rule.getByRole('button', { name: 'Set it' }).isDisabled()).toBe(true);
    await rule.getByLabel('Limit').fill('7');
    await rule.getByLabel('For how long').fill('6');
    await picture(page, 'limits-360', false);
    expect(await accessFaults(page)).toEqual([]);
    expect(await overflow(page)).toEqual([]);
    await rule.getByRole('button', { name: 'Set it' }).click();
    await expect.poll(kept).toMatchObject([{ ruleId: 'over-8', limit: 7, durationS: 21_600 }]);
    await rule.getByText('usual: 8', { exact: false }).waitFor();
    await limits.locator('li', { hasText: 'made tighter' }).waitFor();
    await rule.getByRole('button', { name: 'Back to the usual' }).click();
    await expect.poll(kept).toEqual([]);
    await limits.locator('li', { hasText: 'back to the usual' }).waitFor();
    expect(complaints).toEqual([]);
    await page.context().close();
  });
});

describe('a winter awake', () => {
  it('is chosen, saved, shown without a sleep on the animal’s page, and asked for in the round', async () => {
    const plans = async (id: string) => ask(`animals/${id}/plans`);
    let found = '';
    for (const { id } of await ask('animals')) {
      const last = (await plans(id)).at(-1);
      if (last?.plan.kind === 'sleep' && last.plan.sleepDay > new Date().toISOString().slice(0, 10)) found = id;
    }
    expect(found).not.toBe('');
    const { page, complaints } = await openPage(stage, phone);
    await visit(page, `/plans/${found}`);
    await page.getByText('Other choices').click();
    await page.locator('.choice', { hasText: 'a winter awake' }).click();
    await page.getByText('Awake through this winter.', { exact: false }).waitFor();
    await page.getByLabel('Why it is moved').fill('The vet wants to see it eat through this winter.');
    await page.getByRole('button', { name: 'Save this plan' }).click();
    await page.getByRole('button', { name: 'Save this plan' }).waitFor({ state: 'detached' });
    await picture(page, 'awake-plan-360');
    expect(await accessFaults(page)).toEqual([]);
    expect(await overflow(page)).toEqual([]);
    const kept = (await plans(found)).at(-1);
    expect(kept.plan.kind).toBe('awake');
    expect(kept.plan.sleepDay).toBeUndefined();
    expect(kept.plan.stages.map((one: { name: string }) => one.name)).not.toContain('asleep');
    // No gut, no move of a sleep: there is none.
    expect(await page.getByRole('heading', { name: 'Is the gut empty?' }).count()).toBe(0);
    expect(await page.getByText('It went otherwise').count()).toBe(0);

    await visit(page, `/animals/${found}`);
    await page.getByRole('heading', { name: 'Next' }).waitFor();
    await picture(page, 'awake-animal-360');
    expect(await overflow(page)).toEqual([]);
    const today = new Date().toISOString().slice(0, 10);
    const due = kept.plan.tasks.find((one: { day: string }) => one.day >= today);
    const round = await ask(`round?day=${due.day}`);
    const lines = round.parts.flatMap((part: { lines: { animalId: string }[] }) => part.lines);
    expect(lines.filter((line: { animalId: string }) => line.animalId === found).length).toBeGreaterThan(0);
    expect(complaints).toEqual([]);
    await page.context().close();
  });
});
