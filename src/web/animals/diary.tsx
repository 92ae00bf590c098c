import { type FormEvent, useState } from 'react';
import type { DiaryEntry } from '../../schema/diary.ts';
import type { NormalBeside } from '../../winter/what-is-normal.ts';
import { say } from '../../wording/say.ts';
import { useWithWaiting } from '../data/entries.ts';
import { useFigures } from '../data/group.ts';
import { enter } from '../data/outbox.ts';
import { sayInstant } from '../parts/dates.ts';
import { Field, Pick } from '../parts/field.tsx';
import { Normal } from '../parts/normal.tsx';

const FEW = 8;
export const diaryKinds: readonly DiaryEntry['kind'][] = [
  'note',
  'lid-opened',
  'touch-response',
  'no-touch-response',
  'moved',
  'awake-signs',
  'urine',
  'droppings',
  'gut-cleared',
  'bath',
  'drank',
  'fed',
  'refused-food',
  'lamp-changed',
  'went-down',
  'woken',
];

/** The page of what is normal that belongs to an entry: it stands there before the entry is written. */
const normalOf: Partial<Record<DiaryEntry['kind'], NormalBeside>> = {
  'lid-opened': 'lid-opened',
  'touch-response': 'touch-response',
  'no-touch-response': 'touch-response',
  moved: 'moved',
  'awake-signs': 'awake-signs',
  urine: 'urine',
  droppings: 'droppings',
  bath: 'bath',
  drank: 'drank',
  fed: 'fed',
  'refused-food': 'fed',
};

/** What was done and seen, newest first; entries made here show at once. */
export function Diary({ animalId, entries }: { readonly animalId: string; readonly entries: readonly DiaryEntry[] }) {
  const { zone } = useFigures();
  const [all, setAll] = useState(false);
  const list = [...useWithWaiting('diary', animalId, entries)].sort((a, b) => (a.at < b.at ? 1 : -1));
  return (
    <section aria-labelledby="diary">
      <h2 id="diary">{say('web.diary.title')}</h2>
      <DiaryForm animalId={animalId} />
      {list.length === 0 ? (
        <p className="soft">{say('web.diary.empty')}</p>
      ) : (
        <dl className="facts">
          {(all ? list : list.slice(0, FEW)).map((one) => (
            <div key={one.id}>
              <dt>{sayInstant(one.at, zone)}</dt>
              <dd>
                {say(`web.diary.kind.${one.kind}`)}
                {one.note ? `: ${one.note}` : ''}
              </dd>
            </div>
          ))}
        </dl>
      )}
      {!all && list.length > FEW ? (
        <button type="button" className="button" data-kind="word" onClick={() => setAll(true)}>
          {say('web.diary.more', { count: list.length })}
        </button>
      ) : null}
    </section>
  );
}

function DiaryForm({ animalId }: { readonly animalId: string }) {
  const [kind, setKind] = useState<DiaryEntry['kind']>('note');
  const [note, setNote] = useState('');
  const normal = normalOf[kind];
  const [said, setSaid] = useState('');
  const save = async (event: FormEvent) => {
    event.preventDefault();
    await enter('diary', {
      animalId,
      at: new Date().toISOString(),
      kind,
      ...(note.trim() === '' ? {} : { note: note.trim() }),
    });
    setNote('');
    setSaid(say('web.saved'));
  };
  return (
    <details className="why no-print">
      <summary>{say('web.diary.add')}</summary>
      <form onSubmit={save}>
        <Pick
          label={say('web.diary.kind')}
          value={kind}
          onChange={setKind}
          options={diaryKinds.map((value) => ({ value, label: say(`web.diary.kind.${value}`) }))}
        />
        {normal ? (
          <div role="status">
            <Normal beside={[normal]} />
          </div>
        ) : null}
        <Field label={say('web.diary.note')} kind="lines" value={note} onChange={setNote} />
        <div className="actions">
          <button type="submit" className="button">
            {say('web.diary.save')}
          </button>
          <span role="status">{said}</span>
        </div>
      </form>
    </details>
  );
}
