import { Link, useParams } from '@tanstack/react-router';
import { useState } from 'react';
import type { Animal } from '../../schema/animal.ts';
import type { DiaryEntry } from '../../schema/diary.ts';
import type { Examination } from '../../schema/examination.ts';
import type { GutWarmth } from '../../schema/gut-warmth.ts';
import type { HealthEvent } from '../../schema/health-event.ts';
import type { Measurement } from '../../schema/measurement.ts';
import type { Photograph } from '../../schema/photograph.ts';
import type { Stay } from '../../schema/stay.ts';
import type { TaskDone } from '../../schema/task.ts';
import { say } from '../../wording/say.ts';
import { type AnyRecord, type KeptKind, useWithWaiting } from '../data/entries.ts';
import { takeBack, useOutbox } from '../data/outbox.ts';
import { useAnswer } from '../data/queries.ts';
import { Pick } from '../parts/field.tsx';
import { Answered } from '../parts/state.tsx';
import { DeletedList } from './deleted.tsx';
import { EntryTools } from './entry-tools.tsx';
import { useTold } from './told.ts';

const kinds = [
  'measurement',
  'diary',
  'examination',
  'health-event',
  'stay',
  'task-done',
  'gut-warmth',
  'photograph',
] as const;
type Listed = (typeof kinds)[number];
const AT_ONCE = 40;

/** Everything written about one animal, newest first: each entry can be changed, deleted and looked back on. */
export function RecordScreen() {
  const { animalId } = useParams({ from: '/animals/$animalId/record' });
  const animal = useAnswer<Animal>(`animals/${animalId}`);
  return <Answered of={animal}>{(found) => <Whole key={found.id} animal={found} />}</Answered>;
}

/** The instant or day an entry is about, for the order. */
const momentOf = (record: AnyRecord) => String(record.at ?? record.fromDay ?? record.takenOn ?? '');

function useEverything(animalId: string): readonly { readonly kind: Listed; readonly record: AnyRecord }[] {
  const path = `animals/${animalId}`;
  const measurements = useAnswer<readonly Measurement[]>(`${path}/measurements`).data ?? [];
  const diary = useAnswer<readonly DiaryEntry[]>(`${path}/diary`).data ?? [];
  const examinations = useAnswer<readonly Examination[]>(`${path}/examinations`).data ?? [];
  const health = useAnswer<readonly HealthEvent[]>(`${path}/health-events`).data ?? [];
  const stays = useAnswer<readonly Stay[]>('stays').data ?? [];
  const tasks = useAnswer<readonly TaskDone[]>('tasks-done').data ?? [];
  const warmths = useAnswer<readonly GutWarmth[]>(`${path}/gut-warmth`).data ?? [];
  const photographs = useAnswer<readonly Photograph[]>(`${path}/photographs`).data ?? [];
  const own = <T extends { animalId?: string }>(all: readonly T[]) => all.filter((one) => one.animalId === animalId);
  const parts: Record<Listed, readonly unknown[]> = {
    measurement: useWithWaiting('measurement', animalId, measurements, true),
    diary: useWithWaiting('diary', animalId, diary, true),
    examination: useWithWaiting('examination', animalId, examinations, true),
    'health-event': useWithWaiting('health-event', animalId, health, true),
    stay: useWithWaiting('stay', animalId, own(stays), true),
    'task-done': useWithWaiting('task-done', animalId, own(tasks), true),
    'gut-warmth': useWithWaiting('gut-warmth', animalId, warmths, true),
    photograph: photographs,
  };
  return kinds
    .flatMap((kind) => parts[kind].map((record) => ({ kind, record: record as AnyRecord })))
    .sort((a, b) => (momentOf(a.record) < momentOf(b.record) ? 1 : -1));
}

function Whole({ animal }: { readonly animal: Animal }) {
  const everything = useEverything(animal.id);
  const [only, setOnly] = useState<Listed | ''>('');
  const [shown, setShown] = useState(AT_ONCE);
  const wanted = everything.filter(({ kind }) => only === '' || kind === only);
  return (
    <>
      <h1>{say('web.record.title', { name: animal.name })}</h1>
      <p className="lead">{say('web.record.lead')}</p>
      <Pick<Listed | ''>
        label={say('web.record.only')}
        value={only}
        onChange={(kind) => {
          setOnly(kind);
          setShown(AT_ONCE);
        }}
        options={[
          { value: '', label: say('web.record.everything') },
          ...kinds.map((kind) => ({ value: kind, label: say(`web.entry.${kind}`) })),
        ]}
      />
      {wanted.length === 0 ? <p className="soft">{say('web.record.none')}</p> : null}
      <ul className="lines">
        {wanted.slice(0, shown).map(({ kind, record }) => (
          <Entry key={record.id} kind={kind} record={record} animal={animal} />
        ))}
      </ul>
      {wanted.length > shown ? (
        <button type="button" className="button" data-kind="word" onClick={() => setShown(shown + 200)}>
          {say('web.record.more', { count: wanted.length - shown })}
        </button>
      ) : null}
      <h2>{say('web.record.deletedTitle')}</h2>
      <DeletedList animalId={animal.id} />
      <div className="actions">
        <Link to="/animals/$animalId" params={{ animalId: animal.id }} className="button">
          {animal.name}
        </Link>
      </div>
    </>
  );
}

interface EntryProps {
  readonly kind: KeptKind;
  readonly record: AnyRecord;
  readonly animal: Animal;
}

function Entry({ kind, record, animal }: EntryProps) {
  const { told, when } = useTold(animal.id);
  const waiting = useOutbox().find((entry) => entry.id === record.id);
  const what = `${say(`web.entry.${kind}`)}, ${when(kind, record)}`;
  return (
    <li>
      <p>
        <span className="soft">{when(kind, record)}</span> {say(`web.entry.${kind}`)}: {told(kind, record)}
      </p>
      {waiting && !waiting.deletes ? (
        <p className="small soft">
          {say('web.record.unsent')}{' '}
          <button type="button" className="button" data-kind="word" onClick={() => takeBack(record.id)}>
            {say('web.record.takeBack')}
            <span className="unseen">: {what}</span>
          </button>
        </p>
      ) : (
        <EntryTools kind={kind} record={record} what={what}>
          {kind === 'examination' ? (
            <Link
              to="/animals/$animalId/examinations/$examinationId"
              params={{ animalId: animal.id, examinationId: record.id }}
              className="button"
            >
              {say('web.record.examine')}
            </Link>
          ) : kind === 'photograph' ? (
            <Link to="/animals/$animalId" params={{ animalId: animal.id }} hash="photographs" className="button">
              {say('web.photo.title')}
            </Link>
          ) : null}
        </EntryTools>
      )}
    </li>
  );
}
