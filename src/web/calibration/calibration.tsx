import { Link, useParams } from '@tanstack/react-router';
import { type Remote, wrap } from 'comlink';
import { type FormEvent, useEffect, useRef, useState } from 'react';
import type { DryRunProbe } from '../../heat/calibration-house.ts';
import type { BoxDescription, WeatherPlace } from '../../heat/description.ts';
import { addDays, type Day, isDay } from '../../measure/day.ts';
import { dayInZone, instantInZone } from '../../measure/zone.ts';
import type { BoxRecord, PlaceRecord } from '../../schema/housing.ts';
import type { Probe } from '../../schema/reading.ts';
import type { Stay } from '../../schema/stay.ts';
import { say } from '../../wording/say.ts';
import { useFigures, useGroup } from '../data/group.ts';
import { useAnswer } from '../data/queries.ts';
import { Field } from '../parts/field.tsx';
import { Answered, Trouble } from '../parts/state.tsx';
import { dryRunsOf } from '../readings/chart-facts.ts';
import type { CalibrationWorker, DryRun, Fitted, Refused } from './calibration.worker.ts';
import { readDryRun } from './dry-run-data.ts';
import { Outcome } from './outcome.tsx';

const DAY_MS = 86_400_000;
const LOOK_BACK_DAYS = 120;
const USUAL_DAYS = 14;

/** What a dry run teaches about a box and its place. */
export function CalibrationScreen() {
  const { boxId } = useParams({ from: '/places/boxes/$boxId/dry-run' });
  const box = useAnswer<BoxRecord>(`boxes/${boxId}`);
  const places = useAnswer<readonly PlaceRecord[]>('places');
  const probes = useAnswer<readonly Probe[]>('probes');
  const stays = useAnswer<readonly Stay[]>('stays');
  return (
    <Answered of={box}>
      {(known) => (
        <Answered of={places}>
          {(placeList) => (
            <Answered of={probes}>
              {(probeList) => (
                <Answered of={stays}>
                  {(stayList) => (
                    <>
                      <h1>{say('web.calibration.title', { box: known.name })}</h1>
                      <p className="lead">{say('web.calibration.lead')}</p>
                      <Run
                        box={known}
                        place={placeList.find((one) => one.id === known.placeId)}
                        probes={probeList}
                        stays={stayList}
                      />
                      <p>
                        <Link to="/places/boxes/$boxId" params={{ boxId: known.id }}>
                          {say('web.calibration.back')}
                        </Link>
                      </p>
                    </>
                  )}
                </Answered>
              )}
            </Answered>
          )}
        </Answered>
      )}
    </Answered>
  );
}

interface RunProps {
  readonly box: BoxRecord;
  readonly place: PlaceRecord | undefined;
  readonly probes: readonly Probe[];
  readonly stays: readonly Stay[];
}

/** The thermometers a calibration goes by: in the box, in the air of its place, and outdoors. */
function thermometersFor({ box, place, probes }: RunProps) {
  const inPlace = probes.filter((probe) => probe.placeId !== undefined && probe.placeId === place?.id);
  const inside: { probe: Probe; kind: DryRunProbe }[] = probes
    .filter((probe) => probe.boxId === box.id)
    .slice(0, 1)
    .map((probe) => ({ probe, kind: 'box' as const }));
  // A place that is known by readings is itself the weather of the box.
  if (place?.description.kind === 'readings') return { inside, outdoors: inPlace[0] };
  return {
    inside: [...inPlace.slice(0, 1).map((probe) => ({ probe, kind: 'place-air' as const })), ...inside],
    outdoors: probes.find((probe) => probe.outdoors),
  };
}

