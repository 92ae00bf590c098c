import { type Day, dayNumber } from '../../measure/day.ts';
import { say } from '../../wording/say.ts';
import { sayShortDay } from '../parts/dates.ts';
import { useWidth } from '../winter-line/winter-line.tsx';

const HEIGHT = 170;

/** Mass over time as one line with a mark for each weighing; the list beneath holds the figures. */
export function GrowthChart(props: {
  readonly points: readonly { readonly day: Day; readonly massG: number }[];
  readonly mass: (massG: number) => string;
}) {
  const [ref, width] = useWidth();
  const points = [...props.points].sort((a, b) => (a.day < b.day ? -1 : 1));
  const first = points[0];
  const last = points.at(-1);
  if (!first || !last) return null;
  const from = dayNumber(first.day);
  const days = Math.max(1, dayNumber(last.day) - from);
  const low = Math.min(...points.map((one) => one.massG));
  const high = Math.max(...points.map((one) => one.massG));
  const spread = Math.max(high - low, high * 0.02);
  const x = (day: Day) => 64 + ((width - 74) * (dayNumber(day) - from)) / days;
  const y = (massG: number) => 14 + ((HEIGHT - 48) * (high - massG)) / spread;
  return (
    <figure className="growth">
      <div ref={ref}>
        {width > 0 ? (
          <svg
            width={width}
            height={HEIGHT}
            viewBox={`0 0 ${width} ${HEIGHT}`}
            role="img"
            aria-label={say('web.weigh.chart')}
          >
            {[high, low].map((massG) => (
              <g key={massG}>
                <line className="wl-rule" x1={64} x2={width - 4} y1={y(massG)} y2={y(massG)} />
                <text x={56} y={y(massG) + 4} textAnchor="end">
                  {props.mass(massG)}
                </text>
              </g>
            ))}
            <polyline className="growth-line" points={points.map((one) => `${x(one.day)},${y(one.massG)}`).join(' ')} />
            {points.map((one, index) => (
              <circle
                // biome-ignore lint/suspicious/noArrayIndexKey: two weighings of one day may be the same
                key={index}
                className="growth-mark"
                cx={x(one.day)}
                cy={y(one.massG)}
                r={3}
              />
            ))}
            <text x={64} y={HEIGHT - 6}>
              {sayShortDay(first.day)} {first.day.slice(0, 4)}
            </text>
            <text x={width - 4} y={HEIGHT - 6} textAnchor="end">
              {sayShortDay(last.day)} {last.day.slice(0, 4)}
            </text>
          </svg>
        ) : null}
      </div>
    </figure>
  );
}
