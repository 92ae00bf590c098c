import 'uplot/dist/uPlot.min.css';
import { useEffect, useRef, useState } from 'react';
import uPlot from 'uplot';
import { say } from '../../wording/say.ts';
import { useFigures } from '../data/group.ts';
import { sayInstant } from '../parts/dates.ts';
import { useWidth } from '../winter-line/winter-line.tsx';
import type { ProbeReadings } from './probe-readings.ts';

const HEIGHT = 340;
const BAND = { lowC: 3, highC: 8 };
/** Lines are told apart by dash as well as by weight, so that the chart prints in black and white. */
const dashes: readonly (number[] | undefined)[] = [undefined, [7, 3], [2, 3], [10, 3, 2, 3], [4, 4], [1, 2]];
const GAP_STRETCHES = 3;

/** All thermometers on one canvas. A silence longer than expected is a gap, never a line. */
export function TemperatureChart(props: {
  readonly readings: readonly ProbeReadings[];
  readonly fromMs: number;
  readonly toMs: number;
}) {
  const { readings, fromMs, toMs } = props;
  const figures = useFigures();
  const [box, width] = useWidth();
  const holder = useRef<HTMLDivElement>(null);
  const chart = useRef<uPlot | undefined>(undefined);
  const [told, setTold] = useState('');

  useEffect(() => {
    const element = holder.current;
    if (!element || width === 0) return;
    const style = getComputedStyle(element);
    const ink = (name: string) => style.getPropertyValue(name).trim();
    const fahrenheit = figures.temperatureUnit === '°F';
    const shownC = (tempC: number) => (fahrenheit ? (tempC * 9) / 5 + 32 : tempC);
    const font = '13px "Atkinson Hyperlegible Next", Verdana, sans-serif';
    const data = uPlot.join(
      readings.map(({ probe, chart: read }): uPlot.AlignedData => {
        const atS: number[] = [];
        const temps: (number | null)[] = [];
        const gapMs = Math.max(probe.expectedIntervalS * 1000 * GAP_STRETCHES, read.bucketMs * 2);
        read.atMs.forEach((atMs, index) => {
          const before = read.atMs[index - 1];
          if (before !== undefined && atMs - before > gapMs) {
            atS.push((before + 1) / 1000);
            temps.push(null);
          }
          atS.push(atMs / 1000);
          temps.push(shownC(read.meanC[index] as number));
        });
        return [atS, temps];
      }),
    );
    const plot = new uPlot(
      {
        width,
        height: HEIGHT,
        tzDate: (atS) => uPlot.tzDate(new Date(atS * 1000), figures.zone),
        scales: { x: { range: (_, low, high) => [low ?? fromMs / 1000, high ?? toMs / 1000] } },
        legend: { show: false },
        cursor: { drag: { x: true, y: false }, points: { show: false } },
        axes: [
          {
            stroke: ink('--soft'),
            font,
            space: 64,
            grid: { show: false },
            ticks: { stroke: ink('--rule'), width: 1 },
            values: (_, splits, __, ___, stepS) => splits.map((atS) => axisWords(atS, stepS, figures.zone)),
          },
          {
            stroke: ink('--soft'),
            font,
            size: 58,
            incrs: [1, 2, 5, 10, 20],
            grid: { show: false },
            ticks: { show: false },
            values: (_, values) => values.map((value) => `${value}\u00a0${figures.temperatureUnit}`),
          },
        ],
        series: [
          {},
          ...readings.map(({ probe }, index) => ({
            label: probe.name,
            stroke: probe.outdoors ? ink('--warm') : ink('--ink'),
            width: probe.outdoors ? 1 : 1.6,
            dash: dashes[index % dashes.length] ?? [],
            points: { show: false },
            spanGaps: false,
          })),
        ],
        hooks: {
          drawClear: [
            (u) => {
              const y0 = u.valToPos(shownC(BAND.highC), 'y', true);
              const y1 = u.valToPos(shownC(BAND.lowC), 'y', true);
              u.ctx.fillStyle = ink('--leaf');
              u.ctx.fillRect(u.bbox.left, y0, u.bbox.width, y1 - y0);
              u.ctx.fillStyle = ink('--rule');
              for (const y of [y0, y1]) u.ctx.fillRect(u.bbox.left, Math.round(y), u.bbox.width, 1);
            },
          ],
          setCursor: [
            (u) => {
              const at = u.cursor.idx;
              if (at === null || at === undefined) return;
              const atS = u.data[0][at];
              if (atS === undefined) return;
              const what = readings
                .map(({ probe }, index) => {
                  const value = u.data[index + 1]?.[at];
                  return value === null || value === undefined
                    ? ''
                    : `${probe.name} ${value.toFixed(1)}\u00a0${figures.temperatureUnit}`;
                })
                .filter(Boolean)
                .join(', ');
              setTold(
                say('web.readings.at', {
                  at: sayInstant(atS * 1000, figures.zone),
                  what: what || say('web.readings.gap'),
                }),
              );
            },
          ],
        },
      },
      data,
      element,
    );
    chart.current = plot;
    return () => {
      plot.destroy();
      chart.current = undefined;
    };
  }, [readings, width, fromMs, toMs, figures.zone, figures.temperatureUnit]);

  return (
    <figure className="readings-chart">
      <ul className="chart-key">
        {readings.map(({ probe }, index) => (
          <li key={probe.id}>
            <svg width="34" height="10" aria-hidden="true">
              <line
                x1="0"
                x2="34"
                y1="5"
                y2="5"
                className={probe.outdoors ? 'key-outdoors' : 'key-line'}
                strokeDasharray={dashes[index % dashes.length]?.join(' ')}
              />
            </svg>
            {probe.name}
          </li>
        ))}
      </ul>
      <div ref={box}>
        <div
          ref={holder}
          role="application"
          aria-label={say('web.readings.chart', { count: readings.length })}
          // biome-ignore lint/a11y/noNoninteractiveTabindex: the keyboard reads the chart here
          tabIndex={0}
          onKeyDown={(event) => {
            if (chart.current && steer(chart.current, event.key, fromMs, toMs)) event.preventDefault();
          }}
        />
      </div>
      <p className="small" role="status" aria-live="polite">
        {told}
      </p>
      <figcaption className="small soft no-print">{say('web.readings.keys')}</figcaption>
    </figure>
  );
}

