import { useState } from 'react';
import { spelled } from '../../schema/probe-name.ts';
import type { Probe } from '../../schema/reading.ts';
import { say } from '../../wording/say.ts';
import { ask } from '../data/client.ts';
import { readAgain, useAnswer } from '../data/queries.ts';
import { AskOnce } from '../parts/ask-once.tsx';
import { Trouble } from '../parts/state.tsx';
import type { Outside } from '../settings/outside.ts';

const MINUTE_MS = 60_000;

/** How a thermometer sends its readings by itself: a token of its own for HTTP, or the topic that a broker is listened to on. */
export function SendItself({ probe }: { readonly probe: Probe }) {
  const [open, setOpen] = useState(false);
  return (
    <details className="why no-print" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{say('web.send.title')}</summary>
      {open ? (
        <div>
          <Token probe={probe} />
          <Topic probe={probe} />
        </div>
      ) : null}
    </details>
  );
}

function Token({ probe }: { readonly probe: Probe }) {
  const path = `probes/${probe.id}/token`;
  const made = useAnswer<{ readonly made: boolean }>(path).data?.made;
  const [token, setToken] = useState<string>();
  const [said, setSaid] = useState('');
  const [trouble, setTrouble] = useState<Error>();
  const doing = async (what: () => Promise<void>) => {
    setTrouble(undefined);
    setSaid('');
    try {
      await what();
      await readAgain(path);
    } catch (problem) {
      setTrouble(problem as Error);
    }
  };
  const make = () =>
    doing(async () => {
      setToken((await ask<{ token: string }>(path, { method: 'POST' })).token);
    });
  const withdraw = () =>
    doing(async () => {
      await ask(path, { method: 'DELETE' });
      setToken(undefined);
      setSaid(say('web.send.withdrawn'));
    });
  return (
    <>
      <h3>{say('web.send.http')}</h3>
      <p>{say('web.send.lead')}</p>
      {trouble ? <Trouble error={trouble} /> : null}
      {made === undefined || token !== undefined ? null : <p>{say(made ? 'web.send.made' : 'web.send.none')}</p>}
      {token === undefined ? null : (
        <div className="note" role="status">
          <p>{say('web.send.once')}</p>
          <Copied text={token} name={say('web.send.copyToken')} secret />
          <p>{say('web.send.example')}</p>
          <Copied text={exampleLine(token)} name={say('web.send.copyLine')} />
        </div>
      )}
      <div className="actions">
        {made ? (
          <>
            <AskOnce
              act={say('web.send.renew')}
              about={probe.name}
              question={say('web.send.renewSure', { probe: probe.name })}
              onYes={make}
            />
            <AskOnce
              act={say('web.send.withdraw')}
              about={probe.name}
              question={say('web.send.withdrawSure', { probe: probe.name })}
              onYes={withdraw}
            />
          </>
        ) : made === false ? (
          <button type="button" className="button" onClick={() => void make()}>
            {say('web.send.make')}
            <span className="unseen">: {probe.name}</span>
          </button>
        ) : null}
        <span role="status">{said}</span>
      </div>
    </>
  );
}

function Topic({ probe }: { readonly probe: Probe }) {
  const topic = useAnswer<Outside>('outside').data?.broker?.topic;
  return (
    <>
      <h3>{say('web.send.mqtt')}</h3>
      {topic === undefined ? (
        <p>{say('web.send.noBroker')}</p>
      ) : (
        <>
          <p>{say('web.send.topic')}</p>
          <Copied text={topic.replace('{probe}', spelled(probe.name))} name={say('web.send.copyTopic')} />
        </>
      )}
    </>
  );
}

/** A text to be taken elsewhere. Over plain HTTP there is no clipboard: then it stands there to be marked by hand. */
function Copied({ text, name, secret }: { readonly text: string; readonly name: string; readonly secret?: boolean }) {
  const [copied, setCopied] = useState(false);
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(text);
      setCopied(true);
    } catch {
      setCopied(false);
    }
  };
  return (
    <div>
      <code className={secret ? 'address secret' : 'address'}>{text}</code>
      {window.isSecureContext ? (
        <div className="actions">
          <button type="button" className="button" data-kind="quiet" onClick={() => void copy()}>
            {copied ? say('web.send.copied') : name}
          </button>
        </div>
      ) : null}
    </div>
  );
}

/** A line for a shell that sends two readings of now: what a maker of a thermometer tries first. */
function exampleLine(token: string): string {
  const nowMs = Math.floor(Date.now() / 1000) * 1000;
  const at = (ms: number) => new Date(ms).toISOString().replace('.000', '');
  const readings = [
    { at: at(nowMs - MINUTE_MS), tempC: 4.9 },
    { at: at(nowMs), tempC: 4.8, humidity: 0.81, batteryPercent: 93 },
  ];
  return `curl -X POST ${location.origin}/api/v1/ingest -H 'Authorization: Bearer ${token}' -H 'Content-Type: application/json' -d '${JSON.stringify(readings)}'`;
}
