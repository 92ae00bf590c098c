import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { chromium } from 'playwright-core';
import { startServer } from '../../src/server/start.ts';
import type { MakeRows } from '../row.ts';

const SLOWER = 4;
/** A slow phone network: 1.6 Mbit/s down, 150 ms there and back. */
const NETWORK = { offline: false, latency: 150, downloadThroughput: 200_000, uploadThroughput: 94_000 };

/** The round on a phone: scripts as they travel, and the time until it can be used. Run after `npm run build`. */
export const rows: MakeRows = async () => {
  const dataFolder = mkdtempSync(join(tmpdir(), 'stillwinter-bench-'));
  const server = await startServer({ dataFolder, port: 0, demonstration: true });
  const browser = await chromium.launch({
    executablePath: process.env.STILLWINTER_CHROMIUM ?? '/usr/bin/chromium',
    args: ['--headless', '--no-sandbox', '--disable-gpu'],
  });
  try {
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
    await tab.goto(server.address);
    await tab.locator('h1').first().waitFor();
    await tab.locator('main h2').first().waitFor();
    // Interactive: the main thread answers at once, half a second long.
    const waitedMs = await tab.evaluate(async () => {
      let quietSince = performance.now();
      let last = quietSince;
      while (last - quietSince < 500) {
        await new Promise((resolve) => setTimeout(resolve, 10));
        const now = performance.now();
        if (now - last > 60) quietSince = now;
        last = now;
      }
      return last - quietSince;
    });
    const interactiveMs = performance.now() - began - waitedMs;
    const bytes = scripts.reduce((sum, text) => sum + gzipSync(text).length, 0);
    return [
      {
        name: 'first-load',
        value: Math.round(bytes / 102.4) / 10,
        unit: 'KB',
        peer: '',
        ratio: null,
        note: `scripts of the round, gzip, ${scripts.length} files`,
      },
      {
        name: 'first-load',
        value: Math.round(interactiveMs),
        unit: 'ms',
        peer: '',
        ratio: null,
        note: `until the round can be used: 360 px phone, processor ${SLOWER} times slower, 1.6 Mbit/s, 150 ms`,
      },
    ];
  } finally {
    await browser.close();
    await server.stop();
    rmSync(dataFolder, { recursive: true, force: true });
  }
};
