import { dayNumber } from '../../measure/day.ts';
import { percent } from '../../measure/figures.ts';
import { dayInZone } from '../../measure/zone.ts';
import { LOG_K_SPREAD, LOSS_END_LIMIT, LOSS_PLAN_LIMIT, USUAL_LOSS } from '../../physiology/constants.ts';
import { say } from '../../wording/say.ts';
import { useFigures } from '../data/group.ts';
import { sayDay, sayShortDay } from '../parts/dates.ts';
import { SourceLine, Why } from '../parts/text.tsx';
import { useWidth } from '../winter-line/winter-line.tsx';
import type { SleepMass } from './sleep-mass.ts';

const HEIGHT = 250;
const LEFT = 66;
const DAY_MS = 86_400_000;

/** How the mass will go until the waking: a sentence, the bands with the two limits, and the table beneath. */
export function MassForecastPart({ mass }: { readonly mass: SleepMass }) {
  const figures = useFigures();
  const { forecast, startMassG } = mass;
  const end = forecast.atMs.length - 1;
  const at = (ms: number) => sayDay(dayInZone(ms, figures.zone), figures.today);
  const odds = (p: number) =>
    p < 0.005 ? say('web.mass.odds.none') : p > 0.995 ? say('web.mass.odds.sure') : percent(p);
  return (
    <section aria-labelledby="mass-ahead">
      <h2 id="mass-ahead">{say('web.mass.title')}</h2>
      <p>
        {say(mass.wakeDay ? 'web.mass.atWaking' : 'web.mass.atEnd', {
          day: at(forecast.atMs[end]!),
          mass: figures.mass(forecast.p50G[end]!),
          low: figures.mass(forecast.p05G[end]!),
          high: figures.mass(forecast.p95G[end]!),
          share: percent(1 - forecast.p50G[end]! / startMassG, 1),
        })}
      </p>
      {forecast.limits.map((limit) => (
        <p key={limit.share}>
          {say('web.mass.limit', {
            share: percent(limit.share),
            mass: figures.mass((1 - limit.share) * startMassG),
            odds: odds(limit.probability[end]!),
            day: at(forecast.atMs[end]!),
          })}{' '}
          {limit.expectedMs !== undefined
            ? say('web.mass.limitLikely', { day: at(limit.expectedMs) })
            : limit.earlyMs !== undefined
              ? say('web.mass.limitEarly', { day: at(limit.earlyMs) })
              : ''}
        </p>
      ))}
      <Chart mass={mass} />
      <Why label={say('web.mass.why')}>
        <p>{say('web.mass.how')}</p>
        <SourceLine source={USUAL_LOSS.source} />
        <SourceLine source={LOG_K_SPREAD.source} />
        <SourceLine source={LOSS_PLAN_LIMIT.source} />
        <SourceLine source={LOSS_END_LIMIT.source} />
      </Why>
      <details className="why">
        <summary>{say('web.mass.table')}</summary>
        <div className="wide">
          <Table mass={mass} odds={odds} />
        </div>
      </details>
    </section>
  );
}

