import { Link } from '@tanstack/react-router';
import { type Outlook, type OutlookLimits, outlookOf, type Passing } from '../../heat/box-outlook.ts';
import type { BoxForecastAnswer, NoForecastReason } from '../../schema/box-forecast.ts';
import type { Probe, ReadingChart } from '../../schema/reading.ts';
import type { Stay } from '../../schema/stay.ts';
import { type MessageKey, say } from '../../wording/say.ts';
import { useFigures, useGroup } from '../data/group.ts';
import { useAnswer } from '../data/queries.ts';
import { sayInstant } from '../parts/dates.ts';
import { Answered, Remembered } from '../parts/state.tsx';
import { capital, Why } from '../parts/text.tsx';
import { AheadChart, BEFORE_MS, type BoxAhead } from './ahead-chart.tsx';
import { AheadTable } from './ahead-table.tsx';
import { sayWhen } from './when.ts';

const HOUR_MS = 3_600_000;
/** A course that moves by less than this is told as steady, K. */
const STEADY_K = 0.3;
/** A forecast from fewer hours of readings than this says so. */
const ENOUGH_H = 36;

/** The next three days in the box of a stay: in words, as a line after the last two days of readings, and as a table. */
export function Ahead({ stay }: { readonly stay: Stay }) {
  const { zone } = useFigures();
  const path = `stays/${stay.id}/forecast`;
  const answer = useAnswer<BoxForecastAnswer>(path);
  // It comes into sight whole: the rest of the animal's page does not wait for it.
  if (answer.data === undefined && !answer.error) return null;
  return (
    <section aria-labelledby="ahead">
      <h2 id="ahead">{say('web.ahead.title')}</h2>
      <Remembered path={path} zone={zone} />
      <Answered of={answer}>
        {(told) => (told.state === 'none' ? <None told={told} stay={stay} /> : <Told told={told} stay={stay} />)}
      </Answered>
    </section>
  );
}

type Found = Extract<BoxForecastAnswer, { state: 'forecast' }>;

const places = {
  'no-thermometer': ['/readings/thermometers', 'web.ahead.to.thermometers'],
  'no-readings': ['/readings/thermometers', 'web.ahead.to.thermometers'],
  'no-weather': ['/readings/thermometers', 'web.ahead.to.weather'],
  'old-weather': ['/readings/thermometers', 'web.ahead.to.weather'],
  'short-weather': ['/readings/thermometers', 'web.ahead.to.weather'],
} as const satisfies Partial<Record<NoForecastReason, readonly [string, MessageKey]>>;

/** Why there is no forecast, and the way to what is missing. */
function None({ told, stay }: { readonly told: Extract<BoxForecastAnswer, { state: 'none' }>; readonly stay: Stay }) {
  const way = places[told.reason as keyof typeof places];
  return (
    <p>
      {told.what} {way ? <Link to={way[0]}>{say(way[1])}</Link> : null}
      {told.reason === 'place-unknown' ? (
        <Link to="/places/boxes/$boxId" params={{ boxId: stay.boxId }}>
          {say('web.ahead.to.place')}
        </Link>
      ) : null}
    </p>
  );
}

