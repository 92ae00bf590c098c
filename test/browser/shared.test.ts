import { afterAll, beforeAll, expect, it } from 'vitest';
import { accessFaults, openPage, openStage, overflow, phone, picture, type Stage, visit } from './harness.ts';

let stage: Stage;
beforeAll(async () => {
  stage = await openStage({ demonstration: true });
});
afterAll(() => stage?.close());

it('a link for a vet that is unknown or has run out says so under a heading, and what to do', async () => {
  const { page, complaints } = await openPage(stage, phone);
  await visit(page, `/shared/${'x'.repeat(43)}`);
  await page.getByRole('heading', { level: 1, name: 'This link shows nothing' }).waitFor();
  await page.getByText('ask the keeper of the animal for another', { exact: false }).waitFor();
  await picture(page, 'shared-none-360');
  expect(await accessFaults(page)).toEqual([]);
  expect(await overflow(page)).toEqual([]);
  expect(complaints).toEqual([]);
});
