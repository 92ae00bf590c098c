// `npm run pictures`: makes every picture of the manual anew, on the demonstration group at a fixed moment. Build the screens first.
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Browser, chromium, type Page } from 'playwright-core';
import { startServer } from '../src/server/start.ts';

/** A fixed evening in winter, so that the same screens give the same pictures. */
const NOW_MS = Date.UTC(2026, 10, 25, 18, 40);
const FOLDER = join(import.meta.dirname, '..', 'docs', 'manual', 'pictures');

interface Picture {
  readonly file: string;
  readonly path: string;
  readonly size: readonly [widthPx: number, heightPx: number];
  /** Brings the screen to what the manual speaks of. */
  readonly ready?: (page: Page) => Promise<unknown>;
}

const phone = [360, 740] as const;
const laptop = [1280, 800] as const;

/** Every picture, by the screen it shows. `{animal}` and `{box}` stand for one that sleeps and its box. */
const pictures: readonly Picture[] = [
  { file: 'round-phone', path: '/', size: phone },
  { file: 'animal', path: '/animals/{animal}', size: laptop },
  { file: 'animal-phone', path: '/animals/{animal}', size: phone },
  { file: 'examination', path: '/animals/{animal}/examination', size: laptop },
  { file: 'places', path: '/places', size: laptop },
  { file: 'builder', path: '/places/build', size: [1280, 1500], ready: wintersDrawn },
  { file: 'dry-run', path: '/places/boxes/{box}/dry-run', size: laptop },
  { file: 'plan', path: '/plans/{animal}', size: laptop },
  { file: 'readings', path: '/readings', size: laptop, ready: (page) => page.locator('.chart-told').waitFor() },
  { file: 'import', path: '/readings/import', size: laptop },
  { file: 'thermometers', path: '/readings/thermometers', size: laptop },
  { file: 'group', path: '/group', size: laptop },
  { file: 'papers', path: '/papers', size: laptop },
  { file: 'settings', path: '/settings', size: laptop },
  { file: 'what-to-do-now-phone', path: '/now/frost', size: phone },
];

function wintersDrawn(page: Page) {
  return page.getByText('Worst of 30 winters').waitFor({ timeout: 60_000 });
}

const wanted = process.argv.slice(2);
const unknown = wanted.filter((name) => !pictures.some((one) => one.file === name));
if (unknown.length > 0) {
  console.error(`No such picture: ${unknown.join(', ')}. There are: ${pictures.map((one) => one.file).join(', ')}.`);
  process.exit(2);
}
if (!existsSync(join(import.meta.dirname, '..', 'dist', 'web', 'index.html'))) {
  console.error('The screens are not built yet: npm run build');
  process.exit(1);
}

const dataFolder = mkdtempSync(join(tmpdir(), 'stillwinter-pictures-'));
const server = await startServer({ dataFolder, port: 0, demonstration: true, nowMs: () => NOW_MS });
const browser = await chromium.launch({
  executablePath: process.env.STILLWINTER_CHROMIUM ?? '/usr/bin/chromium',
  args: ['--headless', '--no-sandbox', '--disable-gpu'],
});
let failed = 0;
try {
  const [stay] = (await (await fetch(`${server.address}/api/v1/stays`)).json()) as {
    animalId: string;
    boxId: string;
  }[];
  if (!stay) throw new Error('The demonstration group has no sleeping animal.');
  for (const one of pictures) {
    if (wanted.length > 0 && !wanted.includes(one.file)) continue;
    const path = one.path.replace('{animal}', stay.animalId).replace('{box}', stay.boxId);
    const trouble = await take(browser, server.address, one, path).catch((problem: Error) => problem);
    if (trouble) failed++;
    console.log(trouble ? `${one.file}: not made. ${trouble.message.split('\n')[0]}` : `${one.file}.png`);
  }
} finally {
  await browser.close();
  await server.stop();
  rmSync(dataFolder, { recursive: true, force: true });
}
process.exit(failed === 0 ? 0 : 1);

async function take(browser: Browser, address: string, picture: Picture, path: string): Promise<undefined> {
  const context = await browser.newContext({
    baseURL: address,
    viewport: { width: picture.size[0], height: picture.size[1] },
    colorScheme: 'light',
    locale: 'en-GB',
    reducedMotion: 'reduce',
    serviceWorkers: 'block',
  });
  try {
    const page = await context.newPage();
    await page.clock.setFixedTime(NOW_MS);
    await page.goto(path);
    await page.locator('main h1').first().waitFor();
    await page.waitForFunction(() => !document.querySelector('main')?.textContent.includes('Reading …'));
    await picture.ready?.(page);
    await page.evaluate(() => document.fonts.ready);
    // Parts that a screen fetches once it stands.
    await page.waitForTimeout(1500);
    await page.screenshot({ path: join(FOLDER, `${picture.file}.png`) });
  } finally {
    await context.close();
  }
}
