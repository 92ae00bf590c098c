import type { ReactNode } from 'react';
import { say } from '../../wording/say.ts';
import { Problem } from '../data/client.ts';
import { rememberedSinceMs } from '../data/queries.ts';
import { sayInstant } from './dates.ts';

interface Asked<T> {
  readonly data: T | undefined;
  readonly error: Error | null;
  readonly refetch?: () => unknown;
}

/** Shows what was asked for, or what is in the way. An old answer stays in sight while a new one fails. */
export function Answered<T>({ of, children }: { readonly of: Asked<T>; readonly children: (answer: T) => ReactNode }) {
  if (of.data !== undefined) return <>{children(of.data)}</>;
  if (of.error) return <Trouble error={of.error} again={of.refetch} />;
  return (
    <p className="soft" role="status">
      {say('web.reading')}
    </p>
  );
}

/** What went wrong, what was kept, and what to do. */
export function Trouble({ error, again }: { readonly error: Error; readonly again?: (() => unknown) | undefined }) {
  // The first thing that is wrong is often the sentence itself.
  const more = error instanceof Problem ? error.errors.filter((one) => one.what !== error.message) : [];
  return (
    <div className="note" data-level="act" role="alert">
      <p>
        <strong>{error instanceof Problem ? error.title : say('web.error.title')}</strong>
        {error.message && error.message !== (error as Problem).title ? ` ${error.message}` : ''}
      </p>
      {more.length > 0 && (
        <ul>
          {more.map((one) => (
            <li key={`${one.where} ${one.what}`}>{one.what}</li>
          ))}
        </ul>
      )}
      {again && (
        <button type="button" className="button" onClick={() => again()}>
          {say('web.error.again')}
        </button>
      )}
    </div>
  );
}

/** Says when what is shown was read from this device instead of the server. */
export function Remembered({ path, zone }: { readonly path: string; readonly zone: string }) {
  const since = rememberedSinceMs(path);
  if (since === undefined) return null;
  return (
    <p className="note" role="status">
      {say('web.remembered', { at: sayInstant(since, zone) })}
    </p>
  );
}
