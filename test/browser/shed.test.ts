import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openPage, openStage, phone, picture, type Stage, visit } from './harness.ts';

let stage: Stage;
beforeAll(async () => {
  stage = await openStage({ demonstration: true });
});
afterAll(() => stage?.close());

const ask = async (path: string) => (await fetch(`${stage.server.address}/api/v1/${path}`)).json();

describe('in the shed, without network', () => {
  it('keeps what is entered, shows it as done, survives a reload, and sends it once when the network is back', async () => {
    const { page } = await openPage(stage, phone, { serviceWorkers: 'allow' });
    await visit(page, '/');
    const line = page.locator('.round-part li', { has: page.getByRole('button', { name: /^Done/ }) }).first();
    const sentence = (await line.locator('p').first().textContent()) ?? '';
    const before = (await ask('tasks-done')).length;
    const animalId = ((await line.getByRole('link').first().getAttribute('href')) ?? '').split('/').pop() ?? '';
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    await stage.lose();
    await line.getByRole('button', { name: /^Done/ }).click();
    await page.getByText('1 waiting for the network', { exact: false }).first().waitFor();
    await picture(page, 'round-offline-360');
    await page.reload();
    await page.getByText('1 waiting for the network', { exact: false }).first().waitFor();
    await page.getByText('No answer from Stillwinter', { exact: false }).waitFor();
    await page
      .locator('li[data-done]', { hasText: sentence.slice(0, 20) })
      .first()
      .waitFor();
    await stage.regain();
    expect((await ask('tasks-done')).length).toBe(before);
    await page.evaluate(() => dispatchEvent(new Event('online')));
    await page.getByText('waiting for the network', { exact: false }).waitFor({ state: 'detached' });
    const after = await ask('tasks-done');
    expect(after.length).toBe(before + 1);
    expect(after.at(-1).animalId).toBe(animalId);
    await page.context().close();
  });

  it('says what to do in a frost without any network at all', async () => {
    const { page } = await openPage(stage, phone, { serviceWorkers: 'allow' });
    await visit(page, '/now');
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    await page.context().setOffline(true);
    await page.goto('/now/frost');
    await page.getByText('Carry the whole box', { exact: false }).waitFor();
    await page.context().close();
  });

  it('keeps a mistyped weight in its field and says what is wrong', async () => {
    const { page } = await openPage(stage, phone);
    await visit(page, '/');
    const form = page.locator('.round-weigh').first();
    await form.getByRole('textbox').fill('twelve');
    await form.getByRole('button').click();
    await form.getByRole('alert').waitFor();
    expect(await form.getByRole('textbox').inputValue()).toBe('twelve');
    await page.context().close();
  });
});

describe('by keyboard alone', () => {
  it('skips to the page, walks the sections, and moves a value of the builder', async () => {
    const { page } = await openPage(stage, { width: 1280, height: 800 });
    await visit(page, '/');
    await page.keyboard.press('Tab');
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Skip to the page');
    await page.keyboard.press('Enter');
    expect(await page.evaluate(() => document.activeElement?.id)).toBe('main');
    await visit(page, '/places/build');
    await page.getByText('Worst of 30 winters').waitFor({ timeout: 30_000 });
    const seen: string[] = [];
    for (let i = 0; i < 30 && !seen.includes('Thickness of the wall'); i++) {
      await page.keyboard.press('Tab');
      const at = await page.evaluate(() => {
        const element = document.activeElement as HTMLElement;
        const box = element.getBoundingClientRect();
        return {
          name: element.getAttribute('aria-label') ?? element.textContent ?? '',
          outlined: getComputedStyle(element).outlineStyle !== 'none',
          inSight: box.bottom > 0 && box.top < innerHeight,
        };
      });
      expect(at.outlined, `${at.name} shows its focus`).toBe(true);
      expect(at.inSight, `${at.name} is in sight`).toBe(true);
      seen.push(at.name);
    }
    const wall = page.getByRole('spinbutton', { name: 'Thickness of the wall' });
    const before = Number(await wall.getAttribute('aria-valuenow'));
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('PageUp');
    expect(Number(await wall.getAttribute('aria-valuenow'))).toBe(before + 25);
    await page.keyboard.press('Enter');
    await page.keyboard.press('ControlOrMeta+a');
    await page.keyboard.type('80');
    expect(await wall.getAttribute('aria-valuetext')).toContain('80');
    await page.keyboard.press('Enter');
    await page.getByRole('cell', { name: /%/ }).first().waitFor();
    await page.context().close();
  });
});

describe('a link for the vet', () => {
  it('opens one animal, read only, and is dead once it is taken back', async () => {
    const { page, complaints } = await openPage(stage, { width: 1280, height: 800 });
    const [stay] = await ask('stays');
    await visit(page, `/animals/${stay.animalId}`);
    await page.getByText('Let a vet read it').click();
    await page.getByLabel('For whom').fill('Dr Hollis');
    await page.getByRole('button', { name: 'Make the link' }).click();
    const link = new URL((await page.locator('code').textContent()) ?? '');
    await visit(page, link.pathname);
    await page.getByRole('heading', { name: /^The record of/ }).waitFor();
    await page.getByText('Dr Hollis', { exact: false }).first().waitFor();
    await visit(page, `/animals/${stay.animalId}`);
    await page.getByText('Let a vet read it').click();
    await page.getByRole('button', { name: /Take back.*Dr Hollis/ }).click();
    const dialog = page.getByRole('alertdialog');
    await dialog.getByText('stops working at once', { exact: false }).waitFor();
    expect(await dialog.getByRole('button', { name: 'Cancel' }).evaluate((it) => it === document.activeElement)).toBe(
      true,
    );
    await dialog.getByRole('button', { name: 'Take back' }).click();
    await page.getByRole('button', { name: /Take back.*Dr Hollis/ }).waitFor({ state: 'detached' });
    expect((await fetch(`${stage.server.address}/api/v1/shared/${link.pathname.split('/').pop()}`)).ok).toBe(false);
    expect(complaints).toEqual([]);
    await page.context().close();
  });
});
