import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type Page } from 'playwright-core';
import { startServer } from '../src/server/start.ts';

/** Milliseconds from each key to the winters drawn. */
export interface Redraw {
  readonly what: string;
  readonly drawnMs: readonly number[];
}

const MOVES = 16;
const moved = [
  ['a value of the box moved', 'Thickness of the wall', 'a brick store'],
  ['a value of the place moved', 'The long side looks to the', 'a brick store'],
  ['a value of the box moved, bottles that freeze', 'Thickness of the wall', 'a timber shed'],
  ['a value of the place moved, bottles that freeze', 'The long side looks to the', 'a timber shed'],
] as const;

/**
 * Moves values of the builder by arrow keys in Chromium, on the demonstration group's winters, and times the canvas. Undefined
 * where there is no Chromium, or the screens are not built.
 */
export async function redrawInBrowser(): Promise<Redraw[] | undefined> {
  const executablePath = process.env.STILLWINTER_CHROMIUM ?? '/usr/bin/chromium';
  if (!existsSync(executablePath) || !existsSync('dist/web/index.html')) return undefined;
  const dataFolder = mkdtempSync(join(tmpdir(), 'stillwinter-redraw-'));
  const server = await startServer({ dataFolder, port: 0, demonstration: true });
  const browser = await chromium.launch({ executablePath, args: ['--headless', '--no-sandbox', '--disable-gpu'] });
  try {
    const page = await browser.newPage({
      baseURL: server.address,
      viewport: { width: 1280, height: 800 },
      locale: 'en-GB',
    });
    await page.addInitScript(watchDraws);
    await page.goto('/places/build');
    await page.locator('canvas').waitFor();
    const found: Redraw[] = [];
    for (const [what, value, place] of moved) {
      await choosePlace(page, place);
      found.push({ what, drawnMs: await moveOften(page, value) });
    }
    return found;
  } finally {
    await browser.close();
    await server.stop();
    rmSync(dataFolder, { recursive: true, force: true });
  }
}

/** In the page: when a key went down, and when a canvas was last drawn to its end. */
function watchDraws() {
  const seen = { keyAt: 0, drawnAt: [] as number[] };
  Object.assign(globalThis, { seen });
  addEventListener(
    'keydown',
    (event) => {
      seen.keyAt = event.timeStamp;
      seen.drawnAt = [];
    },
    true,
  );
  const restore = CanvasRenderingContext2D.prototype.restore;
  CanvasRenderingContext2D.prototype.restore = function (...args) {
    restore.apply(this, args);
    seen.drawnAt.push(performance.now());
  };
}

async function choosePlace(page: Page, word: string) {
  await page.getByRole('spinbutton', { name: 'Place', exact: true }).press('Enter');
  await page.getByRole('radio', { name: word, exact: true }).check();
  await page.getByRole('button', { name: 'Done' }).click();
}

async function moveOften(page: Page, label: string) {
  const value = page.getByRole('spinbutton', { name: label, exact: true });
  const drawnMs: number[] = [];
  for (let move = 0; move < MOVES; move++) {
    // Before the search over builds begins, as while a hand moves. Up and down, so that no end of the range is met.
    await value.press(move < MOVES / 2 ? 'ArrowUp' : 'ArrowDown');
    await page.waitForTimeout(800);
    const drawn = await page.evaluate(() => {
      const { seen } = globalThis as unknown as { seen: { keyAt: number; drawnAt: number[] } };
      return seen.drawnAt.map((at) => at - seen.keyAt)[0];
    });
    if (drawn !== undefined) drawnMs.push(drawn);
  }
  return drawnMs;
}
