import { useQueries } from '@tanstack/react-query';
import { Link } from '@tanstack/react-router';
import { useMemo, useRef, useState } from 'react';
import { dayInZone } from '../../measure/zone.ts';
import type { Notice } from '../../schema/notice.ts';
import type { Probe, ReadingChart } from '../../schema/reading.ts';
import type { Stay } from '../../schema/stay.ts';
import { say } from '../../wording/say.ts';
import { useFigures } from '../data/group.ts';
import { reading, useAnswer } from '../data/queries.ts';
import { sayDayYear, sayInstant } from '../parts/dates.ts';
import { Choice } from '../parts/field.tsx';
import { Answered } from '../parts/state.tsx';
import { Empty, sayMessage } from '../parts/text.tsx';
import { dryRunsOf, noticesOf } from './chart-facts.ts';
import type { ChartView } from './long-chart.ts';
import type { ProbeReadings } from './probe-readings.ts';
import { SingleReadings } from './single-readings.tsx';
import { TemperatureChart } from './temperature-chart.tsx';

const ranges = ['3', '14', '60', '200'] as const;
const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;
const MOST_SHOWN = 6;
const BOXES_AT_FIRST = 3;

export function Readings() {
  const probes = useAnswer<readonly Probe[]>('probes');
  return (
    <>
      <h1>{say('web.readings.title')}</h1>
      <p className="lead">{say('web.readings.lead')}</p>
      <div className="actions no-print">
        <Link to="/readings/thermometers" className="button">
          {say('web.probes.title')}
        </Link>
        <Link to="/readings/import" className="button">
          {say('web.import.title')}
        </Link>
      </div>
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
    </>
  );
}

function Shown({ probes }: { readonly probes: readonly Probe[] }) {
  const { zone } = useFigures();
  const stays = useAnswer<readonly Stay[]>('stays').data ?? none;
  const allNotices = useAnswer<readonly Notice[]>('notices').data ?? none;
  // The end of the span is rounded to the hour, so that looking again does not ask anew for everything.
  const [nowMs] = useState(() => Math.ceil(Date.now() / HOUR_MS) * HOUR_MS);
  const [view, setView] = useState<ChartView>({ fromMs: nowMs - 14 * DAY_MS, toMs: nowMs });
  const [cursorMs, setCursorMs] = useState<number>();
  const [hidden, setHidden] = useState<ReadonlySet<string>>(() => hiddenAtFirst(probes));
  const shown = probes.filter((probe) => !hidden.has(probe.id)).slice(0, MOST_SHOWN);
  const held = useMemo(() => heldWindow(view, nowMs), [view, nowMs]);
  const charts = useQueries({
    combine: dataOf,
    queries: probes.map((probe) => ({
      ...reading<ReadingChart>(
        `readings?probeId=${probe.id}&from=${iso(held.fromMs)}&to=${iso(held.toMs)}&buckets=${shown.includes(probe) ? 4000 : 400}`,
      ),
    })),
  });
  // While the next stretch is fetched the last one stays on the screen.
  const lastCharts = useRef(new Map<string, ReadingChart>());
  const all = useMemo(
    () =>
      probes.flatMap((probe, index): ProbeReadings[] => {
        const chart = charts[index] ?? lastCharts.current.get(probe.id);
        if (!chart || chart.probeId !== probe.id) return [];
        lastCharts.current.set(probe.id, chart);
        return [{ probe, chart }];
      }),
    [probes, charts],
  );
  const shownIds = shown.map((probe) => probe.id).join();
  const drawn = useMemo(() => all.filter((one) => shownIds.includes(one.probe.id)), [all, shownIds]);
  const notices = useMemo(
    () => noticesOf(allNotices, stays, new Set(drawn.flatMap(({ probe }) => (probe.boxId ? [probe.boxId] : []))), held),
    [allNotices, stays, drawn, held],
  );
  // Only what is in sight gets a row; what lies beyond the edges is drawn with it while the hand moves.
  const dryRuns = useMemo(
    () =>
      drawn.flatMap(({ probe }) => {
        const stretches = probe.boxId
          ? dryRunsOf(probe.boxId, stays, { ...held, toMs: Math.min(held.toMs, nowMs) }, zone)
          : [];
        return stretches.some((one) => one.fromMs < view.toMs && one.toMs > view.fromMs)
          ? [{ name: probe.name, stretches }]
          : [];
      }),
    [drawn, stays, held, view, nowMs, zone],
  );
  const inView = notices.filter((one) => {
    const atMs = Date.parse(one.fromAt);
    return atMs >= view.fromMs && atMs <= view.toMs;
  });
  const days = (view.toMs - view.fromMs) / DAY_MS;
  return (
    <>
      <div className="no-print">
        <Choice
          label={say('web.readings.range')}
          value={ranges.find((range) => Math.abs(Number(range) - days) < 0.01) ?? ''}
          onChange={(range) => setView({ fromMs: nowMs - Number(range) * DAY_MS, toMs: nowMs })}
          options={ranges.map((value) => ({ value, label: say(`web.readings.range.${value}`) }))}
        />
      </div>
      {all.length > 0 ? (
        <TemperatureChart
          readings={drawn}
          view={view}
          onView={setView}
          onCursor={setCursorMs}
          notices={notices}
          dryRuns={dryRuns}
        />
      ) : null}
      <p className="small">
        {say('web.readings.shown', { from: sayInstant(view.fromMs, zone), to: sayInstant(view.toMs, zone) })}
      </p>
      <NoticeList notices={inView} />
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
        view={view}
        nowMs={nowMs}
      />
      <ByDay all={drawn} view={view} />
      {shown.length > 0 ? (
        <SingleReadings probes={shown} aroundMs={cursorMs ?? Math.min(view.toMs, nowMs) - 1} />
      ) : null}
      {shown.length > 0 ? (
        <div className="actions no-print">
          <a
            className="button"
            download
            href={`/api/v1/readings/file?probeIds=${shownIds}&from=${iso(view.fromMs)}&to=${iso(view.toMs)}`}
          >
            {say('web.readings.csv')}
          </a>
        </div>
      ) : null}
    </>
  );
}

