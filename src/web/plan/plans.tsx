import { Link } from '@tanstack/react-router';
import type { Animal } from '../../schema/animal.ts';
import type { Measurement } from '../../schema/measurement.ts';
import { say } from '../../wording/say.ts';
import { about } from '../animals/about.ts';
import { lineFacts } from '../animals/line-facts.ts';
import { planInForce, type StoredPlan } from '../animals/records.ts';
import { thoseHere } from '../animals/whereabouts.ts';
import { useFigures } from '../data/group.ts';
import { useAnswer } from '../data/queries.ts';
import { Answered, Remembered } from '../parts/state.tsx';
import { Empty } from '../parts/text.tsx';
import { WinterLine } from '../winter-line/winter-line.tsx';

/** Every animal's winter, one line beneath the other. */
export function Plans() {
  const animals = useAnswer<readonly Animal[]>('animals');
  const { zone } = useFigures();
  return (
    <>
      <h1>{say('web.plans.title')}</h1>
      <p className="lead">{say('web.plans.lead')}</p>
      <Remembered path="animals" zone={zone} />
      <Answered of={animals}>
        {(list) =>
          thoseHere(list).length === 0 ? (
            <Empty>
              <p>{say('web.plans.empty')}</p>
              <Link to="/animals/new" className="button" data-kind="main">
                {say('web.animals.new')}
              </Link>
            </Empty>
          ) : (
            thoseHere(list).map((animal) => <One key={animal.id} animal={animal} />)
          )
        }
      </Answered>
    </>
  );
}

function One({ animal }: { readonly animal: Animal }) {
  const figures = useFigures();
  const plans = useAnswer<readonly StoredPlan[]>(`animals/${animal.id}/plans`);
  const measurements = useAnswer<readonly Measurement[]>(`animals/${animal.id}/measurements`).data ?? [];
  const plan = planInForce(plans.data ?? [])?.plan;
  return (
    <section className="one-plan" aria-labelledby={`plan-${animal.id}`}>
      <div className="title">
        <h2 id={`plan-${animal.id}`}>
          <Link to="/plans/$animalId" params={{ animalId: animal.id }}>
            {animal.name}
          </Link>
        </h2>
        <span className="title-beside">{about(animal, figures.today)}</span>
      </div>
      {plan ? (
        <WinterLine
          title={say('web.line.title', { name: animal.name })}
          facts={lineFacts({
            plan,
            today: figures.today,
            zone: figures.zone,
            measurements,
            mass: figures.mass,
            temperature: figures.temperature,
          })}
        />
      ) : plans.data ? (
        <p className="soft">{say('web.plans.none')}</p>
      ) : null}
    </section>
  );
}
