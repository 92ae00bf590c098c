import { useNavigate } from '@tanstack/react-router';
import { type FormEvent, useState } from 'react';
import type { Animal, Leaving } from '../../schema/animal.ts';
import { say } from '../../wording/say.ts';
import { Problem, type ProblemError } from '../data/client.ts';
import { saveEntry } from '../data/entries.ts';
import { useFigures } from '../data/group.ts';
import { Choice, errorAt, Field } from '../parts/field.tsx';
import { Trouble } from '../parts/state.tsx';

const ways = ['died', 'given-away', 'sold', 'returned', 'lost', 'other'] as const satisfies readonly Leaving[];

/** Where it is written down that an animal died or left, and where that is put right. */
export function LeavingForm({ animal }: { readonly animal: Animal }) {
  const { today } = useFigures();
  const [how, setHow] = useState<Leaving | ''>(animal.leftHow ?? '');
  const [on, setOn] = useState(animal.leftOn ?? today);
  const [note, setNote] = useState(animal.leftNote ?? '');
  const [errors, setErrors] = useState<readonly ProblemError[]>([]);
  const [trouble, setTrouble] = useState<Error>();
  const navigate = useNavigate();
  const save = async (event: FormEvent) => {
    event.preventDefault();
    setTrouble(undefined);
    const wrong: ProblemError[] = [];
    if (how === '') wrong.push({ where: 'leftHow', what: say('web.error.needed') });
    if (on === '') wrong.push({ where: 'leftOn', what: say('web.error.needed') });
    setErrors(wrong);
    if (wrong.length > 0) return;
    const { leftNote: _, ...rest } = animal;
    try {
      await saveEntry('animal', {
        ...rest,
        leftOn: on,
        leftHow: how,
        ...(note.trim() === '' ? {} : { leftNote: note.trim() }),
      });
      await navigate({ to: '/animals/$animalId', params: { animalId: animal.id } });
    } catch (problem) {
      setTrouble(problem as Error);
      if (problem instanceof Problem) setErrors(problem.errors);
    }
  };
  return (
    <details className="why plain-why">
      <summary>{say(animal.leftOn ? 'web.left.openLeft' : 'web.left.open')}</summary>
      <form onSubmit={save} noValidate>
        <p>{say('web.left.lead')}</p>
        {trouble ? <Trouble error={trouble} /> : null}
        <Choice
          label={say('web.left.how')}
          value={how}
          onChange={(value) => {
            setHow(value);
            setErrors([]);
          }}
          options={ways.map((value) => ({ value, label: say(`web.left.how.${value}`) }))}
          error={errorAt(errors, 'leftHow')}
        />
        <Field label={say('web.left.on')} kind="day" value={on} onChange={setOn} error={errorAt(errors, 'leftOn')} />
        <Field
          label={say('web.left.note')}
          kind="lines"
          value={note}
          onChange={setNote}
          error={errorAt(errors, 'leftNote')}
        />
        <Law animal={animal} />
        <div className="actions">
          <button type="submit" className="button">
            {say('web.left.save')}
          </button>
        </div>
      </form>
    </details>
  );
}

/** What the law may ask is for the local authority to say. */
export function Law({ animal }: { readonly animal: Animal }) {
  return (
    <p className="small soft">
      {animal.legalPaper ? say('web.left.lawPaper', { paper: animal.legalPaper }) : say('web.left.law')}
    </p>
  );
}
