import { type KeyboardEvent, type PointerEvent, useCallback, useEffect, useMemo, useRef, useState } from 'react';
import { zoneOffsetMs } from '../../measure/zone.ts';
import type { Notice } from '../../schema/notice.ts';
import { say } from '../../wording/say.ts';
import { useFigures } from '../data/group.ts';
import { sayInstant } from '../parts/dates.ts';
import { useWidth } from '../winter-line/winter-line.tsx';
import { seriesOf } from './chart-facts.ts';
import { type ChartInks, type ChartStretch, type ChartView, type ChartWords, LongChart } from './long-chart.ts';
import type { ProbeReadings } from './probe-readings.ts';

const HEIGHT = 360;
const BAND_C = [3, 8] as const;
const HOUR_MS = 3_600_000;
const LEAST_MS = 2 * HOUR_MS;
const MOST_MS = 3 * 366 * 24 * HOUR_MS;
const RESTED_MS = 180;
/** Lines are told apart by dash as well as by weight, so that the chart prints in black and white. */
const dashes: readonly (readonly number[])[] = [[], [7, 3], [2, 3], [10, 3, 2, 3], [4, 4], [1, 2]];

interface ChartProps {
  readonly readings: readonly ProbeReadings[];
  readonly view: ChartView;
  /** Told when the view has come to rest. */
  readonly onView: (view: ChartView) => void;
  readonly onCursor: (atMs: number) => void;
  readonly notices: readonly Notice[];
  /** For each box shown, when it stood empty. */
  readonly dryRuns: readonly { readonly name: string; readonly stretches: readonly ChartStretch[] }[];
}

/** All thermometers on one canvas, moved by hand, wheel or keys. A silence longer than expected is a gap, never a line. */
export function TemperatureChart({ readings, view, onView, onCursor, notices, dryRuns }: ChartProps) {
  const figures = useFigures();
  const [box, width] = useWidth();
  const canvas = useRef<HTMLCanvasElement>(null);
  const chart = useRef<LongChart | undefined>(undefined);
  const rest = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);
  const [told, setTold] = useState('');
  const words = useMemo(() => wordsFor(figures.temperatureUnit, figures.zone), [figures.temperatureUnit, figures.zone]);
  const lines = useMemo(
    () =>
      readings.map((one, index) => ({
        series: seriesOf(one),
        outdoors: one.probe.outdoors === true,
        dash: dashes[index % dashes.length] as readonly number[],
      })),
    [readings],
  );

  const settle = useCallback(() => {
    clearTimeout(rest.current);
    rest.current = setTimeout(() => chart.current && onView(chart.current.view), RESTED_MS);
  }, [onView]);

  useEffect(() => {
    const element = canvas.current;
    if (!element) return;
    const made = new LongChart(element, HEIGHT, inksOf(element));
    chart.current = made;
    const paint = () => made.setInks(inksOf(element));
    const dark = matchMedia('(prefers-color-scheme: dark)');
    const printed = matchMedia('print');
    for (const media of [dark, printed]) media.addEventListener('change', paint);
    void document.fonts.ready.then(paint);
    // A page scrolls by the wheel: sideways or with the control key it moves the chart instead.
    const wheel = (event: WheelEvent) => {
      const sideways =
        Math.abs(event.deltaX) > Math.abs(event.deltaY) ? event.deltaX : event.shiftKey ? event.deltaY : 0;
      if (sideways === 0 && !event.ctrlKey) return;
      event.preventDefault();
      if (sideways !== 0) made.pan(-sideways);
      else made.zoom(Math.exp(event.deltaY / 400), made.msAt(event.offsetX), LEAST_MS, MOST_MS);
      settle();
    };
    element.addEventListener('wheel', wheel, { passive: false });
    return () => {
      made.stop();
      for (const media of [dark, printed]) media.removeEventListener('change', paint);
      element.removeEventListener('wheel', wheel);
      clearTimeout(rest.current);
      chart.current = undefined;
    };
  }, [settle]);

  useEffect(() => {
    if (width > 0) chart.current?.resize(width);
  }, [width]);
  useEffect(() => {
    const now = chart.current;
    if (!now) return;
    now.setView(view);
    now.setData({
      lines,
      flags: notices.map((notice) => ({ atMs: Date.parse(notice.fromAt), actNow: notice.level === 'act-now' })),
      dryRuns: dryRuns.map((one) => one.stretches),
      bandC: BAND_C,
      words,
    });
  }, [lines, notices, dryRuns, view, words]);

  const tell = (atMs: number) => {
    const now = chart.current;
    if (!now) return;
    now.setCursor(atMs);
    onCursor(atMs);
    const what = readings.flatMap(({ probe }, index) => {
      const near = now.nearest(index, atMs);
      return near ? [`${probe.name} ${figures.temperature(near.meanC)}`] : [];
    });
    setTold(
      say('web.readings.at', {
        at: sayInstant(atMs, figures.zone),
        what: what.length > 0 ? what.join(', ') : say('web.readings.gap'),
      }),
    );
  };
  const hand = useHand(chart, settle, tell);
  const move = (what: 'earlier' | 'later' | 'closer' | 'farther') => {
    const now = chart.current;
    if (!now) return;
    const { fromMs, toMs } = now.view;
    if (what === 'earlier' || what === 'later') now.pan((what === 'earlier' ? 0.5 : -0.5) * now.plotWidth);
    else {
      const around =
        now.cursorMs !== undefined && now.cursorMs > fromMs && now.cursorMs < toMs ? now.cursorMs : (fromMs + toMs) / 2;
      now.zoom(what === 'closer' ? 0.5 : 2, around, LEAST_MS, MOST_MS);
    }
    settle();
  };
  const onKey = (event: KeyboardEvent) => {
    const now = chart.current;
    if (!now) return;
    const { fromMs, toMs } = now.view;
    const arrow = event.key === 'ArrowLeft' ? -1 : event.key === 'ArrowRight' ? 1 : 0;
    if (arrow !== 0 && event.shiftKey) move(arrow < 0 ? 'earlier' : 'later');
    else if (arrow !== 0) {
      const next = (now.cursorMs ?? (arrow < 0 ? toMs : fromMs)) + (arrow * (toMs - fromMs)) / 100;
      if (next < fromMs || next > toMs) {
        now.pan(arrow * -0.25 * now.plotWidth);
        settle();
      }
      tell(next);
    } else if (event.key === '+' || event.key === '=') move('closer');
    else if (event.key === '-') move('farther');
    else return;
    event.preventDefault();
  };

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
        {/* biome-ignore lint/a11y/noInteractiveElementToNoninteractiveRole: the keyboard reads and moves the chart here */}
        <canvas
          ref={canvas}
          className="long-chart"
          height={HEIGHT}
          role="application"
          aria-label={say('web.readings.chart', { count: readings.length })}
          tabIndex={0}
          onKeyDown={onKey}
          {...hand}
        />
      </div>
      <p className="small chart-told" role="status" aria-live="polite">
        {told}
      </p>
      {dryRuns.length > 0 ? (
        <p className="small soft">
          {say('web.readings.dryRuns', {
            boxes: dryRuns.map((one) => one.name).join(', '),
          })}
        </p>
      ) : null}
      <div className="actions no-print">
        {(['earlier', 'later', 'closer', 'farther'] as const).map((what) => (
          <button type="button" className="button" data-kind="quiet" key={what} onClick={() => move(what)}>
            {say(`web.readings.move.${what}`)}
          </button>
        ))}
      </div>
      <figcaption className="small soft no-print">{say('web.readings.keys')}</figcaption>
    </figure>
  );
}

