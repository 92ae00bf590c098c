import { type FormEvent, type PointerEvent, useEffect, useRef, useState } from 'react';
import { Dialog } from 'react-aria-components/Dialog';
import { Heading } from 'react-aria-components/Heading';
import { Modal, ModalOverlay } from 'react-aria-components/Modal';
import type { Animal } from '../../schema/animal.ts';
import type { Photograph } from '../../schema/photograph.ts';
import { say } from '../../wording/say.ts';
import { ask, type ProblemError } from '../data/client.ts';
import { useMayWrite } from '../data/group.ts';
import { sayDayYear } from '../parts/dates.ts';
import { errorAt, Field } from '../parts/field.tsx';
import { Trouble } from '../parts/state.tsx';
import { captionOf, pictureOf } from './picture.ts';

/** A finger that went this far sideways, px, meant the next picture. */
const SWIPE_PX = 45;

interface ViewerProps {
  readonly animal: Animal;
  /** Newest first. */
  readonly list: readonly Photograph[];
  readonly openId: string | undefined;
  readonly onOpen: (id: string | undefined) => void;
  readonly onDelete: (one: Photograph) => void;
  readonly onChanged: () => Promise<unknown>;
}

/** One photograph large: arrow keys, buttons and a swipe go to the next; day, caption and main picture are changed here. */
export function Viewer({ animal, list, openId, onOpen, onDelete, onChanged }: ViewerProps) {
  const at = list.findIndex((one) => one.id === openId);
  const one = list[at];
  const down = useRef<number>(undefined);
  const mayWrite = useMayWrite();
  const go = (step: number) => {
    const next = list[at + step];
    if (next) onOpen(next.id);
  };
  useEffect(() => {
    if (openId === undefined) return undefined;
    const pressed = (event: KeyboardEvent) => {
      if (event.target instanceof HTMLInputElement) return;
      const step = event.key === 'ArrowRight' ? 1 : event.key === 'ArrowLeft' ? -1 : 0;
      const next = list[list.findIndex(({ id }) => id === openId) + step];
      if (step !== 0 && next) onOpen(next.id);
    };
    addEventListener('keydown', pressed);
    return () => removeEventListener('keydown', pressed);
  }, [openId, list, onOpen]);
  const lifted = (event: PointerEvent) => {
    const moved = down.current === undefined ? 0 : event.clientX - down.current;
    down.current = undefined;
    if (Math.abs(moved) > SWIPE_PX) go(moved < 0 ? 1 : -1);
  };
  return (
    <ModalOverlay className="veil" isDismissable isOpen={one !== undefined} onOpenChange={() => onOpen(undefined)}>
      <Modal className="asked photo-large">
        <Dialog>
          {one ? (
            <div>
              <Heading slot="title">{animal.name}</Heading>
              <img
                src={pictureOf(one, 'whole')}
                alt={captionOf(one, animal.name)}
                width={one.widthPx}
                height={one.heightPx}
                className="photo"
                draggable={false}
                onPointerDown={(event) => {
                  down.current = event.clientX;
                }}
                onPointerUp={lifted}
              />
              <p role="status">
                {one.takenOn ? sayDayYear(one.takenOn) : say('web.photo.noDay')}
                {one.note ? `: ${one.note}` : ''}{' '}
                <span className="soft">{say('web.photo.count', { number: at + 1, all: list.length })}</span>
              </p>
              <div className="actions">
                <button type="button" className="button" disabled={at === 0} onClick={() => go(-1)}>
                  {say('web.photo.newer')}
                </button>
                <button type="button" className="button" disabled={at === list.length - 1} onClick={() => go(1)}>
                  {say('web.photo.older')}
                </button>
                <button type="button" className="button" data-kind="main" onClick={() => onOpen(undefined)}>
                  {say('web.close')}
                </button>
              </div>
              {mayWrite ? (
                <ChangePhotograph key={one.id} one={one} animal={animal} onDelete={onDelete} onChanged={onChanged} />
              ) : null}
            </div>
          ) : null}
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
}

interface ChangeProps {
  readonly one: Photograph;
  readonly animal: Animal;
  readonly onDelete: (one: Photograph) => void;
  readonly onChanged: () => Promise<unknown>;
}

function ChangePhotograph({ one, animal, onDelete, onChanged }: ChangeProps) {
  const [day, setDay] = useState<string>(one.takenOn ?? '');
  const [note, setNote] = useState(one.note ?? '');
  const [errors, setErrors] = useState<readonly ProblemError[]>([]);
  const [trouble, setTrouble] = useState<Error>();
  const [said, setSaid] = useState('');
  const act = async (work: () => Promise<unknown>) => {
    setTrouble(undefined);
    setErrors([]);
    setSaid('');
    try {
      await work();
      await onChanged();
      setSaid(say('web.saved'));
    } catch (problem) {
      setTrouble(problem as Error);
      setErrors((problem as { errors?: readonly ProblemError[] }).errors ?? []);
    }
  };
  const save = (event: FormEvent) => {
    event.preventDefault();
    const { takenOn: _day, note: _note, ...rest } = one;
    const body = { ...rest, ...(day ? { takenOn: day } : {}), ...(note.trim() ? { note: note.trim() } : {}) };
    void act(() => ask(`animals/${animal.id}/photographs/${one.id}`, { method: 'PUT', body }));
  };
  const main = animal.photographId === one.id;
  const toggleMain = () => {
    const { photographId: _, ...rest } = animal;
    const body = main ? rest : { ...rest, photographId: one.id };
    void act(() => ask(`animals/${animal.id}`, { method: 'PUT', body }));
  };
  return (
    <details className="why plain-why">
      <summary>{say('web.photo.change')}</summary>
      <form onSubmit={save} noValidate>
        {trouble ? <Trouble error={trouble} /> : null}
        <Field
          label={say('web.photo.day')}
          kind="day"
          value={day}
          onChange={setDay}
          error={errorAt(errors, 'takenOn')}
        />
        <Field
          label={say('web.photo.note')}
          help={say('web.photo.noteHelp')}
          value={note}
          onChange={setNote}
          error={errorAt(errors, 'note')}
        />
        <div className="actions">
          <button type="submit" className="button" data-kind="main">
            {say('web.save')}
          </button>
          <button type="button" className="button" onClick={toggleMain}>
            {say(main ? 'web.photo.notMain' : 'web.photo.main', { name: animal.name })}
          </button>
          <button type="button" className="button" data-kind="quiet" onClick={() => onDelete(one)}>
            {say('web.photo.delete')}
          </button>
        </div>
        <p role="status">{said}</p>
      </form>
    </details>
  );
}