const none: readonly never[] = [];
const dataOf = (answers: readonly { readonly data: ReadingChart | undefined }[]) => answers.map(({ data }) => data);
const iso = (ms: number) => new Date(ms).toISOString();

/** What is held on the screen for a view: as much again before and after it, on whole steps, so that moving it a little asks nothing. */
function heldWindow({ fromMs, toMs }: ChartView, nowMs: number): ChartView {
  const stepMs = 2 ** Math.ceil(Math.log2((toMs - fromMs) / HOUR_MS)) * HOUR_MS;
  return {
    fromMs: nowMs + Math.floor((fromMs - stepMs / 2 - nowMs) / stepMs) * stepMs,
    toMs: nowMs + Math.max(Math.ceil((toMs + stepMs / 2 - nowMs) / stepMs), 0) * stepMs,
  };
}

function NoticeList({ notices }: { readonly notices: readonly Notice[] }) {
  const { zone } = useFigures();
  if (notices.length === 0) return null;
  return (
    <details className="why">
      <summary>{say('web.readings.flags', { count: notices.length })}</summary>
      <div>
        <table>
          <tbody>
            {notices.map((notice) => (
              <tr key={notice.id}>
                <th scope="row">{sayInstant(notice.fromAt, zone)}</th>
                <td>
                  <strong>{say(`web.readings.level.${notice.level}`)}</strong> {sayMessage(notice.message)}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </details>
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
  readonly view: ChartView;
  readonly nowMs: number;
}

function ProbeTable({ all, hidden, toggle, view, nowMs }: ProbeTableProps) {
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
          {all.map(({ probe, chart: whole }) => {
            const chart = within(whole, view);
            const lastMs = chart.atMs.at(-1);
            const gap = longestGapMs(chart, Math.min(view.toMs, nowMs));
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

/** The part of a chart that lies in the view. */
function within(chart: ReadingChart, view: ChartView): Pick<ReadingChart, 'atMs' | 'minC' | 'meanC' | 'maxC'> {
  const from = chart.atMs.findIndex((atMs) => atMs >= view.fromMs);
  const after = chart.atMs.findIndex((atMs) => atMs > view.toMs);
  const cut = <T,>(column: readonly T[]) => (from < 0 ? [] : column.slice(from, after < 0 ? undefined : after));
  return { atMs: cut(chart.atMs), minC: cut(chart.minC), meanC: cut(chart.meanC), maxC: cut(chart.maxC) };
}

function longestGapMs(chart: Pick<ReadingChart, 'atMs'>, toMs: number): number | undefined {
  if (chart.atMs.length === 0) return undefined;
  let longest = toMs - (chart.atMs.at(-1) as number);
  for (let i = 1; i < chart.atMs.length; i++)
    longest = Math.max(longest, (chart.atMs[i] as number) - (chart.atMs[i - 1] as number));
  return longest;
}

/** The same facts as the chart, day by day. */
function ByDay({ all, view }: { readonly all: readonly ProbeReadings[]; readonly view: ChartView }) {
  const { temperature, zone } = useFigures();
  const rows = useMemo(() => {
    const days = new Map<string, Map<string, { minC: number; maxC: number }>>();
    for (const { probe, chart: whole } of all) {
      const chart = within(whole, view);
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
    }
    return [...days].sort(([a], [b]) => (a < b ? 1 : -1));
  }, [all, view, zone]);
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
