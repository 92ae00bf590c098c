import { useNavigate, useParams } from '@tanstack/react-router';
import { type FormEvent, useMemo, useState } from 'react';
import { checkBoxInPlace } from '../../heat/check.ts';
import type { BoxDescription, PlaceDescription } from '../../heat/description.ts';
import { daysBetween } from '../../measure/day.ts';
import type { BoxRecord, PlaceRecord } from '../../schema/housing.ts';
import type { Probe } from '../../schema/reading.ts';
import { say } from '../../wording/say.ts';
import { Problem, type ProblemError } from '../data/client.ts';
import { useDraft } from '../data/draft.ts';
import { saveEntry } from '../data/entries.ts';
import { useFigures, useGroup } from '../data/group.ts';
import { useAnswer } from '../data/queries.ts';
import { errorAt, Field, Pick } from '../parts/field.tsx';
import { Answered, Trouble } from '../parts/state.tsx';
import { atPlace, boxOf, firstBuild, usualSleep } from './build.ts';
import { ForecastView } from './forecast-view.tsx';
import { PlaceSentence } from './place-sentence.tsx';
import { useForecast } from './use-forecast.ts';
import { useThread, useThreads } from './use-worker.ts';

/** A saved place, changed where it stands: the same record with what was there before in its history. */
export function EditPlace() {
  const { placeId } = useParams({ from: '/places/$placeId' });
  const place = useAnswer<PlaceRecord>(`places/${placeId}`);
  const boxes = useAnswer<readonly BoxRecord[]>('boxes');
  return (
    <Answered of={place}>
      {(known) => (
        <Answered of={boxes}>
          {(list) => (
            <Whole
              key={`${known.id}${known.revision}`}
              known={known}
              boxes={list.filter((box) => box.placeId === known.id)}
            />
          )}
        </Answered>
      )}
    </Answered>
  );
}

interface WholeProps {
  readonly known: PlaceRecord;
  readonly boxes: readonly BoxRecord[];
}

function Whole({ known, boxes }: WholeProps) {
  const group = useGroup();
  const { today } = useFigures();
  const initial = useMemo(
    () => ({ name: known.name, description: known.description as unknown as PlaceDescription }),
    [known],
  );
  const [typed, change, forget] = useDraft(`place-${known.id}-${known.revision ?? 0}`, initial);
  const { description } = typed;
  const [errors, setErrors] = useState<readonly ProblemError[]>([]);
  const [trouble, setTrouble] = useState<Error>();
  const navigate = useNavigate();
  const sleep = useMemo(() => usualSleep(today, group.latitudeDeg), [today, group.latitudeDeg]);
  const first = firstBuild(...sleep);
  const build = {
    ...first,
    ...(description.kind === 'building' ? { preset: description.preset, facingDeg: description.facingDeg ?? 180 } : {}),
    ...(description.kind === 'refrigerator' ? atPlace({ id: known.id, description }, first) : {}),
    placeId: undefined,
  };
  const save = async (event: FormEvent) => {
    event.preventDefault();
    setTrouble(undefined);
    const wrong = typed.name.trim() === '' ? [{ where: 'name', what: say('web.error.needed') }] : [];
    setErrors(wrong);
    if (wrong.length > 0) return;
    try {
      await saveEntry('place', { ...known, name: typed.name.trim(), description });
      forget();
      await navigate({ to: '/places' });
    } catch (problem) {
      setTrouble(problem as Error);
      if (problem instanceof Problem) setErrors(problem.errors);
    }
  };
  return (
    <>
      <h1>{say('web.place.title', { name: known.name })}</h1>
      {description.kind === 'readings' ? (
        <ByReadings place={description} onChange={(to) => change({ description: to })} />
      ) : (
        <PlaceSentence place={description} build={build} onChange={(to) => change({ description: to })} />
      )}
      <form onSubmit={save} noValidate className="no-print" aria-labelledby="save-place">
        <h2 id="save-place">{say('web.place.save')}</h2>
        {trouble ? <Trouble error={trouble} /> : null}
        <Field
          label={say('web.builder.placeName')}
          value={typed.name}
          onChange={(name) => change({ name })}
          error={errorAt(errors, 'name')}
        />
        <p className="small soft">{say('web.place.saveHelp', { count: boxes.length })}</p>
        <div className="actions">
          <button type="submit" className="button" data-kind="main">
            {say('web.place.save')}
          </button>
          <button
            type="button"
            className="button"
            data-kind="quiet"
            onClick={() => {
              forget();
              void navigate({ to: '/places' });
            }}
          >
            {say('web.cancel')}
          </button>
        </div>
      </form>
      {description.kind === 'readings' ? null : <Winters place={description} boxes={boxes} sleep={sleep} />}
    </>
  );
}

