import { useQueries } from '@tanstack/react-query';
import { lazy, Suspense, useMemo, useState } from 'react';
import { dayInZone } from '../../measure/zone.ts';
import type { BoxRecord, PlaceRecord } from '../../schema/housing.ts';
import type { Probe, ReadingChart } from '../../schema/reading.ts';
import { say } from '../../wording/say.ts';
import { useFigures } from '../data/group.ts';
import { reading, useAnswer } from '../data/queries.ts';
import { sayDayYear, sayInstant } from '../parts/dates.ts';
import { Choice } from '../parts/field.tsx';
import { Answered } from '../parts/state.tsx';
import { Empty } from '../parts/text.tsx';
import { AddProbe } from './add-probe.tsx';
import type { ProbeReadings } from './probe-readings.ts';

const TemperatureChart = lazy(() =>
  import('./temperature-chart.tsx').then((found) => ({ default: found.TemperatureChart })),
);

const ranges = ['3', '14', '60', '200'] as const;
const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;
const MOST_SHOWN = 6;
const BOXES_AT_FIRST = 3;

export function Readings() {
  const probes = useAnswer<readonly Probe[]>('probes');
  const boxes = useAnswer<readonly BoxRecord[]>('boxes').data ?? [];
  const places = useAnswer<readonly PlaceRecord[]>('places').data ?? [];
  return (
    <>
      <h1>{say('web.readings.title')}</h1>
      <p className="lead">{say('web.readings.lead')}</p>
      <Answered of={probes}>
        {(list) =>
          list.length === 0 ? (
            <Empty>
              <p>{say('web.readings.empty')}</p>
            </Empty>
          ) : (
            <Shown probes={list} />
          )
        }
      </Answered>
      <AddProbe boxes={boxes} places={places} />
    </>
  );
}

function Shown({ probes }: { readonly probes: readonly Probe[] }) {
  const [range, setRange] = useState<(typeof ranges)[number]>('14');
  const [hidden, setHidden] = useState<ReadonlySet<string>>(() => hiddenAtFirst(probes));
  // The end of the span is rounded to the hour, so that looking again does not ask anew for everything.
  const toMs = Math.ceil(Date.now() / HOUR_MS) * HOUR_MS;
  const fromMs = toMs - Number(range) * DAY_MS;
  const shown = probes.filter((probe) => !hidden.has(probe.id)).slice(0, MOST_SHOWN);
  const answers = useQueries({
    queries: probes.map((probe) =>
      reading<ReadingChart>(
        `readings?probeId=${probe.id}&from=${new Date(fromMs).toISOString()}&to=${new Date(toMs).toISOString()}&buckets=2000`,
      ),
    ),
  });
  const all = probes.flatMap((probe, index): ProbeReadings[] => {
    const chart = answers[index]?.data;
    return chart ? [{ probe, chart }] : [];
  });
  const drawn = all.filter((one) => shown.includes(one.probe));
  return (
    <>
      <div className="no-print">
        <Choice
          label={say('web.readings.range')}
          value={range}
          onChange={setRange}
          options={ranges.map((value) => ({ value, label: say(`web.readings.range.${value}`) }))}
        />
      </div>
      {drawn.some((one) => one.chart.count > 0) ? (
        <Suspense fallback={<p className="soft">{say('web.reading')}</p>}>
          <TemperatureChart readings={drawn} fromMs={fromMs} toMs={toMs} />
        </Suspense>
      ) : null}
      <ProbeTable
        all={all}
        hidden={hidden}
        toggle={(id) =>
          setHidden((before) => {
            const next = new Set(before);
            if (!next.delete(id)) next.add(id);
            return next;
          })
        }
        toMs={toMs}
      />
      <ByDay all={drawn} />
    </>
  );
}

/** At first the outdoors and a few boxes are drawn: more lines than that are read in the table. */
function hiddenAtFirst(probes: readonly Probe[]): ReadonlySet<string> {
  const first = new Set(
    [
      ...probes.filter((probe) => probe.boxId).slice(0, BOXES_AT_FIRST),
      ...probes.filter((probe) => probe.outdoors).slice(0, 1),
    ].map((probe) => probe.id),
  );
  return first.size === 0 ? new Set() : new Set(probes.map((probe) => probe.id).filter((id) => !first.has(id)));
}

