import {
  type Columns,
  extremesOf,
  fillColumns,
  firstAtOrAfter,
  type LongSeries,
  makeColumns,
} from './column-envelope.ts';

export interface ChartLine {
  readonly series: LongSeries;
  readonly outdoors: boolean;
  readonly dash: readonly number[];
}

/** A flag planted at an instant; `actNow` in the alarm colour. */
interface ChartFlag {
  readonly atMs: number;
  readonly actNow: boolean;
}

/** A time in which nobody was in a box: its readings are a dry run. */
export interface ChartStretch {
  readonly fromMs: number;
  readonly toMs: number;
}

export interface ChartInks {
  readonly ink: string;
  readonly soft: string;
  readonly rule: string;
  readonly leaf: string;
  readonly warm: string;
  readonly act: string;
}

export interface ChartData {
  readonly lines: readonly ChartLine[];
  readonly flags: readonly ChartFlag[];
  /** One row of stretches for each box shown. */
  readonly dryRuns: readonly (readonly ChartStretch[])[];
  readonly bandC: readonly [number, number];
  readonly words: ChartWords;
}

export interface ChartView {
  readonly fromMs: number;
  readonly toMs: number;
}

/** Words on the axes, in the units and by the clock of the group. */
export interface ChartWords {
  readonly degrees: (tempC: number) => string;
  readonly instant: (atMs: number, stepMs: number) => string;
  /** What the clock of the group is ahead of UTC at an instant, ms: days on the axis begin at its midnight. */
  readonly aheadMs: (atMs: number) => number;
  /** Steps of the temperature axis in °C that read as whole degrees in the group's unit, and what they are counted from. */
  readonly stepsC: readonly number[];
  readonly zeroC: number;
}

const LEFT = 54;
const TOP = 20;
const FOOT = 26;
const DRY_ROW = 9;
const HOUR_MS = 3_600_000;
const timeSteps = [0.25, 0.5, 1, 3, 6, 12, 24, 48, 96, 168, 336, 730.5, 1461].map((hours) => hours * HOUR_MS);
const FONT = '13px "Atkinson Hyperlegible Next", Verdana, sans-serif';

/** All thermometers on one canvas: drawn anew for each frame while it is moved, whatever the number of readings. */
export class LongChart {
  readonly #canvas: HTMLCanvasElement;
  readonly #context: CanvasRenderingContext2D;
  readonly #height: number;
  #width = 0;
  #ratio = 1;
  #columns: Columns = makeColumns(0);
  #data: ChartData | undefined;
  #view: ChartView = { fromMs: 0, toMs: 1 };
  #range: [number, number] = [0, 10];
  #cursorMs: number | undefined;
  #inks: ChartInks;
  #frame = 0;
  /** Where the temperatures end and the rows of dry runs begin, px. */
  #foot = 0;

  constructor(canvas: HTMLCanvasElement, height: number, inks: ChartInks) {
    this.#canvas = canvas;
    this.#context = canvas.getContext('2d') as CanvasRenderingContext2D;
    this.#height = height;
    this.#inks = inks;
  }

  get view(): ChartView {
    return this.#view;
  }

  get cursorMs(): number | undefined {
    return this.#cursorMs;
  }

  resize(width: number): void {
    this.#ratio = globalThis.devicePixelRatio || 1;
    this.#width = width;
    this.#canvas.width = Math.round(width * this.#ratio);
    this.#canvas.height = Math.round(this.#height * this.#ratio);
    this.#canvas.style.width = `${width}px`;
    this.#canvas.style.height = `${this.#height}px`;
    this.#columns = makeColumns(2 * Math.ceil(this.plotWidth) + 4);
    this.ask();
  }

