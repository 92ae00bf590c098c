import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { accessFaults, openPage, openStage, overflow, phone, picture, type Stage, visit } from './harness.ts';

let stage: Stage;
beforeAll(async () => {
  stage = await openStage({ demonstration: true });
});
afterAll(() => stage?.close());

const thermometer = (page: Page, name: string) =>
  page.locator('.lines > li', { has: page.getByRole('heading', { name, exact: true }) });

describe('a thermometer that sends by itself', () => {
  it('gets a token shown once, sends with the line beside it, shows its battery, gets a new token and loses it', async () => {
    const { page, complaints } = await openPage(stage, phone);
    await page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
    await visit(page, '/readings/thermometers');
    const name = (await page.locator('.probe-name').first().textContent()) ?? '';
    const line = thermometer(page, name);
    await line.getByText('Send by itself').click();
    await line.getByText('No token has been made yet').waitFor();
    await line.getByText('No broker is set up').waitFor();
    await line.getByRole('button', { name: /^Make a token/ }).click();
    const token = (await line.locator('.secret').textContent()) ?? '';
    expect(token).toMatch(/^[\w-]{43}$/);
    await line.getByRole('button', { name: 'Copy the line' }).click();
    const command = await page.evaluate(() => navigator.clipboard.readText());
    expect(await accessFaults(page)).toEqual([]);
    expect(await overflow(page)).toEqual([]);
    await picture(page, 'send-itself-360');

    // What the line says is what is sent: address, headers and body are taken from it.
    const [, address = '', bearer = '', body = ''] =
      /^curl -X POST (\S+) -H '(Authorization: Bearer [\w-]+)' -H 'Content-Type: application\/json' -d '(.*)'$/.exec(
        command,
      ) ?? [];
    const send = () =>
      fetch(address, {
        method: 'POST',
        headers: { authorization: bearer.split(': ')[1] ?? '', 'content-type': 'application/json' },
        body,
      });
    expect(await (await send()).json()).toEqual({ stored: 2, alreadyThere: 0, refused: 0 });

    await visit(page, '/readings/thermometers');
    await line.locator('dd', { hasText: /^93\u00a0%, / }).waitFor();
    await line.getByText('Send by itself').click();
    await line.getByText('A token has been made').waitFor();
    expect(await line.locator('.secret').count()).toBe(0);
    await line.getByRole('button', { name: /^Make a new token/ }).click();
    const asked = page.getByRole('alertdialog');
    expect(await accessFaults(page)).toEqual([]);
    await asked.getByRole('button', { name: 'Make a new token' }).click();
    await line.locator('.secret').waitFor();
    expect(await line.locator('.secret').textContent()).not.toBe(token);
    expect((await send()).status).toBe(401);

    await line.getByRole('button', { name: /^Withdraw the token/ }).click();
    await asked.getByRole('button', { name: 'Cancel' }).click();
    await line.locator('.secret').waitFor();
    await line.getByRole('button', { name: /^Withdraw the token/ }).click();
    await asked.getByRole('button', { name: 'Withdraw the token' }).click();
    await line.getByText('nothing is taken with it any more').waitFor();
    await line.getByText('No token has been made yet').waitFor();
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('shows how its battery went down, and asks for a new one in time', async () => {
    const { page, complaints } = await openPage(stage, phone);
    await visit(page, '/readings/thermometers');
    const line = page.locator('.lines > li').first();
    await line.getByText('The battery so far').click();
    expect(await line.locator('table tbody tr').count()).toBeGreaterThan(5);
    expect(await line.getByText('Change it before it falls silent').count()).toBe(0);
    expect(await overflow(page)).toEqual([]);
    await picture(page, 'battery-360');
    expect(complaints).toEqual([]);
    await page.context().close();
  });
});
