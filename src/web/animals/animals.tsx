import { Link } from '@tanstack/react-router';
import type { Animal } from '../../schema/animal.ts';
import type { Photograph } from '../../schema/photograph.ts';
import { say } from '../../wording/say.ts';
import { useFigures } from '../data/group.ts';
import { useAnswer } from '../data/queries.ts';
import { Answered, Remembered } from '../parts/state.tsx';
import { Empty } from '../parts/text.tsx';
import { pictureOf } from '../photographs/picture.ts';
import { about, englishName } from './about.ts';

export function Animals() {
  const animals = useAnswer<readonly Animal[]>('animals');
  const shownBy = useAnswer<readonly Photograph[]>('photographs/main').data ?? [];
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
              {list.map((animal) => {
                const shown = shownBy.find((one) => one.animalId === animal.id);
                return (
                  <li key={animal.id} className="with-portrait">
                    <Link to="/animals/$animalId" params={{ animalId: animal.id }} className="animal-link">
                      <span className="animal-name">{animal.name}</span>
                      <span className="title-beside">{about(animal, today)}</span>
                      <span className="soft">{englishName(animal.species)}</span>
                    </Link>
                    {shown ? <img className="portrait" src={pictureOf(shown, 'small')} alt="" loading="lazy" /> : null}
                  </li>
                );
              })}
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
