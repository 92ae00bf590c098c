import { useNavigate, useParams } from '@tanstack/react-router';
import { type FormEvent, useMemo, useState } from 'react';
import { v7 as uuidv7 } from 'uuid';
import type { Animal } from '../../schema/animal.ts';
import type { Examination } from '../../schema/examination.ts';
import { EXAMINATION_PARTS, findingsFor, judgePart } from '../../tortoise/examination.ts';
import type { ExaminationMoment, ExaminationPart, Findings } from '../../tortoise/types.ts';
import { canSay, type MessageKey, say } from '../../wording/say.ts';
import { NotFound } from '../app/not-found.tsx';
import { useDraft } from '../data/draft.ts';
import { saveEntry } from '../data/entries.ts';
import { enter } from '../data/outbox.ts';
import { readAgain, useAnswer } from '../data/queries.ts';
import { Choice, Field } from '../parts/field.tsx';
import { Normal } from '../parts/normal.tsx';
import { Answered, Trouble } from '../parts/state.tsx';
import { capital, SourceLine, Why } from '../parts/text.tsx';
import { Picture } from './pictures.tsx';

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
  /** One part after the other, or all in one list; a phone begins with the first. */
  readonly way: 'guided' | 'list';
  readonly step: number;
}

const blank = (): Typed => ({
  moment: 'before',
  findings: {},
  answers: {},
  vet: 'unknown',
  vetName: '',
  note: '',
  way: matchMedia('(max-width: 640px)').matches ? 'guided' : 'list',
  step: 0,
});

export function ExaminationScreen() {
  const { animalId } = useParams({ from: '/animals/$animalId/examination' });
  const animal = useAnswer<Animal>(`animals/${animalId}`);
  return <Answered of={animal}>{(found) => <Examine animal={found} />}</Answered>;
}

/** An examination that was kept, to be put right: the same form, with what was found in it. */
export function ChangeExamination() {
  const { animalId, examinationId } = useParams({ from: '/animals/$animalId/examinations/$examinationId' });
  const animal = useAnswer<Animal>(`animals/${animalId}`);
  const examinations = useAnswer<readonly Examination[]>(`animals/${animalId}/examinations`);
  return (
    <Answered of={animal}>
      {(found) => (
        <Answered of={examinations}>
          {(list) => {
            const known = list.find((one) => one.id === examinationId);
            return known ? <Examine key={known.revision} animal={found} known={known} /> : <NotFound />;
          }}
        </Answered>
      )}
    </Answered>
  );
}

const codeOf = (found: string | readonly string[]): string => [found].flat().join('+');

/** What was kept, as it is typed. */
function typedOf(known: Examination): Typed {
  const answer = (yes: boolean): Answer => (yes ? 'yes' : 'no');
  return {
    ...blank(),
    way: 'list',
    moment: known.moment,
    findings: Object.fromEntries(Object.entries(known.findings).map(([part, found]) => [part, codeOf(found)])),
    answers: Object.fromEntries(Object.entries(known.answers ?? {}).map(([name, yes]) => [name, answer(yes)])),
    vet: known.vet ? answer(known.vet.seen) : 'unknown',
    vetName: known.vet?.name ?? '',
    note: known.note ?? '',
  };
}

/** The codes typed; a part with several findings that was left alone keeps them all. */
const findingsOf = (typed: Typed, known: Examination | undefined): Examination['findings'] =>
  Object.fromEntries(
    Object.entries(typed.findings).flatMap(([part, code]) => {
      if (code === '') return [];
      const before = known?.findings[part as ExaminationPart];
      return [[part, before !== undefined && codeOf(before) === code ? before : code]];
    }),
  );

