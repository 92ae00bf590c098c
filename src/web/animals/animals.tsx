import { Link } from '@tanstack/react-router';
import type { Animal } from '../../schema/animal.ts';
import { say } from '../../wording/say.ts';
import { useFigures } from '../data/group.ts';
import { useAnswer } from '../data/queries.ts';
import { Answered, Remembered } from '../parts/state.tsx';
import { Empty } from '../parts/text.tsx';
import { about, englishName } from './about.ts';

export function Animals() {
  const animals = useAnswer<readonly Animal[]>('animals');
  const { today, zone } = useFigures();
  return (
    <>
      <h1>{say('web.animals.title')}</h1>
      <Remembered path="animals" zone={zone} />
      <Answered of={animals}>
        {(list) =>
          list.length === 0 ? (
            <Empty>
              <p>{say('web.animals.empty')}</p>
            </Empty>
          ) : (
            <ul className="lines animal-list">
              {list.map((animal) => (
                <li key={animal.id}>
                  <Link to="/animals/$animalId" params={{ animalId: animal.id }} className="animal-link">
                    <span className="animal-name">{animal.name}</span>
                    <span className="title-beside">{about(animal, today)}</span>
                    <span className="soft">{englishName(animal.species)}</span>
                  </Link>
                </li>
              ))}
            </ul>
          )
        }
      </Answered>
      <div className="actions">
        <Link to="/animals/new" className="button" data-kind="main">
          {say('web.animals.new')}
        </Link>
      </div>
    </>
  );
}
