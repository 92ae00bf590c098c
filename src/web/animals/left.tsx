import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import { dayInZone } from '../../measure/zone.ts';
import type { Measurement } from '../../schema/measurement.ts';
import { say } from '../../wording/say.ts';
import { saveEntry } from '../data/entries.ts';
import { useFigures, useMayWrite } from '../data/group.ts';
import { useAnswer } from '../data/queries.ts';
import { AskOnce } from '../parts/ask-once.tsx';
import { sayDayYear } from '../parts/dates.ts';
import { Remembered, Trouble } from '../parts/state.tsx';
import { Photographs } from '../photographs/photographs.tsx';
import { about } from './about.ts';
import { GrowthChart } from './growth-chart.tsx';
import { HandOver } from './hand-over.tsx';
import { Law } from './leaving.tsx';
import { type LeftAnimal, sayLeft } from './whereabouts.ts';

/** The page of an animal that died or left: who it was, and the way to its record. It asks for nothing. */
export function Left({ animal, portrait }: { readonly animal: LeftAnimal; readonly portrait: React.ReactNode }) {
  const figures = useFigures();
  const mayWrite = useMayWrite();
  const [trouble, setTrouble] = useState<Error>();
  const measurements = useAnswer<readonly Measurement[]>(`animals/${animal.id}/measurements`).data ?? [];
  const weighed = measurements
    .flatMap(({ at, massG }) => (massG === undefined ? [] : [{ day: dayInZone(Date.parse(at), figures.zone), massG }]))
    .sort((a, b) => (a.day < b.day ? 1 : -1));
  const takeBack = async () => {
    setTrouble(undefined);
    const { leftOn: _, leftHow: __, leftNote: ___, ...here } = animal;
    try {
      await saveEntry('animal', here);
    } catch (problem) {
      setTrouble(problem as Error);
    }
  };
  return (
    <>
      <div className="with-portrait">
        <div>
          <div className="title">
            <h1>{animal.name}</h1>
            <span className="title-beside">{about(animal, animal.leftOn)}</span>
          </div>
          <Remembered path={`animals/${animal.id}`} zone={figures.zone} />
          <p className="lead">{sayLeft(animal)}</p>
          {animal.leftNote ? <p>{animal.leftNote}</p> : null}
          {animal.legalPaper ? <Law animal={animal} /> : null}
        </div>
        {portrait}
      </div>
      {weighed[0] ? (
        <section aria-labelledby="weights">
          <h2 id="weights">{say('web.left.weights')}</h2>
          <p>{say('web.left.lastMass', { day: sayDayYear(weighed[0].day), mass: figures.mass(weighed[0].massG) })}</p>
          {weighed.length > 2 ? <GrowthChart points={weighed} mass={figures.mass} /> : null}
        </section>
      ) : null}
      <Photographs animal={animal} />
      {animal.leftHow === 'died' ? null : <HandOver animal={animal} />}
      {trouble ? <Trouble error={trouble} /> : null}
      <div className="actions">
        <Link to="/animals/$animalId/record" params={{ animalId: animal.id }} className="button">
          {say('web.record.open')}
        </Link>
        <a
          className="button"
          href={`/api/v1/animals/${animal.id}/papers/vet-summary.pdf`}
          target="_blank"
          rel="noreferrer"
        >
          {say('web.papers.vet')}
        </a>
        {mayWrite ? (
          <>
            <Link to="/animals/$animalId/edit" params={{ animalId: animal.id }} className="button" data-kind="quiet">
              {say('web.animal.edit')}
            </Link>
            <AskOnce
              act={say('web.left.takeBack')}
              about={animal.name}
              question={say('web.left.takeBackAsk', { name: animal.name })}
              onYes={takeBack}
            />
          </>
        ) : null}
      </div>
    </>
  );
}
