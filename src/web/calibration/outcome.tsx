import type { Remote } from 'comlink';
import { useEffect, useMemo, useState } from 'react';
import type { AnswerOverWinters, Spread } from '../../heat/answer.ts';
import { figure, percent } from '../../measure/figures.ts';
import type { BoxRecord, PlaceRecord } from '../../schema/housing.ts';
import type { Winters } from '../../schema/winters.ts';
import { say } from '../../wording/say.ts';
import { ask } from '../data/client.ts';
import { useFigures, useGroup } from '../data/group.ts';
import { readAgain, useAnswer } from '../data/queries.ts';
import { Trouble } from '../parts/state.tsx';
import { capital, sayMessage, Why } from '../parts/text.tsx';
import type { ProbeReadings } from '../readings/probe-readings.ts';
import { TemperatureChart } from '../readings/temperature-chart.tsx';
import type { CalibrationWorker, DryRun, Fitted, Redone, Refused } from './calibration.worker.ts';

const HOUR_MS = 3_600_000;
const nothing: readonly never[] = [];
const ignore = () => undefined;

interface OutcomeProps {
  readonly result: Fitted | Refused;
  readonly dryRun: DryRun;
  readonly remote: Remote<CalibrationWorker> | undefined;
  readonly names: readonly string[];
  readonly box: BoxRecord;
  readonly place: PlaceRecord;
}

/** What was found, how well it is known, and what it changes; or why nothing could be found. */
export function Outcome(props: OutcomeProps) {
  const { result } = props;
  if (result.outcome === 'refused')
    return (
      <section className="note" data-level="act" role="status">
        <h2>{say('web.calibration.refused')}</h2>
        <ul>
          {result.reasons.map((reason) => (
            <li key={reason.key}>{sayMessage(reason)}</li>
          ))}
        </ul>
        <p>{say('web.calibration.refusedThen')}</p>
      </section>
    );
  return <Found {...props} result={result} />;
}

