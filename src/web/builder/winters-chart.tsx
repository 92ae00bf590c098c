import { useEffect, useRef, useState } from 'react';
import { addDays, type Day, daysBetween } from '../../measure/day.ts';
import { say } from '../../wording/say.ts';
import { sayMonth } from '../parts/dates.ts';
import { useWidth } from '../winter-line/winter-line.tsx';

interface DrawnWinter {
  readonly label: string;
  readonly stepS: number;
  /** At each step, °C; NaN where the weather is missing: a gap stays a gap. */
  readonly insideC: ArrayLike<number>;
  readonly outsideC: ArrayLike<number>;
}

interface ChartProps {
  readonly winters: readonly DrawnWinter[];
  readonly front: number;
  readonly fromDay: Day;
  readonly toDay: Day;
  readonly band: { readonly lowC: number; readonly highC: number };
  readonly degrees: (tempC: number) => string;
}

const HEIGHT = 300;
const LEFT = 52;
const FOOT = 26;
/** Samples closer than this swing faster than a chart of a winter can show, s. */
const SUB_HOURLY_S = 3600;
/** Width of one span of such samples, px. */
const SPAN_PX = 3;

/** All winters as thin lines, one in front; the band as a stripe. The figures stand in the table beneath. */
export function WintersChart(props: ChartProps) {
  const [box, width] = useWidth();
  const canvas = useRef<HTMLCanvasElement>(null);
  const [lettered, setLettered] = useState(document.fonts.status === 'loaded');
  useEffect(() => {
    if (!lettered) void document.fonts.ready.then(() => setLettered(true));
  }, [lettered]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: letters that have come are drawn anew
  useEffect(() => {
    const paint = () => {
      if (canvas.current && width > 0) draw(canvas.current, width, props);
    };
    paint();
    const dark = matchMedia('(prefers-color-scheme: dark)');
    dark.addEventListener('change', paint);
    addEventListener('beforeprint', paint);
    return () => {
      dark.removeEventListener('change', paint);
      removeEventListener('beforeprint', paint);
    };
  }, [width, props, lettered]);
  return (
    <div ref={box}>
      <canvas
        ref={canvas}
        role="img"
        aria-label={say('web.builder.chartTitle', { count: props.winters.length })}
        height={HEIGHT}
      />
    </div>
  );
}

/** Lowest, mean and highest of each whole stretch of `wantedDays` days or, where that is longer, a day: the rhythm of the room. */
function spansOf(temps: ArrayLike<number>, stepS: number, wantedDays: number) {
  const size = Math.max(1, Math.round((Math.max(wantedDays, 1) * 86_400) / stepS));
  const count = Math.max(1, Math.floor(temps.length / size));
  const [low, mean, high] = [new Float64Array(count), new Float64Array(count), new Float64Array(count)];
  for (let k = 0; k < count; k++) {
    const end = Math.min(temps.length, (k + 1) * size);
    low[k] = Number.POSITIVE_INFINITY;
    high[k] = Number.NEGATIVE_INFINITY;
    for (let i = k * size; i < end; i++) {
      const tempC = temps[i] as number;
      if (tempC < low[k]!) low[k] = tempC;
      if (tempC > high[k]!) high[k] = tempC;
      mean[k]! += tempC / (end - k * size);
    }
  }
  return { days: (size * stepS) / 86_400, low, mean, high };
}

function draw(canvas: HTMLCanvasElement, width: number, props: ChartProps) {
  const { winters, front, band, fromDay, toDay } = props;
  const context = canvas.getContext('2d');
  if (!context) return;
  const sharp = Math.min(3, devicePixelRatio || 1);
  canvas.width = Math.round(width * sharp);
  canvas.height = Math.round(HEIGHT * sharp);
  canvas.style.height = `${HEIGHT}px`;
  context.setTransform(sharp, 0, 0, sharp, 0, 0);
  const style = getComputedStyle(canvas);
  const ink = (name: string) => style.getPropertyValue(name).trim();
  context.clearRect(0, 0, width, HEIGHT);

  // The scale holds the band and every winter in the box; outdoors may leave the picture.
  let low = Math.min(0, band.lowC - 2);
  let high = band.highC + 2;
  for (const winter of winters)
    for (let i = 0; i < winter.insideC.length; i += 3) {
      const tempC = winter.insideC[i] as number;
      if (tempC < low) low = tempC;
      if (tempC > high) high = tempC;
    }
  low = Math.max(-15, Math.floor(low) - 0.5);
  high = Math.min(30, Math.ceil(high) + 0.5);
  const plotW = width - LEFT - 2;
  const plotH = HEIGHT - FOOT - 6;
  const y = (tempC: number) => 6 + ((high - tempC) / (high - low)) * plotH;
  const days = Math.max(1, daysBetween(fromDay, toDay));
  const perDay = plotW / days;

  context.fillStyle = ink('--leaf');
  context.fillRect(LEFT, y(band.highC), plotW, y(band.lowC) - y(band.highC));
  context.font = '13px "Atkinson Hyperlegible Next", Verdana, sans-serif';
  context.textAlign = 'right';
  context.textBaseline = 'middle';
  let lastLabelY = Number.POSITIVE_INFINITY;
  const level = (tempC: number, line: 'rule' | 'frost' | 'none') => {
    if (tempC < low || tempC > high) return;
    const at = Math.round(y(tempC)) + 0.5;
    if (line !== 'none') {
      context.strokeStyle = ink(line === 'frost' ? '--cold' : '--rule');
      context.setLineDash(line === 'frost' ? [2, 3] : []);
      context.lineWidth = 1;
      context.beginPath();
      context.moveTo(LEFT, at);
      context.lineTo(width - 2, at);
      context.stroke();
      context.setLineDash([]);
    }
    if (Math.abs(lastLabelY - at) < 15) return;
    lastLabelY = at;
    context.fillStyle = ink('--soft');
    context.fillText(props.degrees(tempC), LEFT - 6, at);
  };
  level(0, 'frost');
  level(band.lowC, 'rule');
  level(band.highC, 'rule');
  for (const more of [10, 15, 20, -5, -10]) level(more, 'none');

  // Months along the foot.
  context.textAlign = 'left';
  for (let day = 0; day <= days; day++) {
    const date = addDays(fromDay, day);
    if (!date.endsWith('-01') && day !== 0) continue;
    if (day === 0 && Number(date.slice(8)) > 20) continue;
    const x = LEFT + day * perDay;
    context.fillStyle = ink('--soft');
    const name = sayMonth(date);
    if (x + context.measureText(name).width < width) context.fillText(name, x + 1, HEIGHT - 9);
    context.fillStyle = ink('--rule');
    context.fillRect(Math.round(x), HEIGHT - FOOT, 1, 6);
  }

  context.save();
  context.beginPath();
  context.rect(LEFT, 0, plotW + 2, HEIGHT - FOOT);
  context.clip();
  const line = (
    temps: ArrayLike<number>,
    stepS: number,
    colour: string,
    thickness: number,
    everyPx = 0,
    dash: number[] = [],
  ) => {
    const perSample = (perDay * stepS) / 86_400;
    const every = Math.max(1, Math.round(everyPx / perSample));
    context.strokeStyle = colour;
    context.lineWidth = thickness;
    context.setLineDash(dash);
    context.beginPath();
    let down = false;
    for (let i = 0; i < temps.length; i += every) {
      const tempC = temps[i] as number;
      if (Number.isNaN(tempC)) {
        down = false;
        continue;
      }
      const x = LEFT + i * perSample;
      if (down) context.lineTo(x, y(tempC));
      else context.moveTo(x, y(tempC));
      down = true;
    }
    context.stroke();
    context.setLineDash([]);
  };
  // A thermostat goes round many times within a pixel: what it spans is a stripe, and its mean the line.
  const stripe = (temps: ArrayLike<number>, stepS: number, colour: string, thickness: number, dash: number[] = []) => {
    const { days, low, mean, high } = spansOf(temps, stepS, SPAN_PX / perDay);
    const x = (index: number) => LEFT + (index + 0.5) * days * perDay;
    context.fillStyle = colour;
    context.globalAlpha = 0.22;
    context.beginPath();
    high.forEach((tempC, i) => {
      context.lineTo(x(i), y(tempC));
    });
    for (let i = low.length - 1; i >= 0; i--) context.lineTo(x(i), y(low[i]!));
    context.fill();
    context.globalAlpha = 1;
    line(mean, days * 86_400, colour, thickness, 0, dash);
  };
  context.globalAlpha = 0.8;
  // The thin lines of the others need no more than a point for each pixel.
  const rule = ink('--rule');
  winters.forEach((winter, index) => {
    if (index !== front) line(winter.insideC, winter.stepS, rule, 0.8, 1);
  });
  context.globalAlpha = 1;
  const chosen = winters[front];
  if (chosen) {
    const warm = ink('--warm');
    const fast = chosen.stepS < SUB_HOURLY_S;
    if (fast) {
      stripe(chosen.outsideC, chosen.stepS, warm, 1.2, [1.5, 2]);
      stripe(chosen.insideC, chosen.stepS, ink('--ink'), 1.6);
    } else {
      line(chosen.outsideC, chosen.stepS, warm, 0.9, 0, [1.5, 2]);
      line(chosen.insideC, chosen.stepS, ink('--ink'), 2);
    }
  }
  context.restore();
}
