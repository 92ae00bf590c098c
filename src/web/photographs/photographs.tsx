import { useState } from 'react';
import type { Animal } from '../../schema/animal.ts';
import type { Photograph } from '../../schema/photograph.ts';
import { say } from '../../wording/say.ts';
import { ask } from '../data/client.ts';
import { useMayWrite } from '../data/group.ts';
import { dropPicture, sendPictures, useWaitingPictures } from '../data/pictures.ts';
import { readAgain, useAnswer } from '../data/queries.ts';
import { AskOnce } from '../parts/ask-once.tsx';
import { sayDayYear } from '../parts/dates.ts';
import { Answered, Trouble } from '../parts/state.tsx';
import { AddPhotograph } from './add-photograph.tsx';
import { Compare } from './compare.tsx';
import { captionOf, newestFirst, pictureOf } from './picture.ts';
import { Viewer } from './viewer.tsx';

const FEW = 6;

/** The photographs of an animal, newest first: looked at, added, compared. Of one that is no longer here none is asked for. */
export function Photographs({ animal }: { readonly animal: Animal }) {
  const path = `animals/${animal.id}/photographs`;
  const photographs = useAnswer<readonly Photograph[]>(path);
  const mayWrite = useMayWrite();
  return (
    <section aria-labelledby="photographs">
      <h2 id="photographs">{say('web.photo.title')}</h2>
      <Answered of={photographs}>{(list) => <Shown animal={animal} list={newestFirst(list)} path={path} />}</Answered>
      <WaitingPictures animal={animal} />
      {mayWrite ? <AddPhotograph animalId={animal.id} name={animal.name} /> : null}
    </section>
  );
}

interface ShownProps {
  readonly animal: Animal;
  readonly list: readonly Photograph[];
  readonly path: string;
}

function Shown({ animal, list, path }: ShownProps) {
  const [all, setAll] = useState(false);
  const [open, setOpen] = useState<string>();
  const [deleted, setDeleted] = useState<Photograph>();
  const [trouble, setTrouble] = useState<Error>();
  const act = async (work: () => Promise<unknown>) => {
    setTrouble(undefined);
    try {
      await work();
      await readAgain(path, 'photographs');
    } catch (problem) {
      setTrouble(problem as Error);
    }
  };
  const remove = (one: Photograph) => {
    setOpen(undefined);
    void act(async () => {
      await ask(`${path}/${one.id}`, { method: 'DELETE' });
      setDeleted(one);
    });
  };
  const undo = (one: Photograph) =>
    act(async () => {
      await ask(`${path}/${one.id}/restore`, { method: 'POST' });
      setDeleted(undefined);
    });
  return (
    <>
      {trouble ? <Trouble error={trouble} /> : null}
      {deleted ? (
        <p className="note" role="status">
          {say('web.photo.deleted')}{' '}
          <button type="button" className="button" onClick={() => undo(deleted)}>
            {say('web.undo')}
          </button>
        </p>
      ) : null}
      {list.length === 0 && animal.leftOn === undefined ? <p className="soft">{say('web.photo.none')}</p> : null}
      <ul className="photos">
        {(all ? list : list.slice(0, FEW)).map((one) => (
          <li key={one.id}>
            <button type="button" className="photo-button" onClick={() => setOpen(one.id)}>
              <img src={pictureOf(one, 'small')} alt={captionOf(one, animal.name)} loading="lazy" className="photo" />
              <span className="unseen">{say('web.photo.open')}</span>
            </button>
            <p className="small">
              {one.takenOn ? sayDayYear(one.takenOn) : say('web.photo.noDay')}
              {one.note ? `: ${one.note}` : ''}
            </p>
          </li>
        ))}
      </ul>
      {!all && list.length > FEW ? (
        <button type="button" className="button" data-kind="word" onClick={() => setAll(true)}>
          {say('web.photo.all', { count: list.length })}
        </button>
      ) : null}
      {list.length > 1 ? <Compare list={list} name={animal.name} /> : null}
      <Viewer
        animal={animal}
        list={list}
        openId={open}
        onOpen={setOpen}
        onDelete={remove}
        onChanged={() => readAgain(path, 'photographs', `animals/${animal.id}`)}
      />
    </>
  );
}

/** What has been taken here and is not yet with the server: sent so far, waiting, or refused with the reason. */
function WaitingPictures({ animal }: { readonly animal: Animal }) {
  const waiting = useWaitingPictures(animal.id);
  if (waiting.length === 0) return null;
  return (
    <ul className="lines">
      {waiting.map((one) => (
        <li key={one.id} className="photo-waiting">
          <img src={one.address} alt={captionOf(one, animal.name)} className="photo" />
          <div>
            {one.refused ? (
              <p className="field-error" role="alert">
                {one.refused} {say('web.photo.refused')}
              </p>
            ) : one.sent === undefined ? (
              <p role="status">{say('web.photo.waiting')}</p>
            ) : (
              <>
                <p role="status">{say('web.photo.sending')}</p>
                <progress max={1} value={one.sent} aria-label={say('web.photo.sending')} />
              </>
            )}
            <div className="actions">
              {one.sent === undefined ? (
                <button type="button" className="button" data-kind="quiet" onClick={() => sendPictures(one.id)}>
                  {say('web.photo.sendNow')}
                </button>
              ) : null}
              <AskOnce
                act={say('web.photo.drop')}
                about={captionOf(one, animal.name)}
                question={say('web.photo.dropAsk')}
                onYes={() => dropPicture(one.id)}
              />
            </div>
          </div>
        </li>
      ))}
    </ul>
  );
}