function Run(props: RunProps) {
  const { box, place, stays } = props;
  const group = useGroup();
  const { zone, today } = useFigures();
  const { inside, outdoors } = thermometersFor(props);
  const [[from, to], setDays] = useState<readonly [string, string]>(() => proposed(box.id, stays, today, zone));
  const [busy, setBusy] = useState(false);
  const [trouble, setTrouble] = useState<Error>();
  const [found, setFound] = useState<{ result: Fitted | Refused; dryRun: DryRun }>();
  const worker = useRef<{ thread: Worker; remote: Remote<CalibrationWorker> } | undefined>(undefined);
  useEffect(() => () => worker.current?.thread.terminate(), []);

  if (!place) return <p className="note">{say('web.calibration.noPlace')}</p>;
  if (place.description.kind === 'refrigerator') return <p className="note">{say('web.calibration.refrigerator')}</p>;
  if (inside.every(({ kind }) => kind !== 'box') || !outdoors)
    return (
      <div className="empty">
        <p>{say(outdoors ? 'web.calibration.noProbe' : 'web.calibration.noOutdoors')}</p>
        <Link to="/readings/thermometers" className="button" data-kind="main">
          {say('web.probes.title')}
        </Link>
      </div>
    );
  const daysWrong = !isDay(from) || !isDay(to) || from > to;
  const fit = async (event: FormEvent) => {
    event.preventDefault();
    if (daysWrong) return;
    setTrouble(undefined);
    setFound(undefined);
    setBusy(true);
    try {
      const toMs = Math.min(Date.now(), instantInZone(addDays(to as Day, 1), zone));
      const read = await readDryRun(inside, outdoors, instantInZone(from as Day, zone), toMs);
      const dryRun: DryRun = {
        site: { latitudeDeg: group.latitudeDeg, longitudeDeg: group.longitudeDeg, zone },
        normals: group.climateNormals,
        place: place.description as unknown as WeatherPlace,
        box: box.description as unknown as BoxDescription,
        ...read,
      };
      if (read.weather.airTempC.every((tempC) => tempC === null)) throw new Error(say('web.calibration.noWeather'));
      worker.current?.thread.terminate();
      const thread = new Worker(new URL('./calibration.worker.ts', import.meta.url), { type: 'module' });
      worker.current = { thread, remote: wrap<CalibrationWorker>(thread) };
      // A dry run has no animal in the box.
      const { animal: _animal, ...empty } = dryRun.box;
      setFound({ result: await worker.current.remote.fit({ ...dryRun, box: empty }), dryRun });
    } catch (problem) {
      setTrouble(problem as Error);
    }
    setBusy(false);
  };
  const stop = () => {
    worker.current?.thread.terminate();
    worker.current = undefined;
    setBusy(false);
  };
  return (
    <>
      <p>
        {say('web.calibration.goesBy', {
          probes: inside.map(({ probe }) => probe.name).join(', '),
          outdoors: outdoors.name,
        })}
      </p>
      <form onSubmit={fit} noValidate>
        <div className="columns">
          <Field label={say('web.calibration.from')} kind="day" value={from} onChange={(day) => setDays([day, to])} />
          <Field
            label={say('web.calibration.to')}
            kind="day"
            help={say('web.calibration.daysHelp')}
            value={to}
            onChange={(day) => setDays([from, day])}
            error={daysWrong ? say('web.calibration.daysWrong') : undefined}
          />
        </div>
        <div className="actions">
          <button type="submit" className="button" data-kind="main" disabled={busy || daysWrong}>
            {say('web.calibration.fit')}
          </button>
          {busy ? (
            <>
              <span role="status">{say('web.calibration.working')}</span>
              <button type="button" className="button" data-kind="quiet" onClick={stop}>
                {say('web.cancel')}
              </button>
            </>
          ) : null}
        </div>
      </form>
      {trouble ? <Trouble error={trouble} /> : null}
      {found ? (
        <Outcome
          {...found}
          remote={worker.current?.remote}
          names={inside.map(({ probe }) => probe.name)}
          box={box}
          place={place}
        />
      ) : null}
    </>
  );
}

/** The latest days in which nobody was in the box, at most the usual number of them. */
function proposed(boxId: string, stays: readonly Stay[], today: Day, zone: string): [string, string] {
  const toMs = instantInZone(today, zone);
  const empty = dryRunsOf(boxId, stays, { fromMs: toMs - LOOK_BACK_DAYS * DAY_MS, toMs }, zone).at(-1);
  const lastDay = dayInZone((empty?.toMs ?? toMs) - 1, zone);
  const firstDay = dayInZone(empty?.fromMs ?? toMs - USUAL_DAYS * DAY_MS, zone);
  const usual = addDays(lastDay, 1 - USUAL_DAYS);
  return [[firstDay, usual].sort()[1] as Day, lastDay];
}
