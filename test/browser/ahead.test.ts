import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { accessFaults, laptop, openPage, openStage, overflow, phone, picture, type Stage, visit } from './harness.ts';

let stage: Stage;
let stays: { id: string; animalId: string; boxId: string; placeId: string }[] = [];
const api = (path: string, init?: RequestInit) => fetch(`${stage.server.address}/api/v1/${path}`, init);
const ask = async (path: string) => (await api(path)).json();
const send = (method: string, path: string, body: unknown) =>
  api(path, { method, headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) });

beforeAll(async () => {
  stage = await openStage({ demonstration: true });
  stays = await ask('stays');
});
afterAll(() => stage?.close());

describe('the next three days in a box', () => {
  it.each([
    ['a phone', phone],
    ['a laptop', laptop],
  ] as const)('are told, drawn after the readings and listed, on %s', async (_, size) => {
    // The demonstration is asleep in the dark of the year; in summer nobody is, and there is nothing to forecast.
    expect(stays.length).toBeGreaterThan(0);
    const { page, complaints } = await openPage(stage, size);
    for (const stay of stays) {
      await expect
        .poll(async () => (await ask(`stays/${stay.id}/forecast`)).state, { timeout: 15_000 })
        .toBe('forecast');
      const forecast = await ask(`stays/${stay.id}/forecast`);
      expect(forecast.times).toHaveLength(73);
      await visit(page, `/animals/${stay.animalId}`);
      const part = page.locator('section', {
        has: page.getByRole('heading', { name: 'The next three days in the box' }),
      });
      await part
        .getByText(/°C for 72 hours|It (falls|rises) (below|above)|already/)
        .first()
        .waitFor();
      await part.getByText('invented for the demonstration', { exact: false }).waitFor();
      const chart = part.getByRole('img', { name: /expected in the next three/ });
      // The readings come as a line before the present, and the band lies round the course.
      await chart.locator('.growth-line').first().waitFor();
      expect((await chart.locator('.mass-nine').getAttribute('points'))?.split(' ')).toHaveLength(146);
      expect((await chart.locator('.mass-likely').getAttribute('points'))?.split(' ')).toHaveLength(73);
      await part.getByText('Every three hours, in a table').click();
      expect(await part.locator('tbody tr').count()).toBeGreaterThanOrEqual(25);
      const first = forecast.tempC[0].toFixed(1);
      await part.locator('tbody tr').first().getByText(first, { exact: false }).first().waitFor();
      await picture(page, `ahead-${stay.boxId.slice(-2)}-${size.width}`);
      expect(await accessFaults(page)).toEqual([]);
      expect(await overflow(page)).toEqual([]);
    }
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('are told on the round when they leave the limits, with the way to the drawing and to what to do', async () => {
    const [stay] = stays;
    const { page, complaints } = await openPage(stage, phone);
    const forecast = await ask(`stays/${stay!.id}/forecast`);
    // A limit that the course itself will pass, tighter than the usual one.
    const coldest = Math.min(...forecast.tempC);
    const limit = Math.min(coldest + 0.2, forecast.tempC[0] - 0.05);
    expect((await send('PUT', `stays/${stay!.id}/limits`, { ruleId: 'under-3', limit })).status).toBe(200);
    await visit(page, '/');
    const line = page.getByText(/: expected below \d/).or(page.getByText(/: below \d[\d.]*\s°C now/));
    await line.first().waitFor();
    await picture(page, 'ahead-round-360');
    expect(await accessFaults(page)).toEqual([]);
    expect(await overflow(page)).toEqual([]);
    const animal = (await ask(`animals/${stay!.animalId}`)).name;
    await page.getByRole('link', { name: new RegExp(`The next three days in the box.*${animal}`) }).click();
    const part = page.locator('section', {
      has: page.getByRole('heading', { name: 'The next three days in the box' }),
    });
    await part
      .getByText(/It falls below|It is below/)
      .first()
      .waitFor();
    await part.getByRole('link', { name: 'What to do, in order' }).first().click();
    await page.getByRole('heading', { level: 1 }).waitFor();
    expect(new URL(page.url()).pathname).toBe('/now/frost');
    await send('PUT', `stays/${stay!.id}/limits`, { ruleId: 'under-3' });
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('say what is missing, with the way there', async () => {
    const stay = stays.at(-1)!;
    const place = await ask(`places/${stay.placeId}`);
    const put = await send('PUT', `places/${stay.placeId}`, { ...place, description: { kind: 'readings' } });
    expect(put.status).toBeLessThan(300);
    const { page, complaints } = await openPage(stage, phone);
    await visit(page, `/animals/${stay.animalId}`);
    await page.getByText('No forecast yet: it is not written down how the place is built', { exact: false }).waitFor();
    expect(await accessFaults(page)).toEqual([]);
    await page.getByRole('link', { name: 'Describe the place' }).click();
    await page.waitForURL(`**/places/boxes/${stay.boxId}`);
    expect(complaints).toEqual([]);
    await page.context().close();
  });
});

describe('the page of a sleeping animal on a slow network', () => {
  it('loses nothing of a weight that is typed as soon as there is a field', async () => {
    const { page } = await openPage(stage, phone);
    await page.route('**/api/v1/stays', async (route) => {
      await new Promise((later) => setTimeout(later, 1500));
      await route.continue();
    });
    await page.goto(`/animals/${stays[0]?.animalId}`);
    const mass = page.getByLabel('Mass').first();
    await mass.fill('1141');
    await page.getByRole('heading', { name: 'The next three days in the box' }).waitFor();
    expect(await mass.inputValue()).toBe('1141');
    await page.context().close();
  });
});
