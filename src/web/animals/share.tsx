import { type FormEvent, useState } from 'react';
import { v7 as uuidv7 } from 'uuid';
import { say } from '../../wording/say.ts';
import { ask } from '../data/client.ts';
import { useFigures } from '../data/group.ts';
import { readAgain, useAnswer } from '../data/queries.ts';
import { AskOnce } from '../parts/ask-once.tsx';
import { sayInstant } from '../parts/dates.ts';
import { Field, typedNumber } from '../parts/field.tsx';
import { Trouble } from '../parts/state.tsx';

interface Link {
  readonly id: string;
  readonly forWhom: string;
  readonly until: string;
  readonly revoked: boolean;
}

const DAY_MS = 86_400_000;

/** Links by which a vet reads one animal: made, listed, taken back. */
export function Share({ animalId }: { readonly animalId: string }) {
  const { zone } = useFigures();
  const path = `animals/${animalId}/shares`;
  const links = useAnswer<readonly Link[]>(path).data ?? [];
  const [forWhom, setWhom] = useState('');
  const [days, setDays] = useState('14');
  const [made, setMade] = useState<{ token: string; forWhom: string }>();
  const [trouble, setTrouble] = useState<Error>();
  const act = async (work: () => Promise<void>) => {
    setTrouble(undefined);
    try {
      await work();
      await readAgain(path);
    } catch (problem) {
      setTrouble(problem as Error);
    }
  };
  const submit = (event: FormEvent) => {
    event.preventDefault();
    void act(async () => {
      const until = new Date(Date.now() + (typedNumber(days) ?? 14) * DAY_MS).toISOString();
      const body = { id: uuidv7(), animalId, forWhom: forWhom.trim(), until };
      const { token } = await ask<{ token: string }>(path, { method: 'POST', body });
      setMade({ token, forWhom: body.forWhom });
    });
  };
  return (
    <details className="why no-print">
      <summary>{say('web.share.open')}</summary>
      <form onSubmit={submit} noValidate>
        <p>{say('web.share.lead')}</p>
        {trouble ? <Trouble error={trouble} /> : null}
        <Field label={say('web.share.forWhom')} value={forWhom} onChange={setWhom} />
        <Field label={say('web.share.days')} kind="number" value={days} onChange={setDays} />
        <button type="submit" className="button">
          {say('web.share.do')}
        </button>
        {made ? (
          <p role="status">
            {say('web.share.made', { whom: made.forWhom })}
            <br />
            <code>{`${location.origin}/shared/${made.token}`}</code>
          </p>
        ) : null}
        <ul className="lines">
          {links
            .filter((link) => !link.revoked)
            .map((link) => (
              <li key={link.id} className="line-row">
                <span>{say('web.share.list', { whom: link.forWhom, until: sayInstant(link.until, zone) })}</span>
                <AskOnce
                  act={say('web.share.revoke')}
                  about={link.forWhom}
                  question={say('web.share.ask', { whom: link.forWhom })}
                  onYes={() => act(() => ask(`${path}/${link.id}`, { method: 'DELETE' }))}
                />
              </li>
            ))}
        </ul>
      </form>
    </details>
  );
}