  setData(data: ChartData): void {
    this.#data = data;
    const shown = extremesOf(
      data.lines.map((line) => line.series),
      this.#view.fromMs,
      this.#view.toMs,
    );
    this.#range = [
      Math.min(data.bandC[0] - 2, shown?.[0] ?? data.bandC[0]) - 0.5,
      Math.max(data.bandC[1] + 2, shown?.[1] ?? data.bandC[1]) + 0.5,
    ];
    this.ask();
  }

  setInks(inks: ChartInks): void {
    this.#inks = inks;
    this.ask();
  }

  setView(view: ChartView): void {
    this.#view = view;
    this.ask();
  }

  setCursor(atMs: number | undefined): void {
    this.#cursorMs = atMs;
    this.ask();
  }

  get plotWidth(): number {
    return Math.max(1, this.#width - LEFT - 4);
  }

  /** The instant under a pixel of the canvas. */
  msAt(x: number): number {
    const { fromMs, toMs } = this.#view;
    return fromMs + ((x - LEFT) / this.plotWidth) * (toMs - fromMs);
  }

  /** Moves the view by pixels: what was under the pointer stays under it. */
  pan(pixels: number): void {
    const { fromMs, toMs } = this.#view;
    const shift = -(pixels / this.plotWidth) * (toMs - fromMs);
    this.setView({ fromMs: fromMs + shift, toMs: toMs + shift });
  }

  /** Shows `factor` times the time, the instant `aroundMs` staying where it is. */
  zoom(factor: number, aroundMs: number, leastMs: number, mostMs: number): void {
    const { fromMs, toMs } = this.#view;
    const span = Math.min(mostMs, Math.max(leastMs, (toMs - fromMs) * factor));
    const share = (aroundMs - fromMs) / (toMs - fromMs);
    this.setView({ fromMs: aroundMs - share * span, toMs: aroundMs + (1 - share) * span });
  }

  /** The reading of a line nearest in time to `atMs`, no farther than its gap. */
  nearest(line: number, atMs: number): { readonly atMs: number; readonly meanC: number } | undefined {
    const series = this.#data?.lines[line]?.series;
    if (!series || series.atMs.length === 0) return undefined;
    const after = Math.min(firstAtOrAfter(series.atMs, atMs), series.atMs.length - 1);
    const before = Math.max(0, after - 1);
    const index =
      Math.abs((series.atMs[before] as number) - atMs) < Math.abs((series.atMs[after] as number) - atMs)
        ? before
        : after;
    const found = series.atMs[index] as number;
    return Math.abs(found - atMs) <= series.gapMs ? { atMs: found, meanC: series.meanC[index] as number } : undefined;
  }

  /** Draws once before the next frame, however often it is asked. */
  ask(): void {
    if (this.#frame) return;
    this.#frame = requestAnimationFrame(() => {
      this.#frame = 0;
      this.draw();
    });
  }

  stop(): void {
    cancelAnimationFrame(this.#frame);
    this.#frame = 0;
  }

  draw(): void {
    const data = this.#data;
    if (this.#width === 0 || !data) return;
    this.#foot = this.#height - FOOT - data.dryRuns.length * DRY_ROW;
    const context = this.#context;
    context.setTransform(this.#ratio, 0, 0, this.#ratio, 0, 0);
    context.clearRect(0, 0, this.#width, this.#height);
    context.font = FONT;
    this.#band(data.bandC);
    this.#degreesAxis(data.words);
    this.#timeAxis(data.words);
    context.save();
    context.beginPath();
    context.rect(LEFT, 0, this.plotWidth, this.#height);
    context.clip();
    this.#dryRuns(data);
    for (const line of data.lines) this.#line(line);
    this.#flags(data);
    this.#cursor(data);
    context.restore();
  }

  #x(atMs: number): number {
    const { fromMs, toMs } = this.#view;
    return LEFT + ((atMs - fromMs) / (toMs - fromMs)) * this.plotWidth;
  }

  #y(tempC: number): number {
    const [low, high] = this.#range;
    return this.#foot - ((tempC - low) / (high - low)) * (this.#foot - TOP);
  }

  #band([low, high]: ChartData['bandC']): void {
    const context = this.#context;
    context.fillStyle = this.#inks.leaf;
    context.fillRect(LEFT, this.#y(high), this.plotWidth, this.#y(low) - this.#y(high));
    context.fillStyle = this.#inks.rule;
    for (const limit of [low, high]) context.fillRect(LEFT, Math.round(this.#y(limit)), this.plotWidth, 1);
  }

  #degreesAxis({ stepsC, zeroC, degrees }: ChartWords): void {
    const context = this.#context;
    const [low, high] = this.#range;
    const step = stepsC.find((one) => (one / (high - low)) * (this.#foot - TOP) >= 34) ?? (stepsC.at(-1) as number);
    context.fillStyle = this.#inks.soft;
    context.textAlign = 'right';
    context.textBaseline = 'middle';
    for (let tempC = zeroC + Math.ceil((low - zeroC) / step) * step; tempC <= high; tempC += step)
      context.fillText(degrees(tempC), LEFT - 8, this.#y(tempC));
  }

  #timeAxis(words: ChartWords): void {
    const context = this.#context;
    const { fromMs, toMs } = this.#view;
    const step =
      timeSteps.find((one) => (one / (toMs - fromMs)) * this.plotWidth >= 66) ?? (timeSteps.at(-1) as number);
    const base = this.#height - FOOT;
    context.fillStyle = this.#inks.rule;
    context.fillRect(LEFT, base, this.plotWidth, 1);
    context.textAlign = 'center';
    context.textBaseline = 'top';
    const aheadMs = words.aheadMs((fromMs + toMs) / 2);
    for (let atMs = Math.ceil((fromMs + aheadMs) / step) * step - aheadMs; atMs <= toMs; atMs += step) {
      const x = this.#x(atMs);
      context.fillStyle = this.#inks.rule;
      context.fillRect(Math.round(x), base, 1, 5);
      context.fillStyle = this.#inks.soft;
      if (x > LEFT + 22 && x < this.#width - 22) context.fillText(words.instant(atMs, step), x, base + 8);
    }
  }

  #line({ series, outdoors, dash }: ChartLine): void {
    const context = this.#context;
    const columns = this.#columns;
    const { fromMs, toMs } = this.#view;
    fillColumns(series, fromMs, toMs, this.plotWidth, columns);
    const { x, low, mean, high, runs, count, runCount } = columns;
    context.strokeStyle = outdoors ? this.#inks.warm : this.#inks.ink;
    context.fillStyle = context.strokeStyle;
    context.lineJoin = 'round';
    for (let run = 0; run < runCount; run++) {
      const from = runs[run] as number;
      const to = run + 1 < runCount ? (runs[run + 1] as number) : count;
      // The spread within a column as a pale ribbon: cold and warm extremes are never averaged away.
      context.globalAlpha = 0.26;
      context.beginPath();
      for (let i = from; i < to; i++) context.lineTo(LEFT + (x[i] as number), this.#y(high[i] as number) - 0.5);
      for (let i = to - 1; i >= from; i--) context.lineTo(LEFT + (x[i] as number), this.#y(low[i] as number) + 0.5);
      context.closePath();
      context.fill();
      context.globalAlpha = 1;
      context.lineWidth = outdoors ? 1 : 1.5;
      context.setLineDash(dash as number[]);
      context.beginPath();
      for (let i = from; i < to; i++) context.lineTo(LEFT + (x[i] as number), this.#y(mean[i] as number));
      context.stroke();
      // A reading with silence on both sides is a dot: a line of one point would not be seen.
      if (to - from === 1) {
        context.beginPath();
        context.arc(LEFT + (x[from] as number), this.#y(mean[from] as number), 1.8, 0, 2 * Math.PI);
        context.fill();
      }
    }
    context.setLineDash([]);
  }

  #dryRuns({ dryRuns }: ChartData): void {
    const context = this.#context;
    context.strokeStyle = this.#inks.soft;
    context.lineWidth = 1;
    dryRuns.forEach((stretches, row) => {
      const y = this.#foot + 4 + row * DRY_ROW;
      for (const { fromMs, toMs } of stretches) {
        const x0 = Math.max(LEFT, this.#x(fromMs));
        const x1 = Math.min(LEFT + this.plotWidth, this.#x(toMs));
        if (x1 <= x0) continue;
        context.beginPath();
        context.rect(x0, y, x1 - x0, DRY_ROW - 3);
        for (let x = x0; x < x1; x += 5) {
          context.moveTo(x, y + DRY_ROW - 3);
          context.lineTo(Math.min(x1, x + DRY_ROW - 3), y);
        }
        context.stroke();
      }
    });
  }

  #flags({ flags }: ChartData): void {
    const context = this.#context;
    for (const { atMs, actNow } of flags) {
      const x = Math.round(this.#x(atMs)) + 0.5;
      context.strokeStyle = actNow ? this.#inks.act : this.#inks.ink;
      context.fillStyle = actNow ? this.#inks.act : 'transparent';
      context.lineWidth = 1;
      context.beginPath();
      context.moveTo(x, this.#foot);
      context.lineTo(x, 3);
      context.lineTo(x + 11, 7.5);
      context.lineTo(x, 12);
      context.fill();
      context.stroke();
    }
  }

  #cursor({ lines }: ChartData): void {
    if (this.#cursorMs === undefined) return;
    const context = this.#context;
    const x = Math.round(this.#x(this.#cursorMs));
    context.fillStyle = this.#inks.act;
    context.fillRect(x, TOP - 6, 1, this.#foot - TOP + 6);
    lines.forEach(({ outdoors }, index) => {
      const near = this.nearest(index, this.#cursorMs as number);
      if (!near) return;
      context.fillStyle = outdoors ? this.#inks.warm : this.#inks.ink;
      context.beginPath();
      context.arc(this.#x(near.atMs), this.#y(near.meanC), 3, 0, 2 * Math.PI);
      context.fill();
    });
  }
}
