import { useState } from 'react';
import { say } from '../../wording/say.ts';
import { ask } from '../data/client.ts';
import { useFigures, useSession } from '../data/group.ts';
import { readAgain, useAnswer } from '../data/queries.ts';
import { sayInstant } from '../parts/dates.ts';
import { Trouble } from '../parts/state.tsx';
import type { Outside } from '../settings/outside.ts';

interface Quarantined {
  readonly id: string;
  readonly source: string;
  readonly sender: string;
  readonly what: string;
  readonly why: string;
  readonly firstAt: string;
  readonly lastAt: string;
  readonly count: number;
}

/** Where readings come from by themselves, and what came and could not be taken. */
export function Listening() {
  const outside = useAnswer<Outside>('outside').data;
  const { zone } = useFigures();
  const mayLook = useSession().role !== 'reader';
  return (
    <section aria-labelledby="listening">
      <h2 id="listening">{say('web.listening.title')}</h2>
      {outside ? (
        <ul className="plain">
          <li>
            {outside.broker === null
              ? say('web.listening.noBroker')
              : outside.broker.connected
                ? say('web.listening.broker')
                : say('web.listening.brokerLost', { why: outside.broker.reason ?? '' })}
          </li>
          <li>{say(outside.wire ? 'web.listening.wire' : 'web.listening.noWire')}</li>
          <li>
            {outside.weather === null
              ? say('web.listening.noWeather')
              : outside.weather.at === null
                ? say('web.listening.weatherWaits')
                : say('web.listening.weather', { at: sayInstant(outside.weather.at, zone) })}
            {outside.weather?.error ? <span className="field-error"> {outside.weather.error}</span> : null}
          </li>
        </ul>
      ) : null}
      {mayLook ? <Quarantine /> : null}
    </section>
  );
}

function Quarantine() {
  const { zone } = useFigures();
  const list = useAnswer<readonly Quarantined[]>('quarantine').data ?? [];
  const mayClear = useSession().role === 'tutor';
  const [trouble, setTrouble] = useState<Error>();
  const clear = async (id: string) => {
    try {
      await ask(`quarantine/${id}`, { method: 'DELETE' });
      await readAgain('quarantine');
    } catch (problem) {
      setTrouble(problem as Error);
    }
  };
  return (
    <>
      <h3>{say('web.quarantine.title')}</h3>
      <p className="soft">{say(list.length === 0 ? 'web.quarantine.none' : 'web.quarantine.lead')}</p>
      {trouble ? <Trouble error={trouble} /> : null}
      {list.length === 0 ? null : (
        <ul className="lines">
          {list.map((one) => (
            <li key={one.id} className="quarantined">
              <p>
                <strong>{one.why}</strong>{' '}
                {say('web.quarantine.from', {
                  sender: one.sender,
                  count: one.count,
                  at: sayInstant(one.lastAt, zone),
                })}
              </p>
              <p className="small soft">
                <code>{one.what}</code>
              </p>
              {mayClear ? (
                <button type="button" className="button" data-kind="quiet" onClick={() => clear(one.id)}>
                  {say('web.quarantine.clear')}
                </button>
              ) : null}
            </li>
          ))}
        </ul>
      )}
    </>
  );
}
