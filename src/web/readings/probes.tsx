import { useQueries } from '@tanstack/react-query';
import { Link } from '@tanstack/react-router';
import { type ReactNode, useState } from 'react';
import type { BoxRecord, PlaceRecord } from '../../schema/housing.ts';
import type { Probe, ReadingChart } from '../../schema/reading.ts';
import { say } from '../../wording/say.ts';
import { useFigures, useSession } from '../data/group.ts';
import { reading, useAnswer } from '../data/queries.ts';
import { sayInstant } from '../parts/dates.ts';
import { Answered } from '../parts/state.tsx';
import { Empty } from '../parts/text.tsx';
import { EntryTools } from '../record/entry-tools.tsx';
import { AddProbe } from './add-probe.tsx';
import { Battery, BatteryHistory } from './battery.tsx';
import { Comparison } from './comparison.tsx';
import { IceCheck } from './ice-check.tsx';
import { Listening } from './listening.tsx';
import { MoveProbe } from './move-probe.tsx';
import { SendItself } from './send-itself.tsx';

const DAY_MS = 86_400_000;
const HOUR_MS = 3_600_000;
const LOOK_BACK_DAYS = 60;
/** A thermometer that has missed this many readings is called silent. */
const MISSED = 3;

/** Every thermometer: where it hangs, when it last spoke, and how well it reads. */
export function Thermometers() {
  const probes = useAnswer<readonly Probe[]>('probes');
  const boxes = useAnswer<readonly BoxRecord[]>('boxes').data ?? [];
  const places = useAnswer<readonly PlaceRecord[]>('places').data ?? [];
  const mayChange = useSession().role !== 'reader';
  return (
    <>
      <h1>{say('web.probes.title')}</h1>
      <p className="lead">{say('web.probes.lead')}</p>
      <Answered of={probes}>
        {(list) =>
          list.length === 0 ? (
            <Empty>
              <p>{say('web.probes.empty')}</p>
            </Empty>
          ) : (
            <ProbeList probes={list} boxes={boxes} places={places} mayChange={mayChange} />
          )
        }
      </Answered>
      {mayChange ? <AddProbe boxes={boxes} places={places} /> : null}
      <Listening />
      <p>
        <Link to="/readings">{say('web.probes.toReadings')}</Link>
      </p>
    </>
  );
}

interface ListProps {
  readonly probes: readonly Probe[];
  readonly boxes: readonly BoxRecord[];
  readonly places: readonly PlaceRecord[];
  readonly mayChange: boolean;
}

function ProbeList({ probes, boxes, places, mayChange }: ListProps) {
  const { temperature, difference, zone } = useFigures();
  const [nowMs] = useState(() => Math.ceil(Date.now() / HOUR_MS) * HOUR_MS);
  const from = new Date(nowMs - LOOK_BACK_DAYS * DAY_MS).toISOString();
  const answers = useQueries({
    queries: probes.map((probe) =>
      reading<ReadingChart>(
        `readings?probeId=${probe.id}&from=${from}&to=${new Date(nowMs).toISOString()}&buckets=2000`,
      ),
    ),
  });
  const whereOf = (probe: Probe) =>
    probe.outdoors
      ? say('web.readings.outdoors')
      : (boxes.find((box) => box.id === probe.boxId)?.name ??
        places.find((place) => place.id === probe.placeId)?.name ??
        say('web.probes.nowhere'));
  return (
    <ul className="lines">
      {probes.map((probe, index) => {
        const chart = answers[index]?.data;
        const lastMs = chart?.atMs.at(-1);
        const silentMs = lastMs === undefined ? undefined : Date.now() - lastMs - (chart?.bucketMs ?? 0);
        const silent = silentMs !== undefined && silentMs > MISSED * probe.expectedIntervalS * 1000;
        return (
          <li key={probe.id}>
            <h2 className="probe-name">{probe.name}</h2>
            <dl className="facts">
              <Fact name={say('web.readings.where')}>{whereOf(probe)}</Fact>
              <Fact name={say('web.readings.col.last')}>
                {lastMs === undefined
                  ? say('web.probes.never', { days: LOOK_BACK_DAYS })
                  : `${temperature(chart?.meanC.at(-1) as number)}, ${sayInstant(lastMs, zone)}`}
                {silent ? (
                  <strong className="probe-silent">
                    {' '}
                    {say('web.probes.silent', { time: hoursOrDays(silentMs), times: MISSED })}
                  </strong>
                ) : null}
              </Fact>
              <Fact name={say('web.probes.expected')}>{sayInterval(probe.expectedIntervalS)}</Fact>
              <Fact name={say('web.probes.offset')}>
                {probe.offsetC === 0 ? say('web.probes.noOffset') : difference(probe.offsetC, 2)}
              </Fact>
              <Fact name={say('web.battery.title')}>
                <Battery probe={probe} />
              </Fact>
            </dl>
            {mayChange ? (
              <>
                <IceCheck
                  probe={probe}
                  last={lastMs === undefined ? undefined : { atMs: lastMs, tempC: chart?.meanC.at(-1) as number }}
                />
                <MoveProbe probe={probe} boxes={boxes} places={places} />
                <SendItself probe={probe} />
                <EntryTools kind="probe" record={probe} what={probe.name} />
              </>
            ) : null}
            <BatteryHistory probe={probe} />
            {probes.length > 1 ? (
              <Comparison probe={probe} others={probes.filter((one) => one.id !== probe.id)} />
            ) : null}
          </li>
        );
      })}
    </ul>
  );
}

function Fact({ name, children }: { readonly name: string; readonly children: ReactNode }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  );
}

const hoursOrDays = (ms: number) =>
  ms >= 3 * DAY_MS
    ? say('web.probes.days', { count: Math.round(ms / DAY_MS) })
    : say('web.probes.hours', { count: Math.max(1, Math.round(ms / HOUR_MS)) });

const sayInterval = (seconds: number) =>
  seconds >= 7200
    ? say('web.probes.everyHours', { count: Math.round(seconds / 3600) })
    : say('web.probes.everyMinutes', { count: Math.max(1, Math.round(seconds / 60)) });
