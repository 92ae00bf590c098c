import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openPage, openStage, phone, type Stage, visit } from './harness.ts';

const built = join(import.meta.dirname, '..', '..', 'dist', 'web');
const MOST_BYTES = 150_000;
const MOST_FILES = 4;

let stage: Stage;
beforeAll(async () => {
  stage = await openStage({ demonstration: true });
});
afterAll(() => stage?.close());

describe('the first screen', () => {
  it('needs at most 150 KB of compressed script, in few files', () => {
    const page = readFileSync(join(built, 'index.html'), 'utf8');
    const scripts = [...page.matchAll(/(?:src|href)="(\/assets\/[^"]+\.js)"/g)].map((match) => match[1] as string);
    expect(scripts.length).toBeGreaterThan(0);
    expect(scripts.length).toBeLessThanOrEqual(MOST_FILES);
    const bytes = scripts.reduce((sum, path) => sum + gzipSync(readFileSync(join(built, path))).length, 0);
    expect(bytes).toBeLessThanOrEqual(MOST_BYTES);
  });

  it('fetches no more script than that until the round can be read, and shows it though the rest never comes', async () => {
    const { page, complaints } = await openPage(stage, phone, { serviceWorkers: 'block' });
    const sizes: Promise<number>[] = [];
    const first = await page.request.get('/').then((answer) => answer.text());
    await page.route(/\/assets\/.*\.js$/, (route) =>
      first.includes(new URL(route.request().url()).pathname) ? route.continue() : route.abort('failed'),
    );
    page.on('response', (answer) => {
      if (answer.url().endsWith('.js')) sizes.push(answer.body().then((body) => gzipSync(body).length));
    });
    await visit(page, '/');
    await page.locator('main h2').first().waitFor();
    expect(await page.getByText('does not know', { exact: false }).count()).toBe(0);
    const bytes = (await Promise.all(sizes)).reduce((sum, one) => sum + one, 0);
    expect(bytes).toBeGreaterThan(50_000);
    expect(bytes).toBeLessThanOrEqual(MOST_BYTES);
    expect(complaints.filter((one) => !/ERR_FAILED/.test(one))).toEqual([]);
    await page.context().close();
  });

  it('has its frame on the page before any script runs, the same that the script then draws', async () => {
    const frameOf = async (javaScriptEnabled: boolean) => {
      const { page } = await openPage(stage, phone, { javaScriptEnabled, serviceWorkers: 'block' });
      await page.goto('/settings');
      if (javaScriptEnabled) await page.locator('main h1').waitFor();
      const header = (await page.locator('header.head').textContent())?.replace(/\s+/g, '');
      const links = await page
        .locator('header.head a')
        .evaluateAll((all) => all.map((one) => one.getAttribute('href')));
      const top = await page.locator('header.head').boundingBox();
      const foot = await page.locator('footer').textContent();
      await page.context().close();
      return { header, links, top, foot };
    };
    expect(await frameOf(false)).toEqual(await frameOf(true));
  });

  it('asks for its answers once, while the scripts are still coming', async () => {
    const { page } = await openPage(stage, phone, { serviceWorkers: 'block' });
    const asked: string[] = [];
    page.on('request', (request) => asked.push(new URL(request.url()).pathname));
    await visit(page, '/');
    await page.locator('main h2').first().waitFor();
    for (const path of ['/api/v1/session', '/api/v1/group', '/api/v1/round', '/api/v1/undelivered'])
      expect(
        asked.filter((one) => one === path),
        path,
      ).toHaveLength(1);
    await page.context().close();
  });

  it('puts the chosen theme on the page before it is painted', async () => {
    const { page } = await openPage(stage, phone, { serviceWorkers: 'block' });
    await page.addInitScript(() => localStorage.setItem('theme', 'dark'));
    await page.route(/\/assets\/index-.*\.js$/, (route) => route.abort());
    await page.goto('/', { waitUntil: 'load' });
    expect(await page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor)).toBe(
      'rgb(20, 27, 27)',
    );
    await page.context().close();
  });

  it('has nothing inline that the content security policy would forbid', () => {
    const page = readFileSync(join(built, 'index.html'), 'utf8');
    expect(page).not.toMatch(/<script(?![^>]*\bsrc=)/);
    expect(page).not.toMatch(/<style|\sstyle=|\son[a-z]+=/);
    expect(page).not.toMatch(/https?:\/\//);
  });
});