/** One finger or the mouse pans, two fingers zoom, a tap or the resting mouse reads. */
function useHand(chart: { readonly current: LongChart | undefined }, settle: () => void, tell: (atMs: number) => void) {
  const down = useRef(new Map<number, number>());
  const moved = useRef(0);
  return {
    onPointerDown: (event: PointerEvent<HTMLCanvasElement>) => {
      event.currentTarget.setPointerCapture(event.pointerId);
      if (down.current.size === 0) moved.current = 0;
      down.current.set(event.pointerId, event.nativeEvent.offsetX);
    },
    onPointerMove: (event: PointerEvent<HTMLCanvasElement>) => {
      const now = chart.current;
      const x = event.nativeEvent.offsetX;
      const before = down.current.get(event.pointerId);
      if (!now) return;
      if (before === undefined) {
        if (event.pointerType === 'mouse') tell(now.msAt(x));
        return;
      }
      const other = [...down.current].find(([id]) => id !== event.pointerId)?.[1];
      if (other === undefined) now.pan(x - before);
      else if (Math.abs(x - other) > 8)
        now.zoom(Math.abs(before - other) / Math.abs(x - other), now.msAt((x + other) / 2), LEAST_MS, MOST_MS);
      moved.current += Math.abs(x - before);
      down.current.set(event.pointerId, x);
      settle();
    },
    onPointerUp: (event: PointerEvent<HTMLCanvasElement>) => {
      down.current.delete(event.pointerId);
      if (moved.current < 4 && chart.current) tell(chart.current.msAt(event.nativeEvent.offsetX));
    },
    onPointerCancel: (event: PointerEvent<HTMLCanvasElement>) => {
      down.current.delete(event.pointerId);
    },
  };
}

function inksOf(element: HTMLElement): ChartInks {
  const style = getComputedStyle(element);
  const ink = (name: string) => style.getPropertyValue(`--${name}`).trim();
  return {
    ink: ink('ink'),
    soft: ink('soft'),
    rule: ink('rule'),
    leaf: ink('leaf'),
    warm: ink('warm'),
    act: ink('act'),
  };
}

/** Axes in the group's unit and by its clock: days as "12 Nov", within a day the time. */
function wordsFor(unit: string, zone: string): ChartWords {
  const day = new Intl.DateTimeFormat('en-GB', { timeZone: zone, day: 'numeric', month: 'short' });
  const month = new Intl.DateTimeFormat('en-GB', { timeZone: zone, month: 'short', year: 'numeric' });
  const time = new Intl.DateTimeFormat('en-GB', { timeZone: zone, hour: '2-digit', minute: '2-digit' });
  const fahrenheit = unit === '°F';
  return {
    degrees: (tempC) => `${Math.round(fahrenheit ? (tempC * 9) / 5 + 32 : tempC)}\u00a0${unit}`,
    instant: (atMs, stepMs) =>
      (stepMs > 400 * HOUR_MS ? month : stepMs >= 24 * HOUR_MS || time.format(atMs) === '00:00' ? day : time).format(
        atMs,
      ),
    aheadMs: (atMs) => zoneOffsetMs(atMs, zone),
    stepsC: fahrenheit ? [1, 2, 5, 10, 20].map((step) => (step * 10) / 9) : [1, 2, 5, 10, 20],
    zeroC: fahrenheit ? -160 / 9 : 0,
  };
}
