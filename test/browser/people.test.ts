import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { accessFaults, laptop, openPage, openStage, overflow, phone, picture, type Stage, visit } from './harness.ts';

let stage: Stage;
beforeAll(async () => {
  stage = await openStage({ demonstration: true });
});
afterAll(() => stage?.close());

const post = (page: Page, path: string, body: object) =>
  page.evaluate(
    async ([where, what]) => {
      const answer = await fetch(`/api/v1/${where}`, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify(what),
      });
      return answer.json();
    },
    [path, body] as const,
  );
const person = (end: string, name: string) => ({
  id: `01980d2e-7c00-7000-8000-0000000000${end}`,
  name,
  signInName: name.toLowerCase(),
  passphrase: 'plain copper kettle',
});

describe('the people of a group', () => {
  it('are given another role by the tutor, at once on their own device; the only tutor stays', async () => {
    const { page, complaints } = await openPage(stage, phone);
    const theirs = await openPage(stage, laptop);
    await visit(page, '/group');
    await post(page, 'session/set-up', person('aa', 'Wren'));
    const asked = { id: '01980d2e-7c00-7000-8000-0000000000b1', role: 'keeper', animalIds: [] };
    const { token } = await post(page, 'people/invitations', asked);
    await theirs.page.goto('/now');
    await post(theirs.page, 'session/join', { ...person('ab', 'Rowan'), token });
    await visit(theirs.page, '/animals');
    await theirs.page.getByText('No animal yet.', { exact: false }).waitFor();

    await visit(page, '/group');
    const row = (name: string) => page.locator('section[aria-labelledby=keepers] > .lines > li', { hasText: name });
    await row('Wren').getByText('The only tutor.', { exact: false }).waitFor();
    await row('Rowan').getByText('Change the role').click();
    const save = row('Rowan').getByRole('button', { name: 'Save the role' });
    expect(await save.isDisabled()).toBe(true);
    await row('Rowan').getByRole('radio', { name: 'reader' }).check({ force: true });
    await row('Rowan').getByText('Sees everything and changes nothing.').waitFor();
    await picture(page, 'role-360');
    expect(await accessFaults(page)).toEqual([]);
    expect(await overflow(page)).toEqual([]);
    await save.click();
    await row('Rowan').locator('.soft', { hasText: 'reader' }).first().waitFor();

    // Without signing in again: all animals, and none of the ways to change one.
    await visit(theirs.page, '/animals');
    await theirs.page.locator('.animal-list li').first().waitFor();
    const made = await theirs.page.evaluate(
      async () =>
        (await fetch('/api/v1/places', { method: 'POST', headers: { 'content-type': 'application/json' }, body: '{}' }))
          .status,
    );
    expect(made).toBe(403);

    await row('Rowan').getByText('Change the role').click();
    await row('Rowan').getByRole('radio', { name: 'tutor' }).check({ force: true });
    await row('Rowan').getByRole('button', { name: 'Save the role' }).click();
    // Now one's own can be given away too, with a word about it, and the screen follows.
    await row('Wren').getByText('Change the role').click();
    await row('Wren').getByRole('radio', { name: 'keeper' }).check({ force: true });
    await row('Wren').getByText('This is your own role.', { exact: false }).waitFor();
    await row('Wren').getByRole('button', { name: 'Save the role' }).click();
    await page.getByText('Change the role').first().waitFor({ state: 'detached' });
    await visit(theirs.page, '/group');
    await theirs.page.getByText('The only tutor.', { exact: false }).waitFor();
    await picture(theirs.page, 'role-1280');
    expect(await accessFaults(theirs.page)).toEqual([]);
    expect([...complaints, ...theirs.complaints]).toEqual([]);
  });
});
