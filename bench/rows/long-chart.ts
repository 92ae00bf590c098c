import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';
import { build } from 'vite';
import type { MakeRows } from '../row.ts';

const POINTS = 260_000;
const FRAMES = 90;
const WIDTH = 1000;
type Kind = 'ours' | 'polyline' | 'uplot';

interface Measured {
  readonly firstMs: number;
  readonly drawMs: number;
  readonly frameMs: number;
  readonly slowFrames: number;
}

/** The drawing code as the screens get it, bundled for a bare page. */
async function bundled(entry: string, name: string): Promise<string> {
  const built = await build({
    configFile: false,
    logLevel: 'error',
    build: { write: false, minify: false, lib: { entry, name, formats: ['iife'] } },
  });
  const [output] = Array.isArray(built) ? built : [built];
  if (!output || !('output' in output)) throw new Error('nothing was built');
  return output.output[0].code;
}

const page = (
  code: string,
) => `<!doctype html><meta charset="utf-8"><body><canvas id="chart"></canvas><div id="uplot"></div>
<script>${code.replaceAll('</script', '<\\/script')}</script>`;

/** First picture and a pan of 90 frames, in the page; each kind draws the same readings in the same size. */
async function inPage([kind, points, frames, width]: readonly [Kind, number, number, number]): Promise<Measured> {
  const space = globalThis as unknown as {
    Stillwinter: { LongChart: new (canvas: HTMLCanvasElement, height: number, inks: object) => Drawn };
    Peer: { default: new (options: object, data: unknown, element: Element) => UPlot };
  };
  interface Drawn {
    resize(width: number): void;
    setView(view: object): void;
    setData(data: object): void;
    pan(pixels: number): void;
    draw(): void;
    stop(): void;
  }
  interface UPlot {
    setScale(axis: string, range: object): void;
  }
  const startMs = Date.UTC(2020, 0, 1);
  const stepMs = 600_000;
  const atMs = Float64Array.from({ length: points }, (_, i) => startMs + i * stepMs);
  const tempC = Float32Array.from(
    { length: points },
    (_, i) => 5 + 3 * Math.sin(i / 700) + Math.sin(i * 12.9898) * 0.4,
  );
  const spanMs = points * stepMs;
  const canvas = document.querySelector('canvas') as HTMLCanvasElement;
  const context = canvas.getContext('2d') as CanvasRenderingContext2D;
  const inks = { ink: '#22302f', soft: '#5d6a66', rule: '#b9b3a0', leaf: '#fffdf6', warm: '#c07a1e', act: '#9b2d1f' };
  const frame = () => new Promise<number>((resolve) => requestAnimationFrame(resolve));
  let fromMs = startMs;
  let draw: () => void;
  await frame();
  await frame();
  const began = performance.now();
  if (kind === 'ours') {
    const chart = new space.Stillwinter.LongChart(canvas, 360, inks);
    chart.setView({ fromMs, toMs: fromMs + spanMs });
    chart.resize(width);
    chart.setData({
      lines: [
        { series: { atMs, minC: tempC, meanC: tempC, maxC: tempC, gapMs: 3 * stepMs }, outdoors: false, dash: [] },
      ],
      flags: [],
      dryRuns: [],
      bandC: [3, 8],
      words: { degrees: String, instant: String, aheadMs: () => 0, stepsC: [1, 2, 5], zeroC: 0 },
    });
    draw = () => {
      chart.pan(-2);
      chart.draw();
      chart.stop();
    };
  } else if (kind === 'polyline') {
    canvas.width = width;
    canvas.height = 360;
    draw = () => {
      fromMs += (2 / width) * spanMs;
      context.clearRect(0, 0, width, 360);
      context.beginPath();
      for (let i = 0; i < points; i++)
        context.lineTo((((atMs[i] as number) - fromMs) / spanMs) * width, 360 - ((tempC[i] as number) + 2) * 25);
      context.stroke();
    };
  } else {
    const atS = Array.from(atMs, (at) => at / 1000);
    const plot = new space.Peer.default(
      { width, height: 360, series: [{}, { stroke: '#22302f', points: { show: false } }], legend: { show: false } },
      [atS, Array.from(tempC)],
      document.getElementById('uplot') as Element,
    );
    draw = () => {
      fromMs += (2 / width) * spanMs;
      plot.setScale('x', { min: fromMs / 1000, max: (fromMs + spanMs) / 1000 });
    };
  }
  draw();
  // Reading one pixel back waits until what was asked for has truly been drawn.
  (document.querySelector('#uplot canvas') as HTMLCanvasElement | null)?.getContext('2d')?.getImageData(0, 0, 1, 1);
  context.getImageData(0, 0, 1, 1);
  await frame();
  const firstMs = performance.now() - began;
  let drawing = 0;
  let slowFrames = 0;
  let before = await frame();
  const start = before;
  for (let i = 0; i < frames; i++) {
    const from = performance.now();
    draw();
    drawing += performance.now() - from;
    const now = await frame();
    if (now - before > 17.5) slowFrames++;
    before = now;
  }
  return { firstMs, drawMs: drawing / frames, frameMs: (before - start) / frames, slowFrames };
}

export const rows: MakeRows = async () => {
  const chart = fileURLToPath(new URL('../../src/web/readings/long-chart.ts', import.meta.url));
  const peer = fileURLToPath(import.meta.resolve('uplot'));
  const code = `${await bundled(chart, 'Stillwinter')}\n${await bundled(peer, 'PeerDefault')}\nwindow.Peer = { default: PeerDefault.default ?? PeerDefault };`;
  const browser = await chromium.launch({
    executablePath: process.env.STILLWINTER_CHROMIUM ?? '/usr/bin/chromium',
    args: ['--headless', '--no-sandbox', '--disable-gpu'],
  });
  try {
    const measured: Partial<Record<Kind, Measured>> = {};
    for (const kind of ['ours', 'polyline', 'uplot'] as const) {
      const tab = await browser.newPage({ viewport: { width: 1280, height: 800 } });
      await tab.setContent(page(code));
      measured[kind] = await tab.evaluate(inPage, [kind, POINTS, FRAMES, WIDTH] as const);
      await tab.close();
    }
    const ours = measured.ours as Measured;
    const row = (
      name: string,
      of: keyof Measured,
      unit: string,
      note: string,
      peers: readonly ('polyline' | 'uplot')[] = ['polyline', 'uplot'],
    ) => [
      { name, value: ours[of], unit, peer: '', ratio: null, note },
      ...peers.map((kind) => ({
        name,
        value: ours[of],
        unit,
        peer: kind === 'polyline' ? 'plain canvas polyline' : 'uPlot',
        ratio: (measured[kind] as Measured)[of] / ours[of],
        note: `theirs: ${(measured[kind] as Measured)[of].toFixed(1)} ${unit}`,
      })),
    ];
    return [
      ...row('long-chart', 'firstMs', 'ms', `${POINTS} points, from data to the first frame, Chromium without GPU`),
      ...row('long-chart-pan', 'drawMs', 'ms', `script of one frame of a pan over all ${POINTS} points`, ['polyline']),
      ...row(
        'long-chart-frame',
        'frameMs',
        'ms',
        `time between frames of the pan; 16.7 is 60 a second; ${ours.slowFrames} of ${FRAMES} late`,
      ),
    ];
  } finally {
    await browser.close();
  }
};
