import { useState } from 'react';
import type { Trail } from '../../schema/trail.ts';
import { say } from '../../wording/say.ts';
import { type AnyRecord, type KeptKind, saveEntry } from '../data/entries.ts';
import { useFigures, useMayWrite } from '../data/group.ts';
import { useAnswer } from '../data/queries.ts';
import { sayInstant } from '../parts/dates.ts';
import { Answered, Trouble } from '../parts/state.tsx';
import { useTold } from './told.ts';

/** Who changed one record, when, and what stood there before; and the choice where two edits met. */
export function History({ kind, record }: { readonly kind: KeptKind; readonly record: AnyRecord }) {
  const trail = useAnswer<Trail>(`records/${record.id}/changes`);
  return <Answered of={trail}>{(kept) => <Told kind={kind} trail={kept} />}</Answered>;
}

function Told({ kind, trail }: { readonly kind: KeptKind; readonly trail: Trail }) {
  const { zone } = useFigures();
  const { told } = useTold(trail.record.animalId as string | undefined);
  return (
    <>
      <Beside kind={kind} trail={trail} />
      <ol className="plain">
        {trail.changes.map((one) => (
          <li key={one.revision}>
            {say(`web.record.action.${one.action}`, {
              at: sayInstant(one.at, zone),
              by: one.by ?? say('web.record.somebody'),
            })}
            {one.action === 'changed' && one.before ? (
              <span className="soft"> {say('web.record.before', { what: told(kind, one.before) })}</span>
            ) : null}
          </li>
        ))}
      </ol>
    </>
  );
}

/** Two people changed the same thing: both versions are shown, and one is saved. */
function Beside({ kind, trail }: { readonly kind: KeptKind; readonly trail: Trail }) {
  const { zone } = useFigures();
  const mayWrite = useMayWrite();
  const { told } = useTold(trail.record.animalId as string | undefined);
  const [trouble, setTrouble] = useState<Error>();
  if (trail.beside.length === 0) return null;
  const { id, revision } = trail.record as AnyRecord;
  const take = async (body: Readonly<Record<string, unknown>>) => {
    setTrouble(undefined);
    try {
      await saveEntry(kind, { ...body, id, ...(revision === undefined ? {} : { revision }) });
    } catch (problem) {
      setTrouble(problem as Error);
    }
  };
  return (
    <div className="note" data-level="act">
      <p>{say('web.record.two')}</p>
      {trouble ? <Trouble error={trouble} /> : null}
      <ul className="lines">
        <li>
          <p>{say('web.record.stands', { what: told(kind, trail.record) })}</p>
          {mayWrite ? (
            <button type="button" className="button" onClick={() => take(trail.record)}>
              {say('web.record.keepStanding')}
            </button>
          ) : null}
        </li>
        {trail.beside.map((one) => (
          <li key={one.id}>
            <p>
              {say('web.record.other', {
                by: one.by ?? say('web.record.somebody'),
                at: sayInstant(one.at, zone),
                what: told(kind, one.edit),
              })}
            </p>
            {mayWrite ? (
              <button type="button" className="button" onClick={() => take(one.edit)}>
                {say('web.record.takeOther')}
                <span className="unseen">: {told(kind, one.edit)}</span>
              </button>
            ) : null}
          </li>
        ))}
      </ul>
    </div>
  );
}
