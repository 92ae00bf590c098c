import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import type { Channel } from '../../schema/channel.ts';
import { say } from '../../wording/say.ts';
import { ask } from '../data/client.ts';
import { useFigures, useSession } from '../data/group.ts';
import { readAgain, useAnswer } from '../data/queries.ts';
import { sayInstant } from '../parts/dates.ts';
import { Answered, Trouble } from '../parts/state.tsx';
import { AddChannel } from './add-channel.tsx';
import { ListeningForm } from './listening-form.tsx';
import type { Outside } from './outside.ts';

interface KeptChannel {
  readonly channel: Channel;
  readonly failedAt?: string;
  readonly lastError?: string;
}

/** How I am told: my ways of being reached, and when. */
export function Told() {
  const { person } = useSession();
  return (
    <section aria-labelledby="told">
      <h2 id="told">{say('web.told.title')}</h2>
      <p>{say('web.told.lead')}</p>
      {person ? (
        <MyWays />
      ) : (
        <p className="note">
          {say('web.told.nobody')} <Link to="/group">{say('web.told.toGroup')}</Link>
        </p>
      )}
    </section>
  );
}

function MyWays() {
  const channels = useAnswer<readonly KeptChannel[]>('channels');
  const outside = useAnswer<Outside>('outside').data;
  return (
    <>
      <Answered of={channels}>
        {(list) =>
          list.length === 0 ? (
            <p className="soft">{say('web.told.none')}</p>
          ) : (
            <ul className="lines">
              {list.map((one) => (
                <Way key={one.channel.id} kept={one} />
              ))}
            </ul>
          )
        }
      </Answered>
      {outside ? <AddChannel outside={outside} /> : null}
      <ListeningForm />
    </>
  );
}

/** What is shown of a way: whom or what it reaches. */
const nameOf = (channel: Channel): string =>
  channel.kind === 'email'
    ? channel.address
    : channel.kind === 'webhook'
      ? channel.url
      : (channel.device ?? say('web.told.device'));

function Way({ kept }: { readonly kept: KeptChannel }) {
  const { zone } = useFigures();
  const { channel, failedAt, lastError } = kept;
  const [sent, setSent] = useState('');
  const [asked, setAsked] = useState(false);
  const [trouble, setTrouble] = useState<Error>();
  const act = async (what: () => Promise<unknown>, then: string) => {
    setTrouble(undefined);
    setSent('');
    try {
      await what();
      setSent(then);
    } catch (problem) {
      setTrouble(problem as Error);
    }
    await readAgain('channels');
  };
  return (
    <li className="way">
      <p>
        <strong>{say(`web.told.kind.${channel.kind}`)}</strong> {nameOf(channel)}
      </p>
      {failedAt ? (
        <p className="field-error">
          {say('web.told.failed', { at: sayInstant(failedAt, zone), why: lastError ?? '' })}
        </p>
      ) : null}
      {trouble ? <Trouble error={trouble} /> : null}
      <div className="actions">
        <button
          type="button"
          className="button"
          onClick={() => act(() => ask(`channels/${channel.id}/test`, { method: 'POST' }), say('web.told.tested'))}
        >
          {say('web.told.test')}
        </button>
        {asked ? (
          <>
            <span>{say('web.told.removeAsk')}</span>
            <button
              type="button"
              className="button"
              data-kind="act"
              onClick={() => act(() => ask(`channels/${channel.id}`, { method: 'DELETE' }), '')}
            >
              {say('web.told.remove')}
            </button>
            <button type="button" className="button" data-kind="quiet" onClick={() => setAsked(false)}>
              {say('web.cancel')}
            </button>
          </>
        ) : (
          <button type="button" className="button" data-kind="quiet" onClick={() => setAsked(true)}>
            {say('web.told.remove')}
          </button>
        )}
        <span role="status">{sent}</span>
      </div>
    </li>
  );
}