function Told({ told, stay }: { readonly told: Found; readonly stay: Stay }) {
  const { temperature, zone } = useFigures();
  const { demonstration } = useGroup();
  const probes = useAnswer<readonly Probe[]>('probes').data;
  const probe = probes?.find((one) => one.boxId === stay.boxId);
  const startMs = Date.parse(told.madeAt);
  const iso = (ms: number) => new Date(ms).toISOString();
  const chart = useAnswer<ReadingChart>(
    `readings?probeId=${probe?.id}&from=${iso(startMs - BEFORE_MS)}&to=${iso(startMs)}&buckets=300`,
    probe !== undefined,
  ).data;
  const ahead: BoxAhead = {
    startMs,
    stepMs: HOUR_MS,
    tempsC: told.tempC,
    lowC: told.low,
    highC: told.high,
    limits: told.limits,
    before: chart ? chart.atMs.map((atMs, index) => [atMs, chart.meanC[index] as number] as const) : [],
  };
  const outlook = outlookOf(ahead, told.limits);
  const readH = (Date.parse(told.readings.to) - Date.parse(told.readings.from)) / HOUR_MS;
  return (
    <>
      <p>{capital(courseInWords(outlook, startMs, zone, temperature))}</p>
      <Passings outlook={outlook} limits={told.limits} nowMs={startMs} />
      {told.fits ? null : (
        <p>
          {say('web.ahead.misfit')}{' '}
          <Link to="/places/boxes/$boxId/dry-run" params={{ boxId: stay.boxId }}>
            {say('web.ahead.to.dryRun')}
          </Link>
        </p>
      )}
      {readH < ENOUGH_H ? <p>{say('web.ahead.few', { count: Math.max(1, Math.round(readH)) })}</p> : null}
      <AheadChart ahead={ahead} />
      <p className="small soft">
        {say('web.ahead.made', { at: sayInstant(startMs, zone) })}
        {demonstration ? ` ${say('web.ahead.demonstration')}` : ''}
      </p>
      <details className="why">
        <summary>{say('web.ahead.table')}</summary>
        <div className="wide">
          <AheadTable ahead={ahead} />
        </div>
      </details>
      <Why label={say('web.ahead.why')}>
        <p>{say('web.ahead.how')}</p>
      </Why>
    </>
  );
}

/** Where the box goes, in a sentence: steady, down to its coldest, or up from it. */
function courseInWords(outlook: Outlook, nowMs: number, zone: string, temperature: (tempC: number) => string): string {
  const { coldest, warmest, fromMs, toMs } = outlook;
  const count = Math.round((toMs - fromMs) / HOUR_MS);
  if (warmest.tempC - coldest.tempC < STEADY_K)
    return say('web.ahead.steady', { temp: temperature((coldest.tempC + warmest.tempC) / 2), count });
  const warm = { high: temperature(warmest.tempC), warmWhen: sayWhen(warmest.atMs, nowMs, zone) };
  if (coldest.atMs === fromMs) return say('web.ahead.rises', warm);
  return say('web.ahead.falls', {
    low: temperature(coldest.tempC),
    coldWhen: sayWhen(coldest.atMs, nowMs, zone),
    ...warm,
  });
}

interface PassingsProps {
  readonly outlook: Outlook;
  readonly limits: OutlookLimits;
  readonly nowMs: number;
}

/** Which limits are passed and when, the way to what to do; or that none is. */
function Passings({ outlook, limits, nowMs }: PassingsProps) {
  const { temperature, zone } = useFigures();
  const { passings, fromMs, toMs } = outlook;
  const likely = passings.filter((one) => one.likely);
  const possible = passings.find((one) => !one.likely);
  const digits = limits.coldC.concat(limits.warmC).every(Number.isInteger) ? 0 : 1;
  const degrees = (tempC: number) => temperature(tempC, digits);
  const told = (one: Passing) =>
    say(`web.ahead.${one.already ? 'is' : 'goes'}.${one.side}`, {
      limit: degrees(one.limitC),
      when: sayWhen(one.atMs, nowMs, zone),
      span:
        one.backMs === undefined
          ? ''
          : say('web.ahead.span', { count: Math.max(1, Math.round((one.backMs - one.atMs) / HOUR_MS)) }),
    });
  return (
    <>
      {likely.length === 0 ? (
        <p>
          {say('web.ahead.stays', {
            low: degrees(limits.coldC[0]!),
            high: degrees(limits.warmC[0]!),
            count: Math.round((toMs - fromMs) / HOUR_MS),
          })}
        </p>
      ) : (
        <ul className="ahead-limits">
          {likely.map((one) => (
            <li key={`${one.side}${one.limitC}`}>{told(one)}</li>
          ))}
        </ul>
      )}
      {possible ? (
        <p>
          {say(`web.ahead.may.${possible.side}`, {
            limit: degrees(possible.limitC),
            when: sayWhen(possible.atMs, nowMs, zone),
          })}
        </p>
      ) : null}
      {(['cold', 'warm'] as const)
        .filter((side) => likely.some((one) => one.side === side))
        .map((side) => (
          <p key={side}>
            {say(`web.ahead.do.${side}`)}{' '}
            <Link to="/now/$pageId" params={{ pageId: side === 'cold' ? 'frost' : 'too-warm' }}>
              {say('web.round.whatToDo')}
            </Link>
          </p>
        ))}
    </>
  );
}
