import { useState } from 'react';
import type { Animal } from '../../schema/animal.ts';
import type { DeletedEntry } from '../../schema/trail.ts';
import { say } from '../../wording/say.ts';
import { type AnyRecord, bringBack, type KeptKind } from '../data/entries.ts';
import { useFigures, useMayWrite } from '../data/group.ts';
import { useAnswer } from '../data/queries.ts';
import { sayInstant } from '../parts/dates.ts';
import { Answered, Trouble } from '../parts/state.tsx';
import { useTold } from './told.ts';

/** Everything of the group that was deleted in the last 30 days. */
export function DeletedScreen() {
  return (
    <>
      <h1>{say('web.record.deletedTitle')}</h1>
      <p className="lead">{say('web.record.deletedLead')}</p>
      <DeletedList />
    </>
  );
}

/** What was deleted in the last 30 days, of one animal or of all, each to be brought back. */
export function DeletedList({ animalId }: { readonly animalId?: string }) {
  const deleted = useAnswer<readonly DeletedEntry[]>('deleted');
  return (
    <Answered of={deleted}>
      {(list) => {
        const shown = list.filter(
          ({ record }) => animalId === undefined || record.animalId === animalId || record.id === animalId,
        );
        return shown.length === 0 ? (
          <p className="soft">{say('web.record.deletedNone')}</p>
        ) : (
          <ul className="lines">
            {shown.map((one) => (
              <Line key={String(one.record.id)} entry={one} named={animalId === undefined} />
            ))}
          </ul>
        );
      }}
    </Answered>
  );
}

function Line({ entry, named }: { readonly entry: DeletedEntry; readonly named: boolean }) {
  const { zone } = useFigures();
  const mayWrite = useMayWrite();
  const animals = useAnswer<readonly Animal[]>('animals').data ?? [];
  const record = entry.record as AnyRecord;
  const kind = entry.kind as KeptKind;
  const { told, when } = useTold(record.animalId as string | undefined);
  const [trouble, setTrouble] = useState<Error>();
  const animal = named ? animals.find((one) => one.id === record.animalId)?.name : undefined;
  const what = [animal, say(`web.entry.${kind}`), when(kind, record), told(kind, record)].filter(Boolean).join(', ');
  const back = async () => {
    setTrouble(undefined);
    try {
      await bringBack(kind, record);
    } catch (problem) {
      setTrouble(problem as Error);
    }
  };
  return (
    <li>
      {trouble ? <Trouble error={trouble} /> : null}
      <div className="line-row">
        <span>
          {what}{' '}
          <span className="soft">
            {say('web.record.deletedAt', {
              at: sayInstant(entry.at, zone),
              by: entry.by ?? say('web.record.somebody'),
            })}
          </span>
        </span>
        {mayWrite ? (
          <button type="button" className="button" onClick={back}>
            {say('web.record.bringBack')}
            <span className="unseen">: {what}</span>
          </button>
        ) : null}
      </div>
    </li>
  );
}
