import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { type Browser, chromium } from 'playwright-core';
import { startServer } from '../../src/server/start.ts';
import type { MakeRows } from '../row.ts';

const SLOWER = 4;
/** A slow phone network: 1.6 Mbit/s down, 150 ms there and back. */
const NETWORK = { offline: false, latency: 150, downloadThroughput: 200_000, uploadThroughput: 94_000 };

const RUNS = 5;
/** A browser just started is still busy with itself, which a phone that opens a page is not. */
const SETTLE_MS = 4_000;

/** The round on a phone: scripts as they travel, and the time until it can be used. Run after `npm run build`. */
export const rows: MakeRows = async () => {
  const dataFolder = mkdtempSync(join(tmpdir(), 'stillwinter-bench-'));
  const server = await startServer({ dataFolder, port: 0, demonstration: true });
  const browser = await chromium.launch({
    executablePath: process.env.STILLWINTER_CHROMIUM ?? '/usr/bin/chromium',
    args: ['--headless', '--no-sandbox', '--disable-gpu'],
  });
  try {
    await new Promise((resolve) => setTimeout(resolve, SETTLE_MS));
    const loads: Load[] = [];
    for (let run = 0; run < RUNS; run++) loads.push(await firstLoad(browser, server.address));
    const median = loads.sort((a, b) => a.interactiveMs - b.interactiveMs)[RUNS >> 1] as Load;
    const row = { name: 'first-load', peer: '', ratio: null };
    return [
      {
        ...row,
        value: Math.round(median.bytes / 102.4) / 10,
        unit: 'KB',
        note: `scripts of the round, gzip, ${median.files} files`,
      },
      {
        ...row,
        value: Math.round(median.interactiveMs),
        unit: 'ms',
        note: `until the round can be used: 360 px phone, processor ${SLOWER} times slower, 1.6 Mbit/s, 150 ms; nothing kept from before, median of ${RUNS}`,
      },
      {
        ...row,
        value: Math.round(median.paintedMs),
        unit: 'ms',
        note: 'until the frame with the way to every section is painted, same load',
      },
    ];
  } finally {
    await browser.close();
    await server.stop();
    rmSync(dataFolder, { recursive: true, force: true });
  }
};

interface Load {
  readonly bytes: number;
  readonly files: number;
  readonly paintedMs: number;
  readonly interactiveMs: number;
}

async function firstLoad(browser: Browser, address: string): Promise<Load> {
  const context = await browser.newContext({
    viewport: { width: 360, height: 740 },
    deviceScaleFactor: 3,
    isMobile: true,
    hasTouch: true,
    serviceWorkers: 'block',
  });
  const tab = await context.newPage();
  const scripts: string[] = [];
  tab.on('response', async (response) => {
    if (response.url().endsWith('.js')) scripts.push(await response.text().catch(() => ''));
  });
  const session = await context.newCDPSession(tab);
  await session.send('Network.enable');
  await session.send('Network.emulateNetworkConditions', NETWORK);
  await session.send('Emulation.setCPUThrottlingRate', { rate: SLOWER });
  const began = performance.now();
  await tab.goto(address, { waitUntil: 'commit' });
  await tab.locator('main h1').first().waitFor();
  await tab.locator('main h2').first().waitFor();
  // Interactive: the main thread answers at once, half a second long.
  const seen = await tab.evaluate(async () => {
    let quietSince = performance.now();
    let last = quietSince;
    while (last - quietSince < 500) {
      await new Promise((resolve) => setTimeout(resolve, 10));
      const now = performance.now();
      if (now - last > 60) quietSince = now;
      last = now;
    }
    const paint = performance.getEntriesByName('first-contentful-paint')[0];
    return { waitedMs: last - quietSince, paintedMs: paint?.startTime ?? Number.NaN };
  });
  const interactiveMs = performance.now() - began - seen.waitedMs;
  await context.close();
  return {
    bytes: scripts.reduce((sum, text) => sum + gzipSync(text).length, 0),
    files: scripts.length,
    paintedMs: seen.paintedMs,
    interactiveMs,
  };
}