function Examine({ animal, known }: { readonly animal: Animal; readonly known?: Examination }) {
  const id = useMemo(() => known?.id ?? uuidv7(), [known]);
  const initial = useMemo(() => (known ? typedOf(known) : blank()), [known]);
  const [typed, change, forget] = useDraft<Typed>(
    known ? `examination-${known.id}-${known.revision}` : `examination-${animal.id}`,
    initial,
  );
  const [trouble, setTrouble] = useState<Error>();
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
    const body = {
      animalId: animal.id,
      at: known?.at ?? new Date().toISOString(),
      moment: typed.moment,
      findings: findingsOf(typed, known),
      ...(Object.keys(answers).length > 0 && typed.moment === 'before' ? { answers } : {}),
      ...(typed.vet === 'unknown'
        ? {}
        : { vet: { seen: typed.vet === 'yes', ...(typed.vetName.trim() ? { name: typed.vetName.trim() } : {}) } }),
      ...(typed.note.trim() ? { note: typed.note.trim() } : {}),
    };
    setTrouble(undefined);
    try {
      if (known)
        await saveEntry('examination', { ...body, id, ...(known.revision ? { revision: known.revision } : {}) });
      else await enter('examination', body, id);
    } catch (problem) {
      setTrouble(problem as Error);
      return;
    }
    setSaid(say('web.saved'));
    forget();
    await readAgain(`animals/${animal.id}`);
    await navigate({ to: '/animals/$animalId', params: { animalId: animal.id } });
  };
  const parts = EXAMINATION_PARTS.filter((part) => findingsFor(part, typed.moment).length > 0);
  const step = Math.min(typed.step, parts.length);
  const atEnd = step === parts.length;
  const yesNo = (['yes', 'no', 'unknown'] as const).map((value) => ({
    value,
    label: value === 'yes' ? say('web.yes') : value === 'no' ? say('web.no') : say('web.notKnown'),
  }));
  return (
    <form onSubmit={save}>
      <h1>{say('web.exam.title', { name: animal.name })}</h1>
      {trouble ? <Trouble error={trouble} /> : null}
      <p className="lead">{say('web.exam.lead')}</p>
      <Choice
        label={say('web.exam.moment')}
        value={typed.moment}
        onChange={(moment) => change({ moment, findings: {}, step: 0 })}
        options={moments.map((value) => ({ value, label: say(`web.exam.moment.${value}`) }))}
      />
      <Choice
        label={say('web.exam.way')}
        value={typed.way}
        onChange={(way) => change({ way, step: 0 })}
        options={(['guided', 'list'] as const).map((value) => ({ value, label: say(`web.exam.way.${value}`) }))}
      />
      {typed.moment === 'asleep' ? (
        <details className="why">
          <summary>{say('web.normal.title')}</summary>
          <Normal beside={['examination']} when="asleep" />
        </details>
      ) : null}
      {typed.way === 'guided' ? (
        <p className="soft" role="status">
          {atEnd
            ? say('web.exam.stepLast')
            : say('web.exam.step', { step: step + 1, steps: parts.length, part: say(`web.exam.part.${parts[step]!}`) })}
        </p>
      ) : null}
      {(typed.way === 'list' ? parts : parts.slice(step, step + 1)).map((part) => (
        <Part
          key={part}
          part={part}
          moment={typed.moment}
          code={typed.findings[part] ?? ''}
          onChange={(code) => change({ findings: { ...typed.findings, [part]: code } })}
        />
      ))}
      {typed.way === 'list' || atEnd ? (
        <>
          {typed.way === 'guided' ? <Found parts={parts} typed={typed} /> : null}
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
        </>
      ) : null}
      <div className="actions one-hand">
        {typed.way === 'guided' && step > 0 ? (
          <button type="button" className="button" onClick={() => change({ step: step - 1 })}>
            {say('web.exam.back')}
          </button>
        ) : null}
        {typed.way === 'guided' && !atEnd ? (
          <button
            key="next"
            type="button"
            className="button"
            data-kind="main"
            onClick={() => change({ step: step + 1 })}
          >
            {say(typed.findings[parts[step]!] ? 'web.exam.next' : 'web.exam.skip')}
          </button>
        ) : (
          <button key="save" type="submit" className="button" data-kind="main">
            {say('web.exam.save')}
          </button>
        )}
        <span role="status">{said}</span>
      </div>
    </form>
  );
}

/** What was found so far, part by part, before it is saved. */
function Found({ parts, typed }: { readonly parts: readonly ExaminationPart[]; readonly typed: Typed }) {
  return (
    <dl className="facts">
      {parts.map((part) => {
        const code = typed.findings[part];
        return (
          <div key={part}>
            <dt>{say(`web.exam.part.${part}`)}</dt>
            <dd>
              {code
                ? `${capital(say(`web.finding.${code}` as MessageKey))} (${say(`web.gate.${judgePart(part, { [part]: code } as Findings, typed.moment).state}`)})`
                : say('web.exam.notLooked')}
            </dd>
          </div>
        );
      })}
    </dl>
  );
}

/** How to look, for this part and moment. */
function lookAt(part: ExaminationPart, moment: ExaminationMoment): string {
  const asleep = `tortoise.examination.look.${part}.asleep`;
  return say(
    (moment === 'asleep' && canSay({ key: asleep }) ? asleep : `tortoise.examination.look.${part}`) as MessageKey,
  );
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
      <Picture part={part} code={code || 'clear'} />
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