interface WintersProps {
  readonly place: PlaceDescription;
  readonly boxes: readonly BoxRecord[];
  readonly sleep: readonly [string, string];
}

/** The winters in one of the boxes that stand there, as the place is told now; in a usual box while none does. */
function Winters({ place, boxes, sleep: [fromDay, toDay] }: WintersProps) {
  const [chosen, setChosen] = useState(boxes[0]?.id ?? '');
  const known = boxes.find((one) => one.id === chosen);
  const box = known ? (known.description as unknown as BoxDescription) : boxOf(firstBuild(fromDay, toDay));
  const { start, none, error } = useThreads(undefined);
  const worker = useThread(start);
  const tooLarge = checkBoxInPlace(box, place).length > 0;
  const question = { place, box, sleep: { from: fromDay.slice(5), days: daysBetween(fromDay, toDay) } };
  const { forecast, refused } = useForecast(tooLarge ? undefined : worker, question);
  if (none) return null;
  return (
    <section aria-labelledby="place-winters">
      <h2 id="place-winters">{say('web.place.winters')}</h2>
      {boxes.length > 1 ? (
        <Pick
          label={say('web.place.inBox')}
          value={chosen}
          onChange={setChosen}
          options={boxes.map((one) => ({ value: one.id, label: one.name }))}
        />
      ) : (
        <p className="soft">{known ? say('web.place.oneBox', { box: known.name }) : say('web.place.usualBox')}</p>
      )}
      {error ? <Trouble error={error} /> : null}
      {tooLarge || refused ? (
        <p className="note" data-level="act" role="alert">
          {tooLarge ? say('web.builder.largerThanPlace') : say('web.builder.refused', { why: refused })}
        </p>
      ) : forecast ? (
        <ForecastView forecast={forecast} fromDay={fromDay} />
      ) : (
        <p className="soft" role="status">
          {say('web.builder.working')}
        </p>
      )}
    </section>
  );
}

type ReadingsPlace = Extract<PlaceDescription, { kind: 'readings' }>;

/** A place known by what a thermometer read there. */
function ByReadings({
  place,
  onChange,
}: {
  readonly place: ReadingsPlace;
  readonly onChange: (to: ReadingsPlace) => void;
}) {
  const probes = useAnswer<readonly Probe[]>('probes').data ?? [];
  const set = (name: 'probeId' | 'note', value: string) => {
    const { [name]: _, ...rest } = place;
    onChange({ ...rest, ...(value === '' ? {} : { [name]: value }) } as ReadingsPlace);
  };
  return (
    <>
      <p className="lead">{say('web.place.byReadings')}</p>
      <Pick
        label={say('web.place.probe')}
        value={place.probeId ?? ''}
        onChange={(value) => set('probeId', value)}
        options={[
          { value: '', label: say('web.place.ownProbe') },
          ...probes.map((probe) => ({ value: probe.id, label: probe.name })),
        ]}
      />
      <Field
        label={say('web.diary.note')}
        kind="lines"
        value={place.note ?? ''}
        onChange={(value) => set('note', value)}
      />
    </>
  );
}
