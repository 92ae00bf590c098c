import { useState } from 'react';
import { v7 as uuidv7 } from 'uuid';
import type { CalendarLink } from '../../schema/person.ts';
import { say } from '../../wording/say.ts';
import { ask } from '../data/client.ts';
import { useFigures } from '../data/group.ts';
import { readAgain, useAnswer } from '../data/queries.ts';
import { sayInstant } from '../parts/dates.ts';
import { Field } from '../parts/field.tsx';
import { Trouble } from '../parts/state.tsx';

/** Addresses that a calendar program subscribes to: make one, copy it, take it back. */
export function Subscription() {
  const { zone } = useFigures();
  const links = useAnswer<readonly CalendarLink[]>('calendars').data ?? [];
  const [forWhom, setForWhom] = useState('');
  const [address, setAddress] = useState<string>();
  const [copied, setCopied] = useState(false);
  const [leaving, setLeaving] = useState<string>();
  const [trouble, setTrouble] = useState<Error>();
  const doing = async (what: () => Promise<void>) => {
    setTrouble(undefined);
    try {
      await what();
      await readAgain('calendars');
    } catch (problem) {
      setTrouble(problem as Error);
    }
  };
  const make = () =>
    doing(async () => {
      const body = { id: uuidv7(), forWhom: forWhom.trim() || say('web.papers.subscribe.unnamed') };
      const made = await ask<{ path: string }>('calendars', { method: 'POST', body });
      setAddress(`${location.origin}${made.path}`);
      setCopied(false);
      setForWhom('');
    });
  const revoke = (id: string) =>
    doing(async () => {
      await ask(`calendars/${id}`, { method: 'DELETE' });
      setLeaving(undefined);
      setAddress(undefined);
    });
  const copy = async (text: string) => {
    try {
      await navigator.clipboard.writeText(text);
      setCopied(true);
    } catch {
      // A browser without a clipboard over plain HTTP: the address stands there to be marked by hand.
      setCopied(false);
    }
  };
  return (
    <section aria-labelledby="subscribe">
      <h2 id="subscribe">{say('web.papers.subscribe.title')}</h2>
      <p>{say('web.papers.subscribe.lead')}</p>
      {trouble ? <Trouble error={trouble} /> : null}
      <form
        onSubmit={(event) => {
          event.preventDefault();
          void make();
        }}
      >
        <Field label={say('web.papers.subscribe.forWhom')} value={forWhom} onChange={setForWhom} />
        <button type="submit" className="button">
          {say('web.papers.subscribe.make')}
        </button>
      </form>
      {address ? (
        <div className="note" role="status">
          <p>{say('web.papers.subscribe.made')}</p>
          <p>
            <code className="address">{address}</code>
          </p>
          <button type="button" className="button" onClick={() => void copy(address)}>
            {say(copied ? 'web.papers.subscribe.copied' : 'web.papers.subscribe.copy')}
          </button>
        </div>
      ) : null}
      {links.length > 0 ? (
        <ul className="lines">
          {links.map((link) => (
            <li key={link.id}>
              <strong>{link.forWhom}</strong>{' '}
              <span className="soft">
                {say('web.papers.subscribe.since', { at: sayInstant(link.madeAt, zone) })}
                {link.madeBy ? `, ${link.madeBy}` : ''}
              </span>
              <div className="actions">
                {leaving === link.id ? (
                  <>
                    <span>{say('web.papers.subscribe.sure')}</span>
                    <button type="button" className="button" onClick={() => void revoke(link.id)}>
                      {say('web.papers.subscribe.revokeNow')}
                    </button>
                    <button type="button" className="button" onClick={() => setLeaving(undefined)}>
                      {say('web.cancel')}
                    </button>
                  </>
                ) : (
                  <button type="button" className="button" onClick={() => setLeaving(link.id)}>
                    {say('web.papers.subscribe.revoke')}
                    <span className="unseen">, {link.forWhom}</span>
                  </button>
                )}
              </div>
            </li>
          ))}
        </ul>
      ) : null}
    </section>
  );
}
