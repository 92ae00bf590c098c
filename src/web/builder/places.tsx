import { Link } from '@tanstack/react-router';
import type { Animal } from '../../schema/animal.ts';
import type { BoxRecord, PlaceRecord } from '../../schema/housing.ts';
import type { Stay } from '../../schema/stay.ts';
import { say } from '../../wording/say.ts';
import { hasLeft, thoseHere } from '../animals/whereabouts.ts';
import { useFigures, useMayWrite } from '../data/group.ts';
import { useAnswer } from '../data/queries.ts';
import { sayDay } from '../parts/dates.ts';
import { Answered } from '../parts/state.tsx';
import { Empty } from '../parts/text.tsx';
import { EntryTools } from '../record/entry-tools.tsx';
import { StayForm } from './stay-form.tsx';

/** Each place with its boxes and who sleeps in them. */
export function Places() {
  const places = useAnswer<readonly PlaceRecord[]>('places');
  const boxes = useAnswer<readonly BoxRecord[]>('boxes').data ?? [];
  const stays = useAnswer<readonly Stay[]>('stays').data ?? [];
  const animals = useAnswer<readonly Animal[]>('animals').data ?? [];
  const gone = animals.filter(hasLeft);
  const { today } = useFigures();
  const mayWrite = useMayWrite();
  return (
    <>
      <h1>{say('web.places.title')}</h1>
      <p className="lead">{say('web.places.lead')}</p>
      <div className="actions">
        <Link to="/places/build" className="button" data-kind="main">
          {say('web.places.build')}
        </Link>
      </div>
      <Answered of={places}>
        {(list) =>
          list.length === 0 ? (
            <Empty>
              <p>{say('web.places.empty')}</p>
            </Empty>
          ) : (
            list.map((place) => {
              const here = boxes.filter((box) => box.placeId === place.id);
              return (
                <section key={place.id} aria-labelledby={`place-${place.id}`}>
                  <h2 id={`place-${place.id}`}>{place.name}</h2>
                  <EntryTools kind="place" record={place} what={place.name}>
                    <Link to="/places/$placeId" params={{ placeId: place.id }} className="button">
                      {say('web.places.rebuild')}
                      <span className="unseen">: {place.name}</span>
                    </Link>
                  </EntryTools>
                  {here.length === 0 ? <p className="soft">{say('web.places.noBoxes')}</p> : null}
                  <ul className="lines">
                    {here.map((box) => {
                      const stay = stays.find(
                        (one) =>
                          one.boxId === box.id &&
                          (!one.toDay || one.toDay >= today) &&
                          !gone.some(({ id }) => id === one.animalId),
                      );
                      const animal = animals.find((one) => one.id === stay?.animalId);
                      return (
                        <li key={box.id}>
                          <div className="line-row">
                            <span>
                              <Link to="/places/boxes/$boxId" params={{ boxId: box.id }} className="place-link">
                                {box.name}
                              </Link>{' '}
                              <span className="soft">
                                {stay && animal
                                  ? say('web.places.inIt', { animal: animal.name, day: sayDay(stay.fromDay, today) })
                                  : say('web.places.nobody')}
                              </span>
                            </span>
                          </div>
                          {mayWrite ? (
                            <StayForm box={box} placeId={place.id} stay={stay} animals={thoseHere(animals)} />
                          ) : null}
                          <EntryTools kind="box" record={box} what={box.name}>
                            <Link to="/places/boxes/$boxId" params={{ boxId: box.id }} className="button">
                              {say('web.places.rebuild')}
                              <span className="unseen">: {box.name}</span>
                            </Link>
                          </EntryTools>
                        </li>
                      );
                    })}
                  </ul>
                </section>
              );
            })
          )
        }
      </Answered>
    </>
  );
}
