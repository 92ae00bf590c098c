import { Link } from '@tanstack/react-router';
import { figure, percent } from '../../measure/figures.ts';
import { dayInZone } from '../../measure/zone.ts';
import type { Probe } from '../../schema/reading.ts';
import { say } from '../../wording/say.ts';
import { useFigures } from '../data/group.ts';
import { sayDay } from '../parts/dates.ts';
import type { Build } from './build.ts';
import type { Forecast, TooFewRead } from './forecast.worker.ts';

interface LackProps {
  readonly probes: readonly Probe[];
  readonly tooFew: TooFewRead | undefined;
  readonly build: Build;
}

/** Why a place that goes by its readings has no forecast, and what to do. */
export function ReadingsLack({ probes, tooFew, build }: LackProps) {
  const { today } = useFigures();
  if (probes.length === 0)
    return (
      <div className="empty">
        <p>{say('web.builder.read.noProbe')}</p>
        <Link to="/readings/thermometers" className="button" data-kind="main">
          {say('web.probes.title')}
        </Link>
      </div>
    );
  const days = Math.floor(tooFew?.mostDays ?? 0);
  const said = {
    from: sayDay(build.fromDay, today),
    to: sayDay(build.toDay, today),
    days: say('web.builder.read.days', { count: days }),
    least: say('web.builder.read.days', { count: Math.ceil(tooFew?.leastDays ?? 0) }),
  };
  return (
    <div className="empty">
      <p>
        {say(days > 0 ? 'web.builder.read.few' : 'web.builder.read.none', said)} {say('web.builder.read.todo')}
      </p>
      <Link to="/readings/import" className="button" data-kind="main">
        {say('web.builder.read.import')}
      </Link>
    </div>
  );
}

/** Which winters of a place the readings tell, and how far. */
export function ReadCover({ forecast }: { readonly forecast: Forecast }) {
  const { today, zone } = useFigures();
  const { read, winters } = forecast;
  if (!read) return null;
  const parts = read.winters.filter((one) => !one.whole);
  const wholes = read.winters.length - parts.length;
  const day = (ms: number) => sayDay(dayInZone(ms, zone), today);
  const ranges = winters.map(({ answer }) => answer.steadinessRange);
  return (
    <div className="read-cover">
      <p>{say('web.builder.read.goesBy', { count: winters.length })}</p>
      {parts.length > 0 ? (
        <>
          <ul>
            {parts.map(({ winter, firstMs, lastMs }) => {
              const answer = winters.find((one) => one.label === winter)?.answer;
              const known = answer ? (answer.hours - answer.unknownHours) / 24 : 0;
              return (
                <li key={winter}>
                  {say('web.builder.read.part', {
                    winter,
                    from: day(firstMs),
                    to: day(lastMs),
                    known: figure(known),
                    of: figure((answer?.hours ?? 0) / 24),
                  })}
                </li>
              );
            })}
          </ul>
          <p>
            {wholes > 0
              ? say('web.builder.read.partsOut')
              : say('web.builder.read.partsOnly', {
                  low: percent(Math.min(...ranges.map(([low]) => low))),
                  high: percent(Math.max(...ranges.map(([, high]) => high))),
                })}
          </p>
        </>
      ) : null}
    </div>
  );
}
