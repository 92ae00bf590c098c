import { useNavigate, useParams } from '@tanstack/react-router';
import { type FormEvent, useMemo, useState } from 'react';
import { v7 as uuidv7 } from 'uuid';
import type { Animal } from '../../schema/animal.ts';
import { EXAMINATION_PARTS, findingsFor, judgePart } from '../../tortoise/examination.ts';
import type { ExaminationMoment, ExaminationPart, Findings } from '../../tortoise/types.ts';
import { english } from '../../wording/en/index.ts';
import { type MessageKey, say } from '../../wording/say.ts';
import { useDraft } from '../data/draft.ts';
import { enter } from '../data/outbox.ts';
import { readAgain, useAnswer } from '../data/queries.ts';
import { Choice, Field } from '../parts/field.tsx';
import { Answered } from '../parts/state.tsx';
import { capital, SourceLine, Why } from '../parts/text.tsx';
import { PartPicture } from './part-picture.tsx';

const moments = ['before', 'asleep', 'waking'] as const;
const questions = [
  'appetiteNormal',
  'weightNormal',
  'hydrated',
  'illness',
  'treatment',
  'parasitesChecked',
  'carryingEggs',
] as const;
type Answer = 'yes' | 'no' | 'unknown';

interface Typed {
  readonly moment: ExaminationMoment;
  readonly findings: Partial<Record<ExaminationPart, string>>;
  readonly answers: Partial<Record<(typeof questions)[number] | 'formConfirmed', Answer>>;
  readonly vet: Answer;
  readonly vetName: string;
  readonly note: string;
}

const blank: Typed = { moment: 'before', findings: {}, answers: {}, vet: 'unknown', vetName: '', note: '' };

export function ExaminationScreen() {
  const { animalId } = useParams({ from: '/animals/$animalId/examination' });
  const animal = useAnswer<Animal>(`animals/${animalId}`);
  return <Answered of={animal}>{(found) => <Examine animal={found} />}</Answered>;
}

function Examine({ animal }: { readonly animal: Animal }) {
  const id = useMemo(() => uuidv7(), []);
  const [typed, change, forget] = useDraft<Typed>(`examination-${animal.id}`, blank);
  const [said, setSaid] = useState('');
  const navigate = useNavigate();
  const asked = [
    ...questions.filter((name) => name !== 'carryingEggs' || animal.sex !== 'male'),
    ...(animal.species.includes('graeca') ? (['formConfirmed'] as const) : []),
  ];
  const save = async (event: FormEvent) => {
    event.preventDefault();
    const answers = Object.fromEntries(
      Object.entries(typed.answers).flatMap(([name, answer]) =>
        answer === 'unknown' ? [] : [[name, answer === 'yes']],
      ),
    );
    await enter(
      'examination',
      {
        animalId: animal.id,
        at: new Date().toISOString(),
        moment: typed.moment,
        findings: Object.fromEntries(Object.entries(typed.findings).filter(([, code]) => code !== '')),
        ...(Object.keys(answers).length > 0 && typed.moment === 'before' ? { answers } : {}),
        ...(typed.vet === 'unknown'
          ? {}
          : { vet: { seen: typed.vet === 'yes', ...(typed.vetName.trim() ? { name: typed.vetName.trim() } : {}) } }),
        ...(typed.note.trim() ? { note: typed.note.trim() } : {}),
      },
      id,
    );
    setSaid(say('web.saved'));
    forget();
    await readAgain(`animals/${animal.id}`);
    await navigate({ to: '/animals/$animalId', params: { animalId: animal.id } });
  };
  const yesNo = (['yes', 'no', 'unknown'] as const).map((value) => ({
    value,
    label: value === 'yes' ? say('web.yes') : value === 'no' ? say('web.no') : say('web.notKnown'),
  }));
  return (
    <form onSubmit={save}>
      <h1>{say('web.exam.title', { name: animal.name })}</h1>
      <p className="lead">{say('web.exam.lead')}</p>
      <Choice
        label={say('web.exam.moment')}
        value={typed.moment}
        onChange={(moment) => change({ moment, findings: {} })}
        options={moments.map((value) => ({ value, label: say(`web.exam.moment.${value}`) }))}
      />
      {EXAMINATION_PARTS.filter((part) => findingsFor(part, typed.moment).length > 0).map((part) => (
        <Part
          key={part}
          part={part}
          moment={typed.moment}
          code={typed.findings[part] ?? ''}
          onChange={(code) => change({ findings: { ...typed.findings, [part]: code } })}
        />
      ))}
      {typed.moment === 'before' ? (
        <>
          <h2>{say('web.exam.summer')}</h2>
          {asked.map((name) => (
            <Choice
              key={name}
              label={say(`web.exam.${name}`)}
              value={typed.answers[name] ?? 'unknown'}
              onChange={(answer) => change({ answers: { ...typed.answers, [name]: answer } })}
              options={yesNo}
            />
          ))}
        </>
      ) : null}
      <Choice label={say('web.exam.vet')} value={typed.vet} onChange={(vet) => change({ vet })} options={yesNo} />
      {typed.vet === 'yes' ? (
        <Field label={say('web.exam.vetName')} value={typed.vetName} onChange={(vetName) => change({ vetName })} />
      ) : null}
      <Field label={say('web.exam.note')} kind="lines" value={typed.note} onChange={(note) => change({ note })} />
      <div className="actions">
        <button type="submit" className="button" data-kind="main">
          {say('web.exam.save')}
        </button>
        <span role="status">{said}</span>
      </div>
    </form>
  );
}

/** How to look, for this part and moment. */
function lookAt(part: ExaminationPart, moment: ExaminationMoment): string {
  const asleep = `tortoise.examination.look.${part}.asleep`;
  return say((moment === 'asleep' && asleep in english ? asleep : `tortoise.examination.look.${part}`) as MessageKey);
}

interface PartProps {
  readonly part: ExaminationPart;
  readonly moment: ExaminationMoment;
  readonly code: string;
  readonly onChange: (code: string) => void;
}

/** One part: a drawing of where to look, the answers, and what the one chosen means. */
function Part({ part, moment, code, onChange }: PartProps) {
  const rows = findingsFor(part, moment);
  const judged =
    code && rows.some((row) => row.code === code) ? judgePart(part, { [part]: code } as Findings, moment) : undefined;
  return (
    <div className="exam-part">
      <PartPicture part={part} />
      <div>
        <Choice
          help={lookAt(part, moment)}
          label={say(`web.exam.part.${part}`)}
          value={code}
          onChange={onChange}
          options={[
            ...rows.map((row) => ({
              value: row.code,
              label: say(`web.finding.${row.code}` as MessageKey),
            })),
            { value: '', label: say('web.exam.notLooked') },
          ]}
        />
        {judged ? (
          <div role="status">
            <p>
              <strong>{capital(say(`web.gate.${judged.state}`))}.</strong> {say(judged.reason)} {say(judged.advice)}
            </p>
            <Why>
              <SourceLine source={judged.source} />
            </Why>
          </div>
        ) : null}
      </div>
    </div>
  );
}
