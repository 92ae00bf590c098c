import { type ChangeEvent, type FormEvent, useEffect, useState } from 'react';
import type { Day } from '../../measure/day.ts';
import { dayInZone } from '../../measure/zone.ts';
import { say } from '../../wording/say.ts';
import { useFigures } from '../data/group.ts';
import { enterPicture } from '../data/pictures.ts';
import { Field } from '../parts/field.tsx';
import { shrink } from './shrink.ts';

interface Chosen {
  readonly image: Blob;
  readonly address: string;
}

/** Takes a photograph with the camera or from a file; shows it with its day and caption before it is kept. */
export function AddPhotograph({ animalId, name }: { readonly animalId: string; readonly name: string }) {
  const { today, zone } = useFigures();
  const [chosen, setChosen] = useState<Chosen>();
  const [day, setDay] = useState<string>(today);
  const [note, setNote] = useState('');
  const [fault, setFault] = useState('');
  const [said, setSaid] = useState('');
  useEffect(() => () => chosen && URL.revokeObjectURL(chosen.address), [chosen]);

  const choose = async (event: ChangeEvent<HTMLInputElement>) => {
    const file = event.target.files?.[0];
    // The same file can be chosen again after a mistake.
    event.target.value = '';
    if (!file) return;
    setSaid(say('web.photo.reading'));
    setFault('');
    const made = await shrink(file);
    setSaid('');
    if ('fault' in made) {
      setFault(say(`web.photo.${made.fault}`, { file: file.name }));
      return;
    }
    setChosen({ image: made.image, address: URL.createObjectURL(made.image) });
    // A clock of a camera that runs ahead took no picture tomorrow.
    setDay(dayInZone(Math.min(file.lastModified, Date.now()), zone));
  };
  const save = async (event: FormEvent) => {
    event.preventDefault();
    if (!chosen) return;
    if (day === '' || day > today) {
      setFault(say(day === '' ? 'web.error.needed' : 'web.photo.future'));
      return;
    }
    const text = note.trim();
    try {
      await enterPicture({ animalId, takenOn: day as Day, image: chosen.image, ...(text ? { note: text } : {}) });
    } catch {
      setFault(say('web.photo.notKept'));
      return;
    }
    setChosen(undefined);
    setNote('');
    setFault('');
    setSaid(say('web.photo.kept'));
  };
  return (
    <form onSubmit={save} noValidate className="no-print" aria-label={say('web.photo.add')}>
      {chosen ? (
        <div className="photo-new">
          <img src={chosen.address} alt={say('web.photo.chosen', { name })} className="photo" />
          <div>
            <Field label={say('web.photo.day')} kind="day" value={day} onChange={setDay} error={fault || undefined} />
            <Field label={say('web.photo.note')} help={say('web.photo.noteHelp')} value={note} onChange={setNote} />
            <div className="actions">
              <button type="submit" className="button" data-kind="main">
                {say('web.photo.save')}
              </button>
              <button type="button" className="button" data-kind="quiet" onClick={() => setChosen(undefined)}>
                {say('web.cancel')}
              </button>
            </div>
          </div>
        </div>
      ) : (
        <>
          <div className="actions">
            <PictureInput label={say('web.photo.take')} camera onChange={choose} />
            <PictureInput label={say('web.photo.choose')} onChange={choose} />
          </div>
          {fault ? (
            <p className="field-error" role="alert">
              {fault}
            </p>
          ) : null}
        </>
      )}
      <p role="status">{said}</p>
      <p className="field-help">{say('web.photo.removed')}</p>
    </form>
  );
}

interface PictureInputProps {
  readonly label: string;
  /** Straight to the camera, on a device that has one. */
  readonly camera?: boolean;
  readonly onChange: (event: ChangeEvent<HTMLInputElement>) => void;
}

function PictureInput({ label, camera, onChange }: PictureInputProps) {
  return (
    <label className="button picture-input">
      {label}
      <input type="file" accept="image/*" capture={camera ? 'environment' : undefined} onChange={onChange} />
    </label>
  );
}
