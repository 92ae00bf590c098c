import { useNavigate, useParams } from '@tanstack/react-router';
import { type FormEvent, useMemo, useState } from 'react';
import { v7 as uuidv7 } from 'uuid';
import type { Animal } from '../../schema/animal.ts';
import { SPECIES } from '../../tortoise/species-table.ts';
import { say } from '../../wording/say.ts';
import { ask, Problem, type ProblemError } from '../data/client.ts';
import { useDraft } from '../data/draft.ts';
import { deleteEntry } from '../data/entries.ts';
import { useFigures } from '../data/group.ts';
import { readAgain, useAnswer } from '../data/queries.ts';
import { AskOnce } from '../parts/ask-once.tsx';
import { Choice, errorAt, Field, Pick, typedMass, typedNumber } from '../parts/field.tsx';
import { Answered, Trouble } from '../parts/state.tsx';
import { Identify } from './identify.tsx';
import { LeavingForm } from './leaving.tsx';

interface Typed {
  readonly id: string;
  readonly measurementId: string;
  readonly name: string;
  readonly species: string;
  readonly sex: Animal['sex'];
  readonly birthDate: string;
  readonly ageYears: string;
  readonly acquiredOn: string;
  readonly wintersSlept: string;
  readonly microchip: string;
  readonly marks: string;
  readonly legalPaper: string;
  readonly notes: string;
  readonly mass: string;
  readonly scl: string;
}

const blank = (): Typed => ({
  id: uuidv7(),
  measurementId: uuidv7(),
  name: '',
  species: '',
  sex: 'unknown',
  birthDate: '',
  ageYears: '',
  acquiredOn: '',
  wintersSlept: '',
  microchip: '',
  marks: '',
  legalPaper: '',
  notes: '',
  mass: '',
  scl: '',
});

export function NewAnimal() {
  const initial = useMemo(blank, []);
  return <AnimalForm draft="new-animal" initial={initial} />;
}

export function EditAnimal() {
  const { animalId } = useParams({ from: '/animals/$animalId/edit' });
  const animal = useAnswer<Animal>(`animals/${animalId}`);
  return (
    <Answered of={animal}>
      {(found) => (
        <>
          <AnimalForm
            draft={`animal-${animalId}`}
            known={found}
            initial={{
              ...blank(),
              id: found.id,
              name: found.name,
              species: found.species,
              sex: found.sex,
              birthDate: found.birthDate ?? '',
              ageYears: found.ageYears === undefined ? '' : String(found.ageYears),
              acquiredOn: found.acquiredOn ?? '',
              wintersSlept: found.wintersSlept === undefined ? '' : String(found.wintersSlept),
              microchip: found.microchip ?? '',
              marks: found.marks ?? '',
              legalPaper: found.legalPaper ?? '',
              notes: found.notes ?? '',
            }}
          />
          <LeavingForm key={found.revision} animal={found} />
        </>
      )}
    </Answered>
  );
}

/** What is typed as the record the server takes, with what the form itself can already say is wrong. */
function readTyped(typed: Typed, known: Animal | undefined, today: string): [Record<string, unknown>, ProblemError[]] {
  const errors: ProblemError[] = [];
  if (typed.name.trim() === '') errors.push({ where: 'name', what: say('web.error.needed') });
  if (typed.species === '') errors.push({ where: 'species', what: say('web.error.needed') });
  const numberOf = (where: 'ageYears' | 'wintersSlept') => {
    if (typed[where].trim() === '') return undefined;
    const value = typedNumber(typed[where]);
    if (value === undefined) errors.push({ where, what: say('web.error.number') });
    return value;
  };
  const age = typed.birthDate ? undefined : numberOf('ageYears');
  const slept = numberOf('wintersSlept');
  const text = (name: 'birthDate' | 'acquiredOn' | 'microchip' | 'marks' | 'legalPaper' | 'notes') =>
    typed[name].trim() === '' ? {} : { [name]: typed[name].trim() };
  const ageAsOf = age !== undefined && known?.ageYears === age && known.ageAsOf ? known.ageAsOf : today;
  return [
    {
      id: typed.id,
      name: typed.name.trim(),
      species: typed.species,
      sex: typed.sex,
      ...text('birthDate'),
      ...(age === undefined ? {} : { ageYears: age, ageAsOf }),
      ...text('acquiredOn'),
      ...(slept === undefined ? {} : { wintersSlept: slept }),
      ...text('microchip'),
      ...text('marks'),
      ...text('legalPaper'),
      ...text('notes'),
      ...(known?.keeperId ? { keeperId: known.keeperId } : {}),
      ...(known?.photographId ? { photographId: known.photographId } : {}),
      ...(known?.leftOn ? { leftOn: known.leftOn, leftHow: known.leftHow } : {}),
      ...(known?.leftNote ? { leftNote: known.leftNote } : {}),
      ...(known?.revision ? { revision: known.revision } : {}),
    },
    errors,
  ];
}