function Chart({ mass }: { readonly mass: SleepMass }) {
  const figures = useFigures();
  const [ref, width] = useWidth();
  const { forecast, startMassG, weighIns } = mass;
  const fromMs = weighIns[0]!.atMs;
  const toMs = forecast.atMs.at(-1)!;
  const limits = forecast.limits.map((one) => (1 - one.share) * startMassG);
  const highG = Math.max(startMassG, ...weighIns.map((one) => one.massG), forecast.p95G[0]!);
  const lowG = Math.min(...limits, forecast.p05G.at(-1)!, ...weighIns.map((one) => one.massG));
  const pad = (highG - lowG) * 0.06;
  const x = (ms: number) => LEFT + ((width - LEFT - 10) * (ms - fromMs)) / Math.max(DAY_MS, toMs - fromMs);
  const y = (massG: number) => 10 + ((HEIGHT - 42) * (highG + pad - massG)) / (highG - lowG + 2 * pad);
  const band = (low: Float64Array, high: Float64Array) =>
    [
      ...Array.from(high, (g, i) => `${x(forecast.atMs[i]!)},${y(g)}`),
      ...Array.from(low, (g, i) => `${x(forecast.atMs[i]!)},${y(g)}`).reverse(),
    ].join(' ');
  const line = (points: readonly (readonly [number, number])[]) =>
    points.map(([ms, g]) => `${x(ms)},${y(g)}`).join(' ');
  const todayMs = Date.now();
  return (
    <figure className="growth mass-ahead">
      <div ref={ref}>
        {width > 0 ? (
          <svg
            width={width}
            height={HEIGHT}
            viewBox={`0 0 ${width} ${HEIGHT}`}
            role="img"
            aria-label={say('web.mass.chart')}
          >
            <polygon className="mass-nine" points={band(forecast.p05G, forecast.p95G)} />
            <polygon className="mass-half" points={band(forecast.p25G, forecast.p75G)} />
            <text x={LEFT - 8} y={y(startMassG) + 4} textAnchor="end">
              {figures.mass(startMassG)}
            </text>
            <line className="wl-rule" x1={LEFT} x2={width - 4} y1={y(startMassG)} y2={y(startMassG)} />
            {limits.map((massG, index) => (
              <g key={massG}>
                <line className="mass-limit" x1={LEFT} x2={width - 4} y1={y(massG)} y2={y(massG)} />
                <text x={LEFT - 8} y={y(massG) + 4} textAnchor="end">
                  {figures.mass(massG)}
                </text>
                <text x={LEFT + 4} y={y(massG) - 5}>
                  {say('web.mass.limitLabel', { share: percent(forecast.limits[index]!.share) })}
                </text>
              </g>
            ))}
            <polyline className="growth-line" points={line(weighIns.map((one) => [one.atMs, one.massG] as const))} />
            <polyline
              className="mass-likely"
              points={line(Array.from(forecast.p50G, (g, i) => [forecast.atMs[i]!, g] as const))}
            />
            {weighIns.map((one) => (
              <circle key={one.atMs} className="growth-mark" cx={x(one.atMs)} cy={y(one.massG)} r={3} />
            ))}
            {todayMs > fromMs && todayMs < toMs ? (
              <line className="wl-today" x1={x(todayMs)} x2={x(todayMs)} y1={6} y2={HEIGHT - 28} />
            ) : null}
            <text x={LEFT} y={HEIGHT - 6}>
              {sayShortDay(dayInZone(fromMs, figures.zone))}
            </text>
            <text x={width - 4} y={HEIGHT - 6} textAnchor="end">
              {sayShortDay(dayInZone(toMs, figures.zone))}
            </text>
          </svg>
        ) : null}
      </div>
      <figcaption className="small soft">{say('web.mass.caption')}</figcaption>
    </figure>
  );
}

function Table({ mass, odds }: { readonly mass: SleepMass; readonly odds: (p: number) => string }) {
  const figures = useFigures();
  const { forecast } = mass;
  const end = forecast.atMs.length - 1;
  const rows = Array.from(forecast.atMs, (_, i) => i).filter((i) => i % 7 === 0 || i === end);
  const heads = {
    likely: say('web.mass.col.likely'),
    half: say('web.mass.col.half'),
    nine: say('web.mass.col.nine'),
    eight: say('web.mass.col.past', { share: percent(forecast.limits[0].share) }),
    ten: say('web.mass.col.past', { share: percent(forecast.limits[1].share) }),
  };
  const range = (low: number, high: number) =>
    say('web.readings.span', { low: figures.mass(low), high: figures.mass(high) });
  return (
    <table data-fold>
      <thead>
        <tr>
          <th scope="col">{say('web.weigh.col.day')}</th>
          {Object.values(heads).map((head) => (
            <th scope="col" data-number key={head}>
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((i) => {
          const day = dayInZone(forecast.atMs[i]!, figures.zone);
          return (
            <tr key={dayNumber(day)}>
              <th scope="row">{sayDay(day, figures.today)}</th>
              <td data-number data-label={heads.likely}>
                {figures.mass(forecast.p50G[i]!)}
              </td>
              <td data-number data-label={heads.half}>
                {range(forecast.p25G[i]!, forecast.p75G[i]!)}
              </td>
              <td data-number data-label={heads.nine}>
                {range(forecast.p05G[i]!, forecast.p95G[i]!)}
              </td>
              <td data-number data-label={heads.eight}>
                {odds(forecast.limits[0].probability[i]!)}
              </td>
              <td data-number data-label={heads.ten}>
                {odds(forecast.limits[1].probability[i]!)}
              </td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}
