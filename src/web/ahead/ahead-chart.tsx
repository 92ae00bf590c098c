import type { BoxCourse, OutlookLimits } from '../../heat/box-outlook.ts';
import { celsiusToFahrenheit, fahrenheitToCelsius } from '../../measure/units.ts';
import { zoneOffsetMs } from '../../measure/zone.ts';
import { say } from '../../wording/say.ts';
import { useFigures } from '../data/group.ts';
import { useWidth } from '../winter-line/winter-line.tsx';
import { shortWeekday } from './when.ts';

const HEIGHT = 260;
const LEFT = 54;
const RIGHT = 6;
const TOP = 22;
const FOOT = 28;
const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;
/** As much of the readings as the forecast starts from. */
export const BEFORE_MS = 2 * DAY_MS;
/** A silence longer than this is a gap in the line of readings. */
const GAP_MS = 3 * HOUR_MS;

/** The forecast with the readings before it. */
export interface BoxAhead extends BoxCourse {
  readonly limits: OutlookLimits;
  readonly before: readonly (readonly [number, number])[];
}

/** The readings of two days, and after them the course expected with its 90 % range, against the limits of the stay. */
export function AheadChart({ ahead }: { readonly ahead: BoxAhead }) {
  const figures = useFigures();
  const [ref, width] = useWidth();
  const { startMs, stepMs, tempsC, lowC, highC, limits, before } = ahead;
  const atOf = (k: number) => startMs + k * stepMs;
  const fromMs = startMs - BEFORE_MS;
  const toMs = atOf(tempsC.length - 1);
  const band = [limits.coldC[0]!, limits.warmC[0]!] as const;
  const all = [
    ...before.map(([, tempC]) => tempC),
    ...Array.from(lowC),
    ...Array.from(highC),
    band[0] - 1,
    band[1] + 1,
  ];
  const [bottomC, topC] = [Math.min(...all) - 0.3, Math.max(...all) + 0.3];
  const x = (ms: number) => LEFT + ((width - LEFT - RIGHT) * (ms - fromMs)) / (toMs - fromMs);
  const y = (tempC: number) => TOP + ((HEIGHT - TOP - FOOT) * (topC - tempC)) / (topC - bottomC);
  const points = (values: ArrayLike<number>) => Array.from(values, (tempC, k) => `${x(atOf(k))},${y(tempC)}`);
  const further = [...limits.coldC.slice(1), ...limits.warmC.slice(1)].filter((one) => one > bottomC && one < topC);
  return (
    <figure className="growth ahead">
      <div ref={ref}>
        {width > 0 ? (
          <svg
            width={width}
            height={HEIGHT}
            viewBox={`0 0 ${width} ${HEIGHT}`}
            role="img"
            aria-label={say('web.ahead.chart')}
          >
            <rect
              className="ahead-band"
              x={LEFT}
              width={width - LEFT - RIGHT}
              y={y(band[1])}
              height={y(band[0]) - y(band[1])}
            />
            {band.map((tempC) => (
              <line key={tempC} className="wl-rule" x1={LEFT} x2={width - RIGHT} y1={y(tempC)} y2={y(tempC)} />
            ))}
            {midnights(fromMs, toMs, figures.zone).map((ms) => (
              <g key={ms}>
                <line className="wl-rule" x1={x(ms)} x2={x(ms)} y1={TOP} y2={HEIGHT - FOOT + 5} />
                {x(ms) + 32 < width ? (
                  <text x={x(ms) + 4} y={HEIGHT - FOOT + 18}>
                    {shortWeekday(ms, figures.zone)}
                  </text>
                ) : null}
              </g>
            ))}
            {ticks(bottomC, topC, figures.temperatureUnit === '°F').map(({ tempC, label }) => (
              <text key={label} x={LEFT - 8} y={y(tempC) + 4} textAnchor="end">
                {label} {figures.temperatureUnit}
              </text>
            ))}
            <polygon className="mass-nine" points={[...points(highC), ...points(lowC).reverse()].join(' ')} />
            {further.map((tempC) => (
              <line key={tempC} className="mass-limit" x1={LEFT} x2={width - RIGHT} y1={y(tempC)} y2={y(tempC)} />
            ))}
            {pieces(before).map((piece) => (
              <polyline
                key={piece[0]![0]}
                className="growth-line"
                points={piece.map(([ms, tempC]) => `${x(ms)},${y(tempC)}`).join(' ')}
              />
            ))}
            <polyline className="mass-likely" points={points(tempsC).join(' ')} />
            <line className="wl-today" x1={x(startMs)} x2={x(startMs)} y1={TOP - 6} y2={HEIGHT - FOOT} />
            <text className="ahead-now" x={x(startMs) + 4} y={TOP - 8}>
              {say('web.ahead.now')}
            </text>
          </svg>
        ) : null}
      </div>
      <figcaption className="small soft">{say('web.ahead.caption')}</figcaption>
    </figure>
  );
}

/** Readings in stretches without a long silence. */
function pieces(before: BoxAhead['before']): (readonly (readonly [number, number])[])[] {
  const out: (readonly [number, number])[][] = [];
  for (const one of before) {
    const last = out.at(-1)?.at(-1);
    if (last && one[0] - last[0] <= GAP_MS) out.at(-1)!.push(one);
    else out.push([one]);
  }
  return out;
}

function midnights(fromMs: number, toMs: number, zone: string): number[] {
  const out: number[] = [];
  const wall = (ms: number) => ms + zoneOffsetMs(ms, zone);
  let day = Math.ceil(wall(fromMs) / DAY_MS);
  for (; ; day++) {
    // The offset of the day before is right but for the hour in which the clock itself is moved.
    const ms = day * DAY_MS - zoneOffsetMs(day * DAY_MS - DAY_MS / 2, zone);
    if (ms > toMs) return out;
    out.push(ms);
  }
}

/** Whole degrees of the unit, at most nine of them. */
function ticks(bottomC: number, topC: number, fahrenheit: boolean): { tempC: number; label: string }[] {
  const [low, high] = fahrenheit ? [celsiusToFahrenheit(bottomC), celsiusToFahrenheit(topC)] : [bottomC, topC];
  const step = [1, 2, 5, 10, 20].find((one) => (high - low) / one <= 8) ?? 50;
  const out: { tempC: number; label: string }[] = [];
  for (let value = Math.ceil(low / step) * step; value <= high; value += step)
    out.push({ tempC: fahrenheit ? fahrenheitToCelsius(value) : value, label: String(value).replace('-', '\u2212') });
  return out;
}
