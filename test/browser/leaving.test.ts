import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { accessFaults, laptop, openPage, openStage, overflow, phone, picture, type Stage, visit } from './harness.ts';

let stage: Stage;
beforeAll(async () => {
  stage = await openStage({ demonstration: true });
});
afterAll(() => stage?.close());

const ask = async (path: string, body?: object) => {
  const answer = await fetch(`${stage.server.address}/api/v1/${path}`, {
    method: body ? 'PUT' : 'GET',
    headers: body ? { 'content-type': 'application/json' } : {},
    ...(body ? { body: JSON.stringify(body) } : {}),
  });
  return answer.json();
};

describe.each([
  ['360', phone, 'died', 'It died', ' died on '],
  ['1280', laptop, 'given-away', 'It went to another keeper', ' went to another keeper on '],
] as const)('an animal that left, at %s px', (width, viewport, how, choice, told) => {
  it('is written down on its own screen, leaves the lists and its box, keeps its page, and is taken back', async () => {
    const { page, complaints } = await openPage(stage, viewport);
    const stay = (await ask('stays')).find((one: { toDay?: string }) => one.toDay === undefined);
    const animal = await ask(`animals/${stay.animalId}`);
    await ask(`animals/${animal.id}`, { ...animal, legalPaper: 'AB 1234/26' });
    const onRound = async () =>
      (await ask('round')).parts
        .flatMap((part: { stays: { animalId: string }[] }) => part.stays)
        .filter((line: { animalId: string }) => line.animalId === animal.id).length;
    expect(await onRound()).toBe(1);

    await visit(page, `/animals/${animal.id}/edit`);
    await page.getByText('It died or left', { exact: true }).click();
    const form = page.locator('form', { hasText: 'What happened' });
    await form.getByRole('button', { name: 'Write this down' }).click();
    await form.getByText('This is needed', { exact: false }).first().waitFor();
    await form.getByRole('radio', { name: choice }).check();
    await form.getByLabel('A note, if you wish').fill('Twenty-one summers in this garden.');
    await form.getByText('Its paper has the reference AB 1234/26.', { exact: false }).waitFor();
    await picture(page, `leaving-form-${width}`);
    expect(await accessFaults(page)).toEqual([]);
    expect(await overflow(page)).toEqual([]);
    await form.getByRole('button', { name: 'Write this down' }).click();

    await page.locator('.lead', { hasText: `${animal.name}${told}` }).waitFor();
    await page.getByText('Twenty-one summers in this garden.').waitFor();
    await page.getByText('Your local authority can tell you.', { exact: false }).waitFor();
    expect(await ask(`animals/${animal.id}`)).toMatchObject({ leftHow: how });
    expect((await ask(`stays/${stay.id}`)).endReason).toBe(how === 'died' ? 'died' : 'left');
    expect(await onRound()).toBe(0);
    // Quiet: nothing is asked for, advised or forecast.
    expect(await page.locator('main [data-kind=main], main .act, main [data-level=act]').count()).toBe(0);
    expect(await page.locator('main').textContent()).not.toMatch(/!|May it go down|Winter plan|Examine it|Wake/);
    await page.evaluate(() => document.fonts.ready);
    await picture(page, `left-${width}`);
    expect(await accessFaults(page)).toEqual([]);
    expect(await overflow(page)).toEqual([]);

    for (const path of ['/animals', '/group', '/plans', '/papers', '/places']) {
      await visit(page, path);
      if (path === '/animals' || path === '/group')
        await page.getByRole('button', { name: /that died or left/ }).waitFor();
      expect(await page.locator('main').getByText(animal.name, { exact: true }).count(), path).toBe(0);
    }
    await visit(page, '/group');
    await page.getByRole('button', { name: 'Show 1 that died or left' }).click();
    await page.getByRole('link', { name: animal.name }).waitFor();
    await picture(page, `group-with-left-${width}`);
    await visit(page, '/animals');
    await page.getByRole('button', { name: 'Show 1 that died or left' }).click();
    await page.locator('.animal-list li').last().getByText(`${animal.name}${told}`, { exact: false }).waitFor();
    await picture(page, `animals-with-left-${width}`);
    expect(await accessFaults(page)).toEqual([]);

    await visit(page, `/plans/${animal.id}`);
    await page.locator('.lead', { hasText: `${animal.name}${told}` }).waitFor();
    await visit(page, `/animals/${animal.id}/record`);
    await page.getByRole('heading', { name: 'Deleted in the last 30 days' }).waitFor();
    await visit(page, `/animals/${animal.id}`);
    await page.getByRole('button', { name: /^Take this back/ }).click();
    await page.getByRole('alertdialog').getByRole('button', { name: 'Take this back' }).click();
    await page.getByRole('link', { name: 'Examine it' }).waitFor();
    expect(await ask(`stays/${stay.id}`)).not.toHaveProperty('toDay');
    expect(await onRound()).toBe(1);
    expect(complaints).toEqual([]);
  });
});