interface ProbeTableProps {
  readonly all: readonly ProbeReadings[];
  readonly hidden: ReadonlySet<string>;
  readonly toggle: (id: string) => void;
  readonly toMs: number;
}

function ProbeTable({ all, hidden, toggle, toMs }: ProbeTableProps) {
  const { temperature, zone } = useFigures();
  const columns = ['last', 'coldest', 'warmest', 'gaps'] as const;
  const label = (column: (typeof columns)[number]) => say(`web.readings.col.${column}`);
  return (
    <section aria-labelledby="probes">
      <h2 id="probes">{say('web.readings.probes')}</h2>
      <table data-fold>
        <thead>
          <tr>
            <th scope="col">{say('web.readings.col.probe')}</th>
            {columns.map((column) => (
              <th scope="col" data-number key={column}>
                {label(column)}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {all.map(({ probe, chart }) => {
            const lastMs = chart.atMs.at(-1);
            const gap = longestGapMs(chart, toMs);
            return (
              <tr key={probe.id}>
                <th scope="row">
                  <label className="check">
                    <input type="checkbox" checked={!hidden.has(probe.id)} onChange={() => toggle(probe.id)} />
                    <span>
                      {probe.name}
                      {probe.outdoors && !/outdoors/i.test(probe.name) ? `, ${say('web.readings.outdoors')}` : ''}
                    </span>
                  </label>
                </th>
                <td data-number data-label={label('last')}>
                  {lastMs === undefined
                    ? say('web.readings.none')
                    : `${temperature(chart.meanC.at(-1) ?? Number.NaN)}, ${sayInstant(lastMs, zone)}`}
                </td>
                <td data-number data-label={label('coldest')}>
                  {lastMs === undefined ? '' : temperature(Math.min(...chart.minC))}
                </td>
                <td data-number data-label={label('warmest')}>
                  {lastMs === undefined ? '' : temperature(Math.max(...chart.maxC))}
                </td>
                <td data-number data-label={label('gaps')}>
                  {gap === undefined
                    ? ''
                    : say('web.readings.hours', { count: Number((gap / HOUR_MS).toFixed(gap < 10 * HOUR_MS ? 1 : 0)) })}
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </section>
  );
}

function longestGapMs(chart: ReadingChart, toMs: number): number | undefined {
  if (chart.atMs.length === 0) return undefined;
  let longest = toMs - (chart.atMs.at(-1) as number);
  for (let i = 1; i < chart.atMs.length; i++)
    longest = Math.max(longest, (chart.atMs[i] as number) - (chart.atMs[i - 1] as number));
  return longest;
}

/** The same facts as the chart, day by day. */
function ByDay({ all }: { readonly all: readonly ProbeReadings[] }) {
  const { temperature, zone } = useFigures();
  const rows = useMemo(() => {
    const days = new Map<string, Map<string, { minC: number; maxC: number }>>();
    for (const { probe, chart } of all)
      chart.atMs.forEach((atMs, index) => {
        const day = dayInZone(atMs, zone);
        const cells = days.get(day) ?? new Map<string, { minC: number; maxC: number }>();
        days.set(day, cells);
        const minC = chart.minC[index] as number;
        const maxC = chart.maxC[index] as number;
        const known = cells.get(probe.id);
        cells.set(
          probe.id,
          known ? { minC: Math.min(known.minC, minC), maxC: Math.max(known.maxC, maxC) } : { minC, maxC },
        );
      });
    return [...days].sort(([a], [b]) => (a < b ? 1 : -1));
  }, [all, zone]);
  if (rows.length === 0) return null;
  return (
    <details className="why">
      <summary>{say('web.readings.table')}</summary>
      <div className="wide">
        <table>
          <thead>
            <tr>
              <th scope="col">{say('web.line.day')}</th>
              {all.map(({ probe }) => (
                <th scope="col" data-number key={probe.id}>
                  {probe.name}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map(([day, cells]) => (
              <tr key={day}>
                <th scope="row">{sayDayYear(day)}</th>
                {all.map(({ probe }) => {
                  const cell = cells.get(probe.id);
                  return (
                    <td data-number key={probe.id}>
                      {cell
                        ? say('web.readings.span', {
                            low: temperature(cell.minC),
                            high: temperature(cell.maxC),
                          })
                        : say('web.readings.gap')}
                    </td>
                  );
                })}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </details>
  );
}
