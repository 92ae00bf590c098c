import { type FormEvent, useState } from 'react';
import { v7 as uuidv7 } from 'uuid';
import type { Channel } from '../../schema/channel.ts';
import { say } from '../../wording/say.ts';
import { ask, Problem } from '../data/client.ts';
import { readAgain } from '../data/queries.ts';
import { Choice, Field } from '../parts/field.tsx';
import { Trouble } from '../parts/state.tsx';
import type { Outside } from './outside.ts';
import { pushAddress, pushObstacle } from './push-device.ts';

type Kind = Channel['kind'];

/** One more way to be reached. What this server or this page cannot do is said, with the reason, instead of offered. */
export function AddChannel({ outside }: { readonly outside: Outside }) {
  const [kind, setKind] = useState<Kind>('email');
  const [address, setAddress] = useState('');
  const [error, setError] = useState('');
  const [trouble, setTrouble] = useState<Error>();
  const [secret, setSecret] = useState('');
  const [said, setSaid] = useState('');
  const obstacle = kind === 'push' ? pushObstacle(outside.pushKey) : undefined;
  const cannot =
    kind === 'email' && !outside.mail
      ? say('web.told.noMail')
      : obstacle
        ? say(`web.told.push.${obstacle}`)
        : undefined;

  const made = async (): Promise<Record<string, unknown> | undefined> => {
    if (kind === 'push') {
      const found = await pushAddress(outside.pushKey as string);
      if (!found) setError(say('web.told.push.refused'));
      return found && { kind, ...found, device: deviceName() };
    }
    const typed = address.trim();
    if (typed === '') setError(say('web.error.needed'));
    return typed === '' ? undefined : kind === 'email' ? { kind, address: typed } : { kind, url: typed };
  };
  const add = async (event: FormEvent) => {
    event.preventDefault();
    setError('');
    setSecret('');
    setSaid('');
    setTrouble(undefined);
    try {
      const way = await made();
      if (!way) return;
      const answer = await ask<{ secret?: string }>('channels', { method: 'POST', body: { id: uuidv7(), ...way } });
      setSecret(answer.secret ?? '');
      setAddress('');
      setSaid(say('web.told.added'));
      await readAgain('channels');
    } catch (problem) {
      if (problem instanceof Problem && problem.errors.some((one) => /address|url/.test(one.where)))
        setError(problem.errors.map((one) => one.what).join(' '));
      else setTrouble(problem as Error);
    }
  };
  return (
    <form onSubmit={add} noValidate className="form-part" aria-labelledby="add-way">
      <h3 id="add-way">{say('web.told.add')}</h3>
      {trouble ? <Trouble error={trouble} /> : null}
      <Choice
        label={say('web.told.kind')}
        value={kind}
        onChange={(next) => {
          setKind(next);
          setError('');
          setSaid('');
        }}
        options={(['email', 'push', 'webhook'] as const).map((value) => ({
          value,
          label: say(`web.told.kind.${value}`),
        }))}
      />
      {kind === 'push' ? (
        <p className="field-help">{say('web.told.pushHelp')}</p>
      ) : (
        <Field
          label={say(kind === 'email' ? 'web.told.address' : 'web.told.url')}
          kind={kind === 'email' ? 'email' : 'text'}
          help={kind === 'webhook' ? say('web.told.urlHelp') : undefined}
          value={address}
          onChange={setAddress}
          error={error || undefined}
        />
      )}
      {kind === 'push' && error ? (
        <p className="field-error" role="alert">
          {error}
        </p>
      ) : null}
      {cannot ? <p className="note">{cannot}</p> : null}
      <div className="actions">
        <button type="submit" className="button" disabled={obstacle !== undefined}>
          {say('web.told.add')}
        </button>
        <span role="status">{said}</span>
      </div>
      {secret ? (
        <div className="note" role="status">
          <p>{say('web.told.secret')}</p>
          <p className="secret">
            <code>{secret}</code>
          </p>
        </div>
      ) : null}
    </form>
  );
}

/** A name the person will know this device by in the list. */
function deviceName(): string {
  const system = /Android|iPhone|iPad|Windows|Mac OS|Linux/.exec(navigator.userAgent)?.[0];
  return say('web.told.deviceOf', { system: system ?? say('web.told.device') });
}
