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

describe('a weigh-in of a sleeping animal', () => {
  it('says the range before, asks for a second weighing when it does not fit, and draws what is ahead', async () => {
    const { page, complaints } = await openPage(stage, phone);
    await visit(page, `/animals/${animalId}`);
    await page.getByText('Expected', { exact: false }).first().waitFor();
    await page.getByRole('heading', { name: 'Weight until the waking' }).waitFor();
    await page.getByText('Week by week, in a table').click();
    await picture(page, 'care-animal-360');
    expect(await accessFaults(page)).toEqual([]);
    expect(await overflow(page)).toEqual([]);
    const [, low = ''] = /Expected ([\d,.]+)/.exec((await page.locator('.expected').first().textContent()) ?? '') ?? [];
    const lowG = Number(low.replace(',', ''));
    const form = page.locator('form', { has: page.getByRole('button', { name: 'Save the weigh-in' }) });
    const weigh = async (massG: number) => {
      await form.getByLabel('Mass').fill(String(Math.round(massG)));
      await form.getByRole('button', { name: 'Save the weigh-in' }).click();
    };
    await weigh(lowG * 0.94);
    await page.getByText('Weigh a second time.').waitFor();
    await page.getByText('counts as true', { exact: false }).waitFor();
    await picture(page, 'care-weigh-again-360', false);
    await weigh(lowG + 1);
    await page.getByText('most likely a misreading', { exact: false }).waitFor();
    await page.getByText('Weigh a second time.').waitFor({ state: 'detached' });
    expect(complaints).toEqual([]);
    await page.setViewportSize(laptop);
    await picture(page, 'care-animal-1280');
    await page.context().close();
  });

  it('offers what is normal beside the entry it belongs to', async () => {
    const { page } = await openPage(stage, phone);
    await visit(page, `/animals/${animalId}`);
    await page.getByText('Write in the diary').click();
    await page.getByLabel('What happened').selectOption('urine');
    await page.getByText('urine has been passed', { exact: false }).first().waitFor();
    await picture(page, 'care-normal-360');
    expect(await accessFaults(page)).toEqual([]);
    await page.context().close();
  });
});

describe('a waking', () => {
  it('runs its steps with their times, counts the first days, looks back on the winter and plans the next from it', async () => {
    const { page, complaints } = await openPage(stage, phone);
    await visit(page, `/animals/${animalId}`);
    await page.getByText('Wake it').click();
    await page.getByRole('button', { name: 'The box is in the warm now' }).click();
    await page.getByRole('alertdialog').getByRole('button', { name: 'The box is in the warm now' }).click();
    await page.getByRole('heading', { name: 'Waking and the first days' }).waitFor();
    await page.locator('.warming li[data-state=now]', { hasText: 'heated room' }).waitFor();
    await page
      .locator('.warming li', { hasText: 'in 3 h 59 min' })
      .or(page.locator('.warming li', { hasText: 'in 4 h 0 min' }))
      .waitFor();
    for (const what of ['drank', 'urine passed', 'ate'])
      await page.getByRole('button', { name: what, exact: true }).click();
    await page.locator('dd', { hasText: 'yes, today' }).waitFor();
    await page.getByText('Slept', { exact: false }).waitFor();
    await picture(page, 'care-waking-360');
    expect(await accessFaults(page)).toEqual([]);
    expect(await overflow(page)).toEqual([]);
    await page.getByRole('link', { name: 'Plan the next winter from this one' }).click();
    await page.getByText('what the last winter taught', { exact: false }).waitFor();
    await picture(page, 'care-next-plan-360');
    expect(complaints).toEqual([]);
    await page.context().close();
  });
});

describe('a plan that does not go as planned', () => {
  it('says when the gut is clear, warns in the cold, and moves the sleep with its reason', async () => {
    const animals: { id: string }[] = await ask('animals');
    let found = '';
    for (const { id } of animals) {
      const kept = (await ask(`animals/${id}/plans`)).at(-1)?.plan;
      if (kept?.sleepDay && kept.sleepDay > new Date().toISOString().slice(0, 10)) found = id;
    }
    expect(found).not.toBe('');
    const { page, complaints } = await openPage(stage, phone);
    await visit(page, `/plans/${found}`);
    await page.getByRole('heading', { name: 'Is the gut empty?' }).waitFor();
    await page.getByText('Lamp hours and nights as they really were').click();
    await page.getByLabel('Last food on').fill(new Date(Date.now() - 5 * 86_400_000).toISOString().slice(0, 10));
    await page.getByLabel('Lamp hours a day').fill('0');
    await page.getByLabel('Warmth by night and without the lamp').fill('9');
    await page.getByText('Too cold to digest', { exact: false }).waitFor();
    await page.getByText('At this warmth it will not clear.').waitFor();
    await picture(page, 'care-gut-360');
    await page.getByRole('button', { name: 'Keep these figures' }).click();
    await page.getByText('Every phone of the group', { exact: false }).waitFor();
    await expect.poll(async () => (await ask(`animals/${found}/gut-warmth`)).at(-1)?.nightTempC).toBe(9);
    // Another phone, which has typed nothing, reckons with the same.
    const other = await openPage(stage, phone);
    await visit(other.page, `/plans/${found}`);
    await other.page.getByText('At this warmth it will not clear.').waitFor();
    await other.page.getByText('Lamp hours and nights as they really were').click();
    expect(await other.page.getByLabel('Lamp hours a day').inputValue()).toBe('0');
    await other.page.context().close();
    expect(await accessFaults(page)).toEqual([]);
    expect(await overflow(page)).toEqual([]);
    await page.getByText('It went otherwise').click();
    await page.getByLabel('What happened').selectOption('box-too-warm');
    const day = page.getByLabel('First day asleep', { exact: true }).first();
    const before = await day.inputValue();
    await page
      .getByLabel('Cold enough from')
      .fill(new Date(Date.parse(before) + 6 * 86_400_000).toISOString().slice(0, 10));
    await page.getByRole('button', { name: 'Show what moves' }).click();
    await page.getByText('the sleep waits 6 days', { exact: false }).first().waitFor();
    await picture(page, 'care-moved-360');
    await page.getByRole('button', { name: 'Save this plan' }).click();
    await page.getByRole('button', { name: 'Save this plan' }).waitFor({ state: 'detached' });
    const kept = (await ask(`animals/${found}/plans`)).at(-1);
    expect(kept.reason).toContain('the sleep waits 6 days');
    expect(kept.plan.sleepDay > before).toBe(true);
    expect(complaints).toEqual([]);
    await page.context().close();
  });
});

describe('air and damp beside the holes', () => {
  it('says too few for one thin hole and enough for many', async () => {
    const { page, complaints } = await openPage(stage, phone);
    await visit(page, '/places/build');
    await page.getByRole('heading', { name: 'Air and damp' }).waitFor({ timeout: 30_000 });
    const holes = page.getByRole('spinbutton', { name: 'Air holes' });
    await holes.focus();
    await page.keyboard.press('Home');
    await page.getByText('Too few.').waitFor();
    await picture(page, 'care-air-360');
    expect(await accessFaults(page)).toEqual([]);
    expect(await overflow(page)).toEqual([]);
    expect(complaints).toEqual([]);
    await page.context().close();
  });
});
