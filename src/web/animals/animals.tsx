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
import { useThoseHere } from './those-who-left.tsx';
import { hasLeft, sayLeft } from './whereabouts.ts';

export function Animals() {
  const animals = useAnswer<readonly Animal[]>('animals');
  const shownBy = useAnswer<readonly Photograph[]>('photographs/main').data ?? [];
  const { today, zone } = useFigures();
  const { shown, button } = useThoseHere(animals.data ?? []);
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
              {shown.map((animal) => {
                const picture = shownBy.find((one) => one.animalId === animal.id);
                return (
                  <li key={animal.id} className="with-portrait">
                    <Link to="/animals/$animalId" params={{ animalId: animal.id }} className="animal-link">
                      <span className="animal-name">{animal.name}</span>
                      <span className="title-beside">{about(animal, animal.leftOn ?? today)}</span>
                      <span className="soft">{hasLeft(animal) ? sayLeft(animal) : englishName(animal.species)}</span>
                    </Link>
                    {picture ? (
                      <img className="portrait" src={pictureOf(picture, 'small')} alt="" loading="lazy" />
                    ) : null}
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
        {button}
      </div>
    </>
  );
}
