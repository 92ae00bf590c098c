import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { mkdir } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { AxeBuilder } from '@axe-core/playwright';
import { type Browser, chromium, type Page } from 'playwright-core';
import { type RunningServer, type ServerOptions, startServer } from '../../src/server/start.ts';

/** A server on a folder of its own and a browser, as a keeper has them. */
export interface Stage {
  readonly server: RunningServer;
  readonly browser: Browser;
  /** The server goes away, as a network does in a shed … */
  lose(): Promise<void>;
  /** … and is back at the same address with the same records. */
  regain(): Promise<void>;
  close(): Promise<void>;
}

const builtPage = join(import.meta.dirname, '..', '..', 'dist', 'web', 'index.html');

export async function openStage(options: ServerOptions = {}): Promise<Stage> {
  if (!existsSync(builtPage)) throw new Error('Build the screens first: npm run build');
  const dataFolder = mkdtempSync(join(tmpdir(), 'stillwinter-browser-'));
  let server = await startServer({ dataFolder, port: 0, ...options });
  const { port } = server;
  const browser = await chromium.launch({
    executablePath: process.env.STILLWINTER_CHROMIUM ?? '/usr/bin/chromium',
    args: [
      '--headless',
      '--no-sandbox',
      '--disable-gpu',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });
  return {
    server,
    browser,
    lose: () => server.stop(),
    regain: async () => {
      server = await startServer({ dataFolder, ...options, port });
    },
    close: async () => {
      await browser.close();
      await server.stop();
      rmSync(dataFolder, { recursive: true, force: true });
    },
  };
}

export interface Opened {
  readonly page: Page;
  /** What the page complained of: console errors, exceptions, breaches of the content security policy, foreign requests. */
  readonly complaints: string[];
}

export const phone = { width: 360, height: 740 };
export const laptop = { width: 1280, height: 800 };

export async function openPage(
  stage: Stage,
  viewport: { width: number; height: number },
  more: Parameters<Browser['newContext']>[0] = {},
): Promise<Opened> {
  const context = await stage.browser.newContext({
    baseURL: stage.server.address,
    viewport,
    locale: 'en-GB',
    ...more,
  });
  const page = await context.newPage();
  page.setDefaultTimeout(20_000);
  const complaints: string[] = [];
  page.on('console', (message) => {
    // A refused request is an answer of the server, shown on the screen; the browser logs it all the same.
    if (
      message.type() === 'error' &&
      !/the server responded with a status of 4\d\d|ERR_INTERNET_DISCONNECTED|ERR_CONNECTION_REFUSED/.test(
        message.text(),
      )
    )
      complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(String(error)));
  page.on('request', (request) => {
    const address = request.url();
    if (!address.startsWith(stage.server.address) && !address.startsWith('blob:')) complaints.push(`asked ${address}`);
  });
  return { page, complaints };
}

/** Goes to a screen and waits until it has been read. */
export async function visit(page: Page, path: string): Promise<void> {
  await page.goto(path);
  await page.locator('h1').first().waitFor();
  const reading = page.locator('main p[role=status]', { hasText: 'Reading …' });
  await reading.first().waitFor({ state: 'detached' });
  await page.evaluate(() => document.fonts.ready);
}

/** What the accessibility rules of WCAG 2.2 A and AA (or only the rules named) find, in a line each. */
export async function accessFaults(page: Page, rules?: string[]): Promise<string[]> {
  const builder = new AxeBuilder({ page });
  if (rules) builder.withRules(rules);
  else builder.withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice']);
  const { violations } = await builder.analyze();
  return violations.flatMap((violation) =>
    violation.nodes.map((node) => `${violation.id}: ${node.target.join(' ')} ${node.failureSummary ?? ''}`),
  );
}

/** Elements that reach beyond the page sideways: a screen never scrolls to the side. */
export function overflow(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const wide = document.documentElement.clientWidth;
    if (document.documentElement.scrollWidth <= wide) return [];
    return [...document.querySelectorAll('main *')]
      .filter((element) => element.getBoundingClientRect().right > wide + 1)
      .slice(0, 5)
      .map((element) => `${element.tagName} ${element.className} ${element.textContent?.slice(0, 40)}`);
  });
}

/** Keeps a picture when a folder for pictures is named. */
export async function picture(page: Page, name: string, fullPage = true): Promise<void> {
  const folder = process.env.STILLWINTER_PICTURES;
  if (!folder) return;
  await mkdir(folder, { recursive: true });
  await page.screenshot({ path: join(folder, `${name}.png`), fullPage });
}
