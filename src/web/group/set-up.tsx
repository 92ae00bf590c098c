import { type FormEvent, useMemo, useState } from 'react';
import { v7 as uuidv7 } from 'uuid';
import { say } from '../../wording/say.ts';
import { ask, Problem } from '../data/client.ts';
import { queryClient } from '../data/queries.ts';
import { errorAt, Field } from '../parts/field.tsx';
import { Trouble } from '../parts/state.tsx';

interface PersonFormProps {
  readonly action: string;
  readonly send: (body: Record<string, string>) => Promise<unknown>;
}

/** Name, sign-in name and passphrase of a person who begins here. */
export function PersonForm({ action, send }: PersonFormProps) {
  const id = useMemo(() => uuidv7(), []);
  const [typed, setTyped] = useState({ name: '', signInName: '', passphrase: '' });
  const [trouble, setTrouble] = useState<Error>();
  const errors = trouble instanceof Problem ? trouble.errors : [];
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setTrouble(undefined);
    try {
      await send({ id, ...typed });
      await queryClient.invalidateQueries();
    } catch (problem) {
      setTrouble(problem as Error);
    }
  };
  const field = (name: keyof typeof typed) => ({
    value: typed[name],
    onChange: (value: string) => setTyped((before) => ({ ...before, [name]: value })),
    error: errorAt(errors, name),
  });
  return (
    <form onSubmit={submit} noValidate>
      {trouble ? <Trouble error={trouble} /> : null}
      <Field label={say('web.group.name')} autoComplete="name" {...field('name')} />
      <Field label={say('web.group.signInName')} autoComplete="username" {...field('signInName')} />
      <Field label={say('web.group.passphrase')} kind="new-passphrase" {...field('passphrase')} />
      <div className="actions">
        <button type="submit" className="button" data-kind="main">
          {action}
        </button>
      </div>
    </form>
  );
}

/** The first person, who becomes the tutor. */
export function SetUp() {
  return (
    <>
      <p>{say('web.group.noPeople')}</p>
      <details className="why">
        <summary>{say('web.group.setUp')}</summary>
        <PersonForm action={say('web.group.setUp')} send={(body) => ask('session/set-up', { method: 'POST', body })} />
      </details>
    </>
  );
}