const axisClocks = new Map<string, Intl.DateTimeFormat>();
/** Days as "12 Nov", within a day the clock. */
function axisWords(atS: number, stepS: number, zone: string): string {
  const byDay = stepS >= 86_400;
  const key = `${zone} ${byDay}`;
  let clock = axisClocks.get(key);
  if (!clock) {
    clock = new Intl.DateTimeFormat('en-GB', {
      timeZone: zone,
      ...(byDay ? { day: 'numeric', month: 'short' } : { hour: '2-digit', minute: '2-digit' }),
    });
    axisClocks.set(key, clock);
  }
  return clock.format(atS * 1000);
}

/** Keyboard on the chart: arrows move the reading line, plus and minus the span. False for any other key. */
function steer(plot: uPlot, key: string, fromMs: number, toMs: number): boolean {
  const times = plot.data[0];
  const low = plot.scales.x?.min ?? fromMs / 1000;
  const high = plot.scales.x?.max ?? toMs / 1000;
  if (key === 'ArrowRight' || key === 'ArrowLeft') {
    const now = plot.cursor.idx ?? times.length - 1;
    const next = Math.max(0, Math.min(times.length - 1, now + (key === 'ArrowRight' ? 1 : -1)));
    const at = times[next] as number;
    if (at < low || at > high) {
      const shift = at < low ? at - low : at - high;
      plot.setScale('x', { min: low + shift, max: high + shift });
    }
    plot.setCursor({ left: plot.valToPos(at, 'x'), top: plot.over.clientHeight / 2 });
    return true;
  }
  if (key === '+' || key === '=' || key === '-') {
    const middle =
      plot.cursor.idx === null || plot.cursor.idx === undefined ? (low + high) / 2 : (times[plot.cursor.idx] as number);
    const factor = key === '-' ? 2 : 0.5;
    plot.setScale('x', {
      min: Math.max(fromMs / 1000, middle - (middle - low) * factor),
      max: Math.min(toMs / 1000, middle + (high - middle) * factor),
    });
    return true;
  }
  return false;
}