function Found({ result, dryRun, remote, names, box, place }: OutcomeProps & { readonly result: Fitted }) {
  const { difference } = useFigures();
  const columns = ['factor', 'value', 'interval', 'error'] as const;
  const label = (column: (typeof columns)[number]) => say(`web.calibration.col.${column}`);
  return (
    <section aria-labelledby="found">
      <h2 id="found">{say('web.calibration.found')}</h2>
      <table data-fold>
        <thead>
          <tr>
            {columns.map((column) => (
              <th scope="col" key={column} data-number={column === 'factor' ? undefined : ''}>
                {label(column)}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {result.factors.map((factor) => (
            <tr key={factor.id}>
              <th scope="row">{capital(factor.name)}</th>
              <td data-number data-label={label('value')}>
                {say('web.calibration.times', { factor: figure(factor.value, 2) })}
              </td>
              <td data-number data-label={label('interval')}>
                {say('web.readings.span', { low: figure(factor.low, 2), high: figure(factor.high, 2) })}
              </td>
              <td data-number data-label={label('error')}>
                {percent(Math.exp(factor.logError) - 1)}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {result.untold.length > 0 ? (
        <ul>
          {result.untold.map(({ name, reason }) => (
            <li key={name}>{say('web.calibration.untold', { name: capital(name), why: sayMessage(reason) })}</li>
          ))}
        </ul>
      ) : null}
      <p>
        {say('web.calibration.left', {
          count: result.readings,
          what: names
            .map((name, index) => [name, result.residualSdK[index] ?? Number.NaN] as const)
            .filter(([, sd]) => Number.isFinite(sd))
            .map(([name, sd]) => `${name} ${difference(sd, 2)}`)
            .join(', '),
        })}{' '}
        {result.holdOut
          ? say('web.calibration.holdOut', {
              rms: difference(result.holdOut.rmsK, 2),
              bias: difference(result.holdOut.biasK, 2),
            })
          : say('web.calibration.noHoldOut')}
      </p>
      <FitChart result={result} dryRun={dryRun} names={names} />
      {remote ? <RedoneForecast remote={remote} key={JSON.stringify(result.factors)} /> : null}
      <Save result={result} dryRun={dryRun} box={box} place={place} />
      <Why label={say('web.calibration.how')}>
        <p>{say('web.calibration.howText')}</p>
      </Why>
    </section>
  );
}

/** What was read as a full line, what the calibrated house would have read as a dashed one in its 90 % interval. */
function FitChart({ result, dryRun, names }: Pick<OutcomeProps, 'dryRun' | 'names'> & { readonly result: Fitted }) {
  const readings = useMemo(
    () =>
      names.flatMap((name, index): ProbeReadings[] => {
        const probe = dryRun.probes[index];
        const drawn = result.drawn[index];
        if (!probe || !drawn) return [];
        const empty = { bucketMs: 1, humidity: [], maxMin: [] };
        const { atMs, tempC } = probe;
        // Before the first reading there is nothing to compare with.
        const skip = Math.max(0, Math.ceil(((atMs[0] ?? drawn.startMs) - drawn.startMs) / HOUR_MS));
        const fitted = {
          atMs: Array.from(drawn.meanC.slice(skip), (_, hour) => drawn.startMs + (skip + hour) * HOUR_MS),
          meanC: [...drawn.meanC.slice(skip)],
          minC: [...drawn.lowC.slice(skip)],
          maxC: [...drawn.highC.slice(skip)],
        };
        return [
          {
            probe: { id: `${index}`, name, offsetC: 0, expectedIntervalS: 3600 },
            chart: {
              ...empty,
              probeId: `${index}`,
              count: atMs.length,
              atMs: [...atMs],
              minC: [...tempC],
              meanC: [...tempC],
              maxC: [...tempC],
            },
          },
          {
            probe: {
              id: `${index} fitted`,
              name: say('web.calibration.fitted', { name }),
              offsetC: 0,
              expectedIntervalS: 3600,
            },
            chart: { ...empty, probeId: `${index} fitted`, count: fitted.atMs.length, ...fitted },
          },
        ];
      }),
    [result, dryRun, names],
  );
  const { startMs, airTempC } = dryRun.weather;
  const firstMs = Math.min(...dryRun.probes.map((probe) => probe.atMs[0] ?? Number.POSITIVE_INFINITY));
  const [view, setView] = useState({
    fromMs: Number.isFinite(firstMs) ? firstMs : startMs,
    toMs: startMs + airTempC.length * HOUR_MS,
  });
  return (
    <TemperatureChart
      readings={readings}
      view={view}
      onView={setView}
      onCursor={ignore}
      notices={nothing}
      dryRuns={nothing}
    />
  );
}

/** Eleven weeks about the coldest time of the winters handed out. */
const SLEEP_DAYS = 77;

function RedoneForecast({ remote }: { readonly remote: Remote<CalibrationWorker> }) {
  const group = useGroup();
  const { temperature, difference } = useFigures();
  const winters = useAnswer<Winters>('weather/winters');
  const [redone, setRedone] = useState<Redone>();
  const [trouble, setTrouble] = useState<Error>();
  const list = winters.data?.winters;
  const from = group.latitudeDeg >= 0 ? '12-01' : '06-01';
  useEffect(() => {
    if (!list || list.length === 0) return;
    let over = false;
    remote.redo(list, { from, days: SLEEP_DAYS }).then(
      (answer) => {
        if (!over) setRedone(answer);
      },
      (problem: unknown) => {
        if (!over) setTrouble(problem as Error);
      },
    );
    return () => {
      over = true;
    };
  }, [remote, list, from]);
  if (winters.error && !list) return <p className="note">{winters.error.message}</p>;
  if (trouble) return <Trouble error={trouble} />;
  if (!redone)
    return (
      <p className="soft" role="status">
        {say('web.builder.working')}
      </p>
    );
  const spread = (of: Spread | undefined, tell: (value: number) => string) =>
    of ? say('web.builder.spread', { middle: tell(of.median), low: tell(of.low), high: tell(of.high) }) : '';
  const hours = (value: number) => say('web.readings.hours', { count: figure(value) });
  const heads = [
    say('web.builder.col.band', { low: temperature(3, 0), high: temperature(8, 0) }),
    say('web.builder.col.under', { limit: temperature(2, 0) }),
    say('web.builder.col.over', { limit: temperature(10, 0) }),
  ];
  const row = (name: string, answer: AnswerOverWinters) => (
    <tr>
      <th scope="row">{name}</th>
      {[
        spread(answer.steadiness, (value) => percent(value)),
        spread(answer.hoursUnder.find((one) => one.limitC === 2)?.hours, hours),
        spread(answer.hoursOver.find((one) => one.limitC === 10)?.hours, hours),
      ].map((cell, index) => (
        <td data-number data-label={heads[index]} key={heads[index]}>
          {cell}
        </td>
      ))}
    </tr>
  );
  return (
    <>
      <h3>{say('web.calibration.redone')}</h3>
      <table data-fold>
        <thead>
          <tr>
            <th scope="col">{say('web.builder.col.build')}</th>
            {heads.map((head) => (
              <th scope="col" data-number key={head}>
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {row(say('web.calibration.before'), redone.before)}
          {row(say('web.calibration.after'), redone.after)}
        </tbody>
      </table>
      <p>
        {say('web.calibration.interval', {
          width: difference(redone.halfWidthK),
          coldest: temperature(redone.coldestC),
          low: temperature(redone.coldestLowC),
        })}
      </p>
    </>
  );
}

/** Keeps what was learnt with the place and the box: every later forecast goes by it. */
function Save({
  result,
  dryRun,
  box,
  place,
}: Pick<OutcomeProps, 'dryRun' | 'box' | 'place'> & { readonly result: Fitted }) {
  const [said, setSaid] = useState('');
  const [trouble, setTrouble] = useState<Error>();
  const save = async () => {
    setTrouble(undefined);
    try {
      if (place.description.kind === 'building')
        await ask(`places/${place.id}`, { method: 'PUT', body: { ...place, description: result.place } });
      // The animal belongs to the box as described, though it was not in it for the dry run.
      const { animal } = dryRun.box;
      await ask(`boxes/${box.id}`, {
        method: 'PUT',
        body: { ...box, description: { ...result.box, ...(animal ? { animal } : {}) } },
      });
      setSaid(say('web.calibration.saved'));
    } catch (problem) {
      setTrouble(problem as Error);
    }
  };
  useEffect(() => () => void readAgain('places', 'boxes'), []);
  return (
    <>
      {trouble ? <Trouble error={trouble} /> : null}
      <div className="actions">
        <button type="button" className="button" data-kind="main" onClick={save} disabled={said !== ''}>
          {say('web.calibration.save')}
        </button>
        <span role="status">{said}</span>
      </div>
    </>
  );
}