function AnimalForm(props: { readonly draft: string; readonly initial: Typed; readonly known?: Animal }) {
  const { known } = props;
  const [typed, change, forget] = useDraft<Typed>(props.draft, props.initial);
  const [trouble, setTrouble] = useState<Error>();
  const [errors, setErrors] = useState<readonly ProblemError[]>([]);
  const figures = useFigures();
  const navigate = useNavigate();
  const set = (name: keyof Typed) => (value: string) => change({ [name]: value });
  const field = (name: keyof Typed) => ({
    value: typed[name],
    onChange: set(name),
    error: errorAt(errors, name),
  });

  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setTrouble(undefined);
    const [animal, wrong] = readTyped(typed, known, figures.today);
    const mass = typedMass(typed.mass);
    const scl = typedNumber(typed.scl);
    if (typed.mass.trim() !== '' && mass === undefined) wrong.push({ where: 'mass', what: say('web.error.number') });
    if (typed.scl.trim() !== '' && scl === undefined) wrong.push({ where: 'scl', what: say('web.error.number') });
    setErrors(wrong);
    if (wrong.length > 0) return;
    try {
      if (known) await ask(`animals/${typed.id}`, { method: 'PUT', body: animal });
      else await ask('animals', { method: 'POST', body: animal });
      if (mass !== undefined || scl !== undefined)
        await ask(`animals/${typed.id}/measurements`, {
          method: 'POST',
          body: {
            id: typed.measurementId,
            animalId: typed.id,
            at: new Date().toISOString(),
            ...(mass === undefined ? {} : { massG: figures.massG(mass) }),
            ...(scl === undefined ? {} : { sclMm: figures.lengthMm(scl) }),
            kind: 'routine',
          },
        });
      forget();
      await readAgain('animals');
      await navigate({ to: '/animals/$animalId', params: { animalId: typed.id } });
    } catch (problem) {
      setTrouble(problem as Error);
      if (problem instanceof Problem)
        setErrors(
          problem.errors.map((one) => ({
            ...one,
            where: one.where === 'massG' ? 'mass' : one.where === 'sclMm' ? 'scl' : one.where,
          })),
        );
    }
  };

  const remove = async () => {
    if (!known) return;
    setTrouble(undefined);
    try {
      await deleteEntry({ kind: 'animal', record: known, what: known.name });
      forget();
      await navigate({ to: '/animals' });
    } catch (problem) {
      setTrouble(problem as Error);
    }
  };

  return (
    <form onSubmit={submit} noValidate>
      <h1>{known ? say('web.animal.edit.title', { name: known.name }) : say('web.animal.new.title')}</h1>
      {known ? null : <p className="lead">{say('web.animal.new.lead')}</p>}
      {trouble ? <Trouble error={trouble} /> : null}
      {errors.length > 0 && !trouble ? (
        <p className="note" data-level="act" role="alert">
          {say('web.error.check')}
        </p>
      ) : null}
      <div className="columns">
        <div>
          <Field label={say('web.animal.name')} required {...field('name')} />
          <Pick
            label={say('web.animal.species')}
            help={say('web.animal.speciesHelp')}
            options={[
              { value: '', label: say('web.animal.speciesChoose') },
              { value: 'unknown', label: say('web.animal.speciesUnknown') },
              ...SPECIES.filter((one) => one.name !== 'unknown').map((one) => ({
                value: one.name,
                label: `${one.name} · ${one.english}`,
              })),
            ]}
            {...field('species')}
          />
          <details className="why">
            <summary>{say('web.key.open')}</summary>
            <div>
              <Identify onCertain={set('species')} />
            </div>
          </details>
          <Choice
            label={say('web.animal.sex')}
            value={typed.sex}
            onChange={(sex) => change({ sex })}
            options={(['female', 'male', 'unknown'] as const).map((value) => ({
              value,
              label: say(`web.sex.${value}`),
            }))}
          />
          <Field label={say('web.animal.birthDate')} kind="day" {...field('birthDate')} />
          {typed.birthDate ? null : <Field label={say('web.animal.ageYears')} kind="number" {...field('ageYears')} />}
          <Field
            label={say('web.animal.acquiredOn')}
            help={say('web.animal.acquiredHelp')}
            kind="day"
            {...field('acquiredOn')}
          />
          <Field label={say('web.animal.wintersSlept')} kind="number" {...field('wintersSlept')} />
        </div>
        <div>
          {known ? null : (
            <>
              <h2 className="form-part">{say('web.animal.firstWeighing')}</h2>
              <Field
                label={say('web.animal.massG')}
                kind="number"
                numeral
                unit={figures.massUnit}
                help={say('web.condition.noise')}
                {...field('mass')}
              />
              <Field
                label={say('web.animal.sclMm')}
                kind="number"
                numeral
                unit={figures.lengthUnit}
                help={say('web.animal.sclHelp')}
                {...field('scl')}
              />
            </>
          )}
          <Field label={say('web.animal.microchip')} {...field('microchip')} />
          <Field label={say('web.animal.marks')} {...field('marks')} />
          <Field label={say('web.animal.legalPaper')} help={say('web.animal.legalHelp')} {...field('legalPaper')} />
          <Field label={say('web.animal.notes')} kind="lines" {...field('notes')} />
        </div>
      </div>
      <div className="actions">
        <button type="submit" className="button" data-kind="main">
          {say('web.animal.save')}
        </button>
        {known ? (
          <AskOnce
            act={say('web.record.animalDelete', { name: known.name })}
            about={known.name}
            question={say('web.record.animalDeleteAsk', { name: known.name })}
            onYes={remove}
          />
        ) : null}
      </div>
    </form>
  );
}
