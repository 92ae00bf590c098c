import { Link, useNavigate, useParams } from '@tanstack/react-router';
import type { Remote } from 'comlink';
import { useEffect, useMemo, useState } from 'react';
import { v7 as uuidv7 } from 'uuid';
import type { BoxDescription, PlaceDescription } from '../../heat/description.ts';
import { addDays, type Day, daysBetween } from '../../measure/day.ts';
import type { BoxRecord, PlaceRecord } from '../../schema/housing.ts';
import { say } from '../../wording/say.ts';
import { useDraft } from '../data/draft.ts';
import { useFigures, useGroup } from '../data/group.ts';
import { useAnswer } from '../data/queries.ts';
import { Answered, Trouble } from '../parts/state.tsx';
import { Empty } from '../parts/text.tsx';
import { Advice } from './advice.tsx';
import { type Build, boxOf, buildFrom, firstBuild, litresOf, placeOf } from './build.ts';
import { Comparison, type Kept } from './comparison.tsx';
import type { ForecastWorker, Question } from './forecast.worker.ts';
import { ForecastView } from './forecast-view.tsx';
import { SaveBuild } from './save-build.tsx';
import { Section } from './section.tsx';
import { Sentence } from './sentence.tsx';
import { useForecast, useWorker } from './use-forecast.ts';
import { wordFor } from './words.ts';

/** Eleven weeks around the coldest time: about three weeks before to eight weeks after the shortest day. */
function usualSleep(today: Day, latitudeDeg: number): [Day, Day] {
  const place = latitudeDeg >= 0 ? '-11-30' : '-05-31';
  const year = Number(today.slice(0, 4));
  const thisYears = `${year}${place}`;
  const from = daysBetween(thisYears, today) > 60 ? `${year + 1}${place}` : thisYears;
  return [addDays(from, 1), addDays(from, 78)];
}

export function NewBuild() {
  const group = useGroup();
  const { today } = useFigures();
  const initial = useMemo(() => firstBuild(...usualSleep(today, group.latitudeDeg)), [today, group.latitudeDeg]);
  const places = useAnswer<readonly PlaceRecord[]>('places');
  const boxes = useAnswer<readonly BoxRecord[]>('boxes');
  return (
    <Answered of={places}>
      {(list) => (
        <Answered of={boxes}>
          {() => <Builder draft="build" initial={initial} places={list} known={undefined} />}
        </Answered>
      )}
    </Answered>
  );
}

export function SavedBuild() {
  const { boxId } = useParams({ from: '/places/boxes/$boxId' });
  const group = useGroup();
  const { today } = useFigures();
  const places = useAnswer<readonly PlaceRecord[]>('places');
  const box = useAnswer<BoxRecord>(`boxes/${boxId}`);
  return (
    <Answered of={places}>
      {(list) => (
        <Answered of={box}>
          {(known) => {
            const base = firstBuild(...usualSleep(today, group.latitudeDeg));
            const told = buildFrom(known.description as unknown as BoxDescription, {
              ...base,
              name: known.name,
              placeId: known.placeId ?? list[0]?.id,
            });
            return (
              <Builder
                key={`${known.id}${known.revision}`}
                draft={`build-${known.id}-${known.revision ?? 0}`}
                initial={told ?? { ...base, name: known.name, placeId: known.placeId ?? list[0]?.id }}
                places={list}
                known={known}
                {...(told ? {} : { asSaved: known.description as unknown as BoxDescription })}
              />
            );
          }}
        </Answered>
      )}
    </Answered>
  );
}

interface BuilderProps {
  readonly draft: string;
  readonly initial: Build;
  readonly places: readonly PlaceRecord[];
  readonly known: BoxRecord | undefined;
  /** A nest that the sentence cannot tell: forecast as it stands. */
  readonly asSaved?: BoxDescription;
}

function Builder({ draft, initial, places, known, asSaved }: BuilderProps) {
  const [typed, change, forget] = useDraft<Build>(draft, initial);
  const build =
    typed.placeId && !places.some((one) => one.id === typed.placeId) ? { ...typed, placeId: undefined } : typed;
  const { worker, none, error } = useWorker();
  const [kept, setKept] = useState<readonly Kept[]>([]);
  const navigate = useNavigate();
  const question = questionOf(build, places, asSaved);
  const { forecast, refused } = useForecast(worker, question);
  const name = nameOf(build, places);
  return (
    <>
      <h1>{known ? known.name : say('web.builder.title')}</h1>
      {asSaved ? <p className="note">{say('web.builder.unusual')}</p> : null}
      <Sentence build={build} places={places} onChange={change} />
      {error ? <Trouble error={error} /> : null}
      {none ? (
        <Empty>
          <p>{say('web.builder.noWinters')}</p>
          <Link to="/settings" className="button" data-kind="main">
            {say('web.builder.toSettings')}
          </Link>
        </Empty>
      ) : null}
      {refused ? (
        <p className="note" data-level="act" role="alert">
          {say('web.builder.refused', { why: refused })}
        </p>
      ) : null}
      <div className="build-view">
        <Section build={build} />
        {forecast ? (
          <ForecastView forecast={forecast} fromDay={build.fromDay} toDay={build.toDay} />
        ) : none || error ? null : (
          <p className="soft" role="status">
            {say('web.builder.working')}
          </p>
        )}
      </div>
      {forecast ? (
        <>
          <Comparison
            name={name}
            forecast={forecast}
            kept={kept}
            onKeep={() =>
              setKept((before) => [
                ...before,
                { id: uuidv7(), name, build, answer: forecast.answer, box: forecast.box },
              ])
            }
            onDrop={(id) => setKept((before) => before.filter((one) => one.id !== id))}
            onBack={(one) => change(one.build)}
          />
          {worker ? <Tried worker={worker} build={build} places={places} forecast={forecast} /> : null}
        </>
      ) : null}
      <SaveBuild
        build={build}
        places={places}
        known={known}
        onSaved={() => {
          forget();
          void navigate({ to: '/places' });
        }}
      />
      <p className="small soft">{say('web.builder.caution')}</p>
    </>
  );
}

function questionOf(build: Build, places: readonly PlaceRecord[], asSaved?: BoxDescription): Question {
  const saved = places.find((one) => one.id === build.placeId);
  return {
    place: saved ? (saved.description as unknown as PlaceDescription) : placeOf(build),
    box: asSaved ?? boxOf(build),
    sleep: { from: build.fromDay.slice(5), days: daysBetween(build.fromDay, build.toDay) },
  };
}

function nameOf(build: Build, places: readonly PlaceRecord[]): string {
  const place = places.find((one) => one.id === build.placeId)?.name ?? wordFor.place(build.preset);
  const water =
    build.bottles === 0
      ? say('web.builder.noWater')
      : say('web.builder.waterText', { count: litresOf(build), litres: litresOf(build) });
  return `${build.wallMm} mm ${wordFor.material(build.wallMaterial)}, ${water}, ${place}`;
}

interface TriedProps {
  readonly worker: Remote<ForecastWorker>;
  readonly build: Build;
  readonly places: readonly PlaceRecord[];
  readonly forecast: { readonly answer: Kept['answer'] };
}

/** Tries single changes once the hand rests, and says which helps most. */
function Tried({ worker, build, places, forecast }: TriedProps) {
  const [rested, setRested] = useState<Build>();
  useEffect(() => {
    const timer = setTimeout(() => setRested(build), 600);
    return () => clearTimeout(timer);
  }, [build]);
  if (!rested) return null;
  return <Advice build={rested} now={forecast.answer} ask={(changed) => worker.answer(questionOf(changed, places))} />;
}
