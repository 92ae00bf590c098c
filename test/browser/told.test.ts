import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { accessFaults, openPage, openStage, overflow, phone, picture, type Stage, visit } from './harness.ts';

let stage: Stage;
beforeAll(async () => {
  stage = await openStage({ demonstration: true });
});
afterAll(() => stage?.close());

describe('how a person is told', () => {
  it('asks for a person first, then keeps ways, a secret shown once, and hours of quiet', async () => {
    const { page, complaints } = await openPage(stage, phone);
    await visit(page, '/settings');
    await page.getByText('no person has been set up yet').waitFor();
    const signed = await page.evaluate(async () => {
      const answer = await fetch('/api/v1/session/set-up', {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({
          id: '01980d2e-7c00-7000-8000-0000000000aa',
          name: 'Wren',
          signInName: 'wren',
          passphrase: 'plain copper kettle',
        }),
      });
      return answer.status;
    });
    expect(signed).toBeLessThan(300);
    await visit(page, '/settings');
    const form = page.getByRole('form', { name: 'Add a way' });
    await form.getByRole('radio', { name: 'call of an address' }).check({ force: true });
    await form.getByLabel('Address to call (webhook)').fill('ftp://nowhere');
    await form.getByRole('button', { name: 'Add a way' }).click();
    await form.locator('.field-error').waitFor();
    await form.getByLabel('Address to call (webhook)').fill('https://hooks.example.org/stillwinter');
    await form.getByRole('button', { name: 'Add a way' }).click();
    await page.getByText('It is shown this once').waitFor();
    expect((await page.locator('.secret').textContent())?.length).toBeGreaterThan(30);
    await page.locator('.way', { hasText: 'hooks.example.org' }).waitFor();
    expect(await accessFaults(page)).toEqual([]);
    expect(await overflow(page)).toEqual([]);
    await picture(page, 'told-360');
    await form.getByRole('radio', { name: 'message to this device' }).check({ force: true });
    await page.getByText('no push key').or(page.getByText('browser will ask')).first().waitFor();

    const when = page.getByRole('form', { name: 'When I hear of it' });
    await when.getByLabel('Quiet from').fill('nine');
    await when.getByRole('button', { name: 'Save' }).click();
    await when.getByText('Write a time of day').waitFor();
    await when.getByLabel('Quiet from').fill('9.30');
    await when.getByLabel('Times for').fill('7:05, 18:00');
    await when.getByRole('button', { name: 'Save' }).click();
    await expect
      .poll(async () => page.evaluate(async () => (await fetch('/api/v1/listening')).json()))
      .toEqual({ quiet: { from: '09:30', to: '07:00' }, digests: ['07:05', '18:00'] });

    await visit(page, '/settings');
    await page.locator('.secret').waitFor({ state: 'detached' });
    const way = page.locator('.way', { hasText: 'hooks.example.org' });
    await way.getByRole('button', { name: 'Remove' }).click();
    await way.getByText('You will no longer be reached').waitFor();
    await way.getByRole('button', { name: 'Remove' }).click();
    await way.waitFor({ state: 'detached' });
    expect(complaints).toEqual([]);
    await page.context().close();
  });
});
