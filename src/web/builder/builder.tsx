import { Link, useNavigate, useParams } from '@tanstack/react-router';
import { useMemo, useState } from 'react';
import { v7 as uuidv7 } from 'uuid';
import { checkBoxInPlace } from '../../heat/check.ts';
import type { BoxDescription } from '../../heat/description.ts';
import type { BoxRecord, PlaceRecord } from '../../schema/housing.ts';
import { say } from '../../wording/say.ts';
import { useDraft } from '../data/draft.ts';
import { useFigures, useGroup } from '../data/group.ts';
import { useAnswer } from '../data/queries.ts';
import { Answered, Trouble } from '../parts/state.tsx';
import { Empty } from '../parts/text.tsx';
import { Advice } from './advice.tsx';
import { Air } from './air.tsx';
import { atPlace, type Build, boxOf, buildFrom, firstBuild, savedBox, usualSleep } from './build.ts';
import { Comparison, type Kept } from './comparison.tsx';
import { ForecastView } from './forecast-view.tsx';
import { ReadingsLack } from './read-cover.tsx';
import { SaveBuild } from './save-build.tsx';
import { described, nameOf, otherPlaces, placeNameOf, questionOf, shownBuild } from './saved-places.ts';
import { Section } from './section.tsx';
import { Sentence } from './sentence.tsx';
import { useForecast } from './use-forecast.ts';
import { useThread, useThreads } from './use-worker.ts';

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
            const first = firstBuild(...usualSleep(today, group.latitudeDeg));
            const placeId = known.placeId ?? list[0]?.id;
            const place = described(list).find((one) => one.id === placeId);
            const base = { ...first, ...(place ? atPlace(place, first) : {}) };
            const told = buildFrom(known.description as unknown as BoxDescription, {
              ...base,
              name: known.name,
            });
            return (
              <Builder
                key={`${known.id}${known.revision}`}
                draft={`build-${known.id}-${known.revision ?? 0}`}
                initial={told ?? { ...base, name: known.name }}
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

function Builder({ draft, initial, places: records, known, asSaved }: BuilderProps) {
  const places = useMemo(() => described(records), [records]);
  const [typed, change, forget] = useDraft<Build>(draft, initial);
  const build =
    typed.placeId && !places.some((one) => one.id === typed.placeId) ? { ...typed, placeId: undefined } : typed;
  const savedPlace = places.find((one) => one.id === build.placeId);
  const { start, none, error, read } = useThreads(savedPlace);
  const worker = useThread(start);
  const [kept, setKept] = useState<readonly Kept[]>([]);
  const navigate = useNavigate();
  const box =
    asSaved ?? (known ? savedBox(known.description as unknown as BoxDescription, initial, build) : boxOf(build));
  const question = questionOf(build, places, box);
  const cold = question.place.kind === 'refrigerator';
  const tooLarge = checkBoxInPlace(question.box, question.place).length > 0;
  const { forecast, tooFew, refused } = useForecast(tooLarge ? undefined : worker, question);
  const lacks =
    !tooLarge && read !== undefined && (read.air === undefined || (worker !== undefined && tooFew !== undefined));
  const shown = tooLarge || lacks ? undefined : forecast;
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
      {lacks ? <ReadingsLack probes={read.probes} tooFew={tooFew} build={build} /> : null}
      {refused || tooLarge ? (
        <p className="note" data-level="act" role="alert">
          {tooLarge ? say('web.builder.largerThanPlace') : say('web.builder.refused', { why: refused })}
        </p>
      ) : null}
      <div className="build-view">
        <Section build={build} />
        {shown ? (
          <ForecastView forecast={shown} fromDay={`${build.fromDay.slice(0, 4)}-${shown.question.sleep.from}`} />
        ) : none || error || tooLarge || lacks ? null : (
          <p className="soft" role="status">
            {say('web.builder.working')}
          </p>
        )}
      </div>
      {shown ? (
        <>
          <Comparison
            name={name}
            forecast={shown}
            kept={kept}
            onKeep={() =>
              setKept((before) => [...before, { id: uuidv7(), name, build, answer: shown.answer, box: shown.box }])
            }
            onDrop={(id) => setKept((before) => before.filter((one) => one.id !== id))}
            onBack={(one) => change(one.build)}
          />
          {asSaved || cold || !shown.box ? null : <Air build={build} answer={shown.answer} box={shown.box} />}
          {cold ? null : shown.read && !shown.read.searchable ? (
            <section aria-labelledby="helps">
              <h2 id="helps">{say('web.builder.help.title')}</h2>
              <p>{say('web.advice.wantsWinter')}</p>
            </section>
          ) : (
            <Advice
              start={start}
              question={question}
              here={placeNameOf(build, places)}
              others={otherPlaces(build, places)}
              onShow={(one) => change(shownBuild(build, one, places))}
              onRefrigerator={() => change({ placeId: undefined, preset: 'refrigerator' })}
            />
          )}
        </>
      ) : null}
      <SaveBuild
        build={build}
        places={records}
        known={known}
        box={box}
        onSaved={() => {
          forget();
          void navigate({ to: '/places' });
        }}
      />
      {known ? (
        <p>
          <Link to="/places/boxes/$boxId/dry-run" params={{ boxId: known.id }}>
            {say('web.calibration.title', { box: known.name })}
          </Link>
        </p>
      ) : null}
      <p className="small soft">{say('web.builder.caution')}</p>
    </>
  );
}
