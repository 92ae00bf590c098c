import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  accessFaults,
  type Opened,
  openPage,
  openStage,
  overflow,
  phone,
  picture,
  type Stage,
  visit,
} from './harness.ts';

let stage: Stage;
let animalId = '';
let opened: Opened;
beforeAll(async () => {
  stage = await openStage({ demonstration: true });
  animalId = (await ask('stays'))[0].animalId;
  opened = await openPage(stage, phone, { serviceWorkers: 'allow' });
});
afterAll(() => stage?.close());

const ask = async (path: string, method = 'GET', body?: object) => {
  const answer = await fetch(`${stage.server.address}/api/v1/${path}`, {
    method,
    headers: body ? { 'content-type': 'application/json' } : {},
    ...(body ? { body: JSON.stringify(body) } : {}),
  });
  return answer.status === 204 ? undefined : answer.json();
};
const weighings = async () => ask(`animals/${animalId}/measurements`);

/** The newest weigh-in as the record lists it, with its tools open. */
async function newestWeighing() {
  const { page } = opened;
  await page.getByLabel('Show', { exact: true }).selectOption('measurement');
  const line = page.locator('main .lines > li').first();
  await line.getByText('Change or delete').click();
  return line;
}

describe('the record of an animal', () => {
  it('lists every entry, and changes one where it stands, with what was before', async () => {
    const { page } = opened;
    await visit(page, `/animals/${animalId}/record`);
    await picture(page, 'record-360', false);
    const line = await newestWeighing();
    const before = (await weighings()).at(-1);
    await line.getByLabel('Mass').fill('about a kilo');
    await line.getByRole('button', { name: /^Save/ }).click();
    await line.getByText('This is not a number.', { exact: false }).waitFor();
    await line.getByLabel('Mass').fill('1001');
    await line.getByRole('button', { name: /^Save/ }).click();
    await expect.poll(async () => (await weighings()).at(-1).massG).toBe(1001);
    // Only what was typed is new: the instant and the length stay what they were to the last digit.
    expect((await weighings()).at(-1)).toEqual({ ...before, massG: 1001, revision: before.revision + 1 });
    await line.getByText('Before:', { exact: false }).waitFor();
    await picture(page, 'record-changed-360', false);
    expect(await accessFaults(page)).toEqual([]);
    expect(await overflow(page)).toEqual([]);
  });

  it('deletes an entry, undoes it at once, and brings it back later from what was deleted', async () => {
    const { page } = opened;
    const count = (await weighings()).length;
    const remove = async () => {
      const line = page.locator('main .lines > li').first();
      await line.getByRole('button', { name: /^Delete/ }).click();
      await page.locator('.toast').waitFor();
      await expect.poll(async () => (await weighings()).length).toBe(count - 1);
    };
    await remove();
    await picture(page, 'record-deleted-360', false);
    await page.locator('.toast').getByRole('button', { name: 'Undo' }).click();
    await expect.poll(async () => (await weighings()).length).toBe(count);
    await page.locator('.toast').waitFor({ state: 'detached' });
    await visit(page, `/animals/${animalId}/record`);
    await newestWeighing();
    await remove();
    await visit(page, '/deleted');
    await picture(page, 'record-deleted-list-360', false);
    expect(await accessFaults(page)).toEqual([]);
    expect(await overflow(page)).toEqual([]);
    await page.getByRole('button', { name: /^Bring back/ }).click();
    await page.getByText('Nothing was deleted', { exact: false }).waitFor();
    expect((await weighings()).length).toBe(count);
  });

  it('shows both versions when two people changed the same, and keeps the one that is chosen', async () => {
    const { page } = opened;
    await visit(page, `/animals/${animalId}/record`);
    const line = await newestWeighing();
    const stood = (await weighings()).at(-1);
    await ask(`animals/${animalId}/measurements/${stood.id}`, 'PUT', { ...stood, massG: 1111 });
    await line.getByLabel('Mass').fill('1222');
    await line.getByRole('button', { name: /^Save/ }).click();
    await line.getByText('Someone else changed this', { exact: false }).waitFor();
    await visit(page, `/animals/${animalId}/record`);
    const again = await newestWeighing();
    await again.getByText('Choose the one that is right.', { exact: false }).waitFor();
    await picture(page, 'record-two-360', false);
    expect((await weighings()).at(-1).massG).toBe(1111);
    await again.getByRole('button', { name: /^Take this one/ }).click();
    await expect.poll(async () => (await weighings()).at(-1).massG).toBe(1222);
    await again.getByText('Choose the one that is right.', { exact: false }).waitFor({ state: 'detached' });
  });

  it('keeps a change on the device without network, and sends it when it is back', async () => {
    const { page, complaints } = opened;
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    await visit(page, `/animals/${animalId}/record`);
    const line = await newestWeighing();
    await stage.lose();
    await line.getByLabel('Mass').fill('1333');
    await line.getByRole('button', { name: /^Save/ }).click();
    await line.getByText('not yet sent', { exact: false }).waitFor();
    await stage.regain();
    await page.evaluate(() => dispatchEvent(new Event('online')));
    await line.getByText('not yet sent', { exact: false }).waitFor({ state: 'detached' });
    expect((await weighings()).at(-1).massG).toBe(1333);
    expect(complaints).toEqual([]);
  });

  it('keeps a deletion without network, takes it back, sends it later, and asks when somebody changed the entry meanwhile', async () => {
    const { page, complaints } = opened;
    const count = (await weighings()).length;
    const stood = (await weighings()).at(-1);
    await visit(page, `/animals/${animalId}/record`);
    const line = await newestWeighing();
    const unsent = line.getByText('Deleted, not yet sent.');
    await stage.lose();
    await line.getByRole('button', { name: /^Delete/ }).click();
    await unsent.waitFor();
    await picture(page, 'record-deleted-unsent-360');
    await line.getByRole('button', { name: /^Undo/ }).click();
    await unsent.waitFor({ state: 'detached' });
    await line.getByText('Change or delete').click();
    await line.getByRole('button', { name: /^Delete/ }).click();
    await unsent.waitFor();
    await stage.regain();
    await ask(`animals/${animalId}/measurements/${stood.id}`, 'PUT', { ...stood, massG: 1444 });
    await page.evaluate(() => dispatchEvent(new Event('online')));
    await line.getByText('so it was not deleted', { exact: false }).waitFor();
    expect((await weighings()).at(-1).massG).toBe(1444);
    await picture(page, 'record-delete-asks-360');
    expect(await accessFaults(page)).toEqual([]);
    await line.getByRole('button', { name: /^Keep it as it stands/ }).click();
    await line.getByText('Change or delete').click();
    await stage.lose();
    await line.getByRole('button', { name: /^Delete/ }).click();
    await unsent.waitFor();
    await stage.regain();
    await page.evaluate(() => dispatchEvent(new Event('online')));
    await expect.poll(async () => (await weighings()).length).toBe(count - 1);
    await ask(`animals/${animalId}/measurements/${stood.id}/restore`, 'POST');
    expect(complaints).toEqual([]);
  });

  it('puts an examination right in the form it was made with', async () => {
    const { page } = opened;
    await visit(page, `/animals/${animalId}/record`);
    await page.getByLabel('Show', { exact: true }).selectOption('examination');
    const line = page.locator('main .lines > li').first();
    await line.getByText('Change or delete').click();
    await line.getByRole('link', { name: 'Change what was found' }).click();
    await page.locator('.exam-part').first().waitFor();
    const before = (await ask(`animals/${animalId}/examinations`)).at(-1);
    await page.locator('.exam-part').first().locator('.choice', { hasText: 'sunken' }).click();
    await page.getByRole('button', { name: 'Save the examination' }).click();
    await expect
      .poll(async () => (await ask(`animals/${animalId}/examinations`)).at(-1))
      .toEqual({ ...before, findings: { ...before.findings, eyes: 'sunken' }, revision: before.revision + 1 });
  });

  it('ends a sleep with the waking and gives it back when the waking was a mistake', async () => {
    const { page } = opened;
    const stay = async () => (await ask('stays')).find((one: { animalId: string }) => one.animalId === animalId);
    expect((await stay()).toDay).toBeUndefined();
    await visit(page, `/animals/${animalId}`);
    await page.getByText('Wake it').click();
    await page.getByRole('button', { name: 'The box is in the warm now' }).click();
    await page.getByRole('alertdialog').getByRole('button', { name: 'The box is in the warm now' }).click();
    await page.getByRole('heading', { name: 'Waking and the first days' }).waitFor();
    await expect.poll(async () => (await stay()).endReason).toBe('woken');
    await page.getByRole('button', { name: 'It was not woken' }).click();
    await page.getByRole('heading', { name: 'Waking and the first days' }).waitFor({ state: 'detached' });
    expect((await stay()).toDay).toBeUndefined();
    await page.context().close();
  });
});
