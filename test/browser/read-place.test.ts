import { v7 as uuidv7 } from 'uuid';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  accessFaults,
  laptop,
  type Opened,
  openPage,
  openStage,
  overflow,
  phone,
  picture,
  type Stage,
  visit,
} from './harness.ts';

const DAY_MS = 86_400_000;
const ids = { place: uuidv7(), box: uuidv7(), probe: uuidv7() };
let stage: Stage;
const api = (path: string, init?: RequestInit) => fetch(`${stage.server.address}/api/v1/${path}`, init);
const ask = async (path: string) => (await api(path)).json();
async function send(method: string, path: string, body: unknown) {
  const answer = await api(path, {
    method,
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });
  expect(answer.status, await answer.text()).toBeLessThan(300);
}
/** The year in which the last winter began that is over by now. */
const year = new Date().getUTCFullYear() - (new Date().getUTCMonth() >= 3 ? 1 : 2);
const day = (monthDay: string, add = 0) => Date.parse(`${year + add}-${monthDay}T00:00:00Z`);

/** Readings of a steady cellar, one an hour. */
async function read(fromMs: number, days: number) {
  for (let from = 0; from < days * 24; from += 1000)
    await send(
      'POST',
      'readings',
      Array.from({ length: Math.min(1000, days * 24 - from) }, (_, k) => ({
        probeId: ids.probe,
        at: new Date(fromMs + (from + k) * 3_600_000).toISOString(),
        tempC: 5 + 0.2 * Math.sin((2 * Math.PI * (from + k)) / 24),
        quality: 'good',
        source: 'csv',
      })),
    );
}

beforeAll(async () => {
  stage = await openStage({ demonstration: true });
  const [known] = await ask('boxes');
  await send('POST', 'places', { id: ids.place, name: 'Apple cellar', description: { kind: 'readings' } });
  await send('POST', 'boxes', {
    id: ids.box,
    name: 'Apple box',
    placeId: ids.place,
    description: known.description,
  });
});
afterAll(() => stage?.close());

const screen = () => `/places/boxes/${ids.box}`;
async function opened(size: { width: number; height: number }): Promise<Opened> {
  const both = await openPage(stage, size);
  await visit(both.page, screen());
  return both;
}
async function leave({ page, complaints }: Opened, name: string) {
  await picture(page, name);
  expect(await accessFaults(page)).toEqual([]);
  expect(await overflow(page)).toEqual([]);
  expect(complaints).toEqual([]);
  await page.context().close();
}

describe('a place that goes by its readings, in the builder', () => {
  it('says that no thermometer hangs there, then that there are too few readings, and what to do', async () => {
    const none = await opened(phone);
    await none.page.getByText('no thermometer hangs in it', { exact: false }).waitFor();
    await none.page.getByRole('link', { name: 'Thermometers' }).first().waitFor();
    expect(await none.page.locator('canvas').count()).toBe(0);
    await leave(none, 'read-place-no-probe-360');

    await send('POST', 'probes', {
      id: ids.probe,
      name: 'Apple shelf',
      placeId: ids.place,
      offsetC: 0,
      expectedIntervalS: 3600,
    });
    const empty = await opened(phone);
    await empty.page.getByText('there are none between', { exact: false }).waitFor();
    await leave(empty, 'read-place-none-360');

    await read(day('12-10'), 5);
    const few = await opened(phone);
    await few.page.getByText('more than 5 days of them', { exact: false }).waitFor();
    await few.page.getByRole('link', { name: 'Import readings' }).click();
    await few.page.waitForURL('**/readings/import');
    await few.page.context().close();
  });

  it.each([
    ['a phone', phone],
    ['a laptop', laptop],
  ] as const)('answers for the weeks that were read, and says which, on %s', async (_, size) => {
    await read(day('12-15'), 20);
    const part = await opened(size);
    await part.page.locator('canvas').waitFor();
    await part.page.getByText(/^Winter \d{4}-\d\d: known between [12]\d\sDecember/).waitFor();
    await part.page.getByText('No winter is known over the whole sleep', { exact: false }).waitFor();
    await part.page.getByText('Other builds are tried once your readings cover', { exact: false }).waitFor();
    await leave(part, `read-place-part-${size.width}`);
  });

  it.each([
    ['a phone', phone],
    ['a laptop', laptop],
  ] as const)('goes by a whole winter of a steady cellar, however cold it was outdoors, on %s', async (_, size) => {
    const { winters } = await ask('weather/winters');
    expect(winters.every((one: { airTempC: number[] }) => one.airTempC.some((tempC) => tempC < 0))).toBe(true);
    await read(day('10-25'), (day('03-20', 1) - day('10-25')) / DAY_MS);
    const whole = await opened(size);
    await whole.page.locator('canvas').waitFor();
    await whole.page.getByText('This goes by your readings in this place in one winter', { exact: false }).waitFor();
    await whole.page.getByText('100 % of the hours in the band', { exact: false }).waitFor();
    const row = whole.page.locator('section[aria-labelledby=beside] tbody tr').first();
    const figures = (await row.textContent()) ?? '';
    const coldest = Number(/(-?[\d.]+)\s°C/.exec(figures)?.[1]);
    expect(coldest).toBeGreaterThan(4.7);
    expect(coldest).toBeLessThan(5.3);
    await whole.page.getByText('This build stays in the band', { exact: false }).waitFor({ timeout: 30_000 });
    await leave(whole, `read-place-whole-${size.width}`);
  });
});
