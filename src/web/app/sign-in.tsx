import { type FormEvent, useState } from 'react';
import { say } from '../../wording/say.ts';
import { ask, Problem } from '../data/client.ts';
import { queryClient } from '../data/queries.ts';
import { errorAt, Field } from '../parts/field.tsx';
import { Trouble } from '../parts/state.tsx';

export function SignIn() {
  const [signInName, setName] = useState('');
  const [passphrase, setPassphrase] = useState('');
  const [error, setError] = useState<Error>();
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    try {
      await ask('session', { method: 'POST', body: { signInName, passphrase } });
      await queryClient.invalidateQueries();
    } catch (problem) {
      setError(problem as Error);
    }
  };
  const errors = error instanceof Problem ? error.errors : [];
  return (
    <form onSubmit={submit} noValidate>
      <h1>{say('web.signIn.title')}</h1>
      {error ? <Trouble error={error} /> : null}
      <Field
        label={say('web.signIn.name')}
        value={signInName}
        onChange={setName}
        autoComplete="username"
        error={errorAt(errors, 'signInName')}
      />
      <Field
        label={say('web.signIn.passphrase')}
        kind="passphrase"
        value={passphrase}
        onChange={setPassphrase}
        error={errorAt(errors, 'passphrase')}
      />
      <p className="field-help">{say('web.signIn.forgotten')}</p>
      <div className="actions">
        <button type="submit" className="button" data-kind="main">
          {say('web.signIn.do')}
        </button>
      </div>
    </form>
  );
}
