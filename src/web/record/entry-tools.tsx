import { type FormEvent, useState } from 'react';
import { say } from '../../wording/say.ts';
import { Problem, type ProblemError } from '../data/client.ts';
import { type AnyRecord, deleteEntry, type KeptKind, saveEntry } from '../data/entries.ts';
import { useFigures, useMayWrite } from '../data/group.ts';
import { takeBack, useOutbox } from '../data/outbox.ts';
import type { Entry } from '../data/store.ts';
import { errorAt, Field, Pick } from '../parts/field.tsx';
import { Trouble } from '../parts/state.tsx';
import { FIELDS, shownAs, type TypedField, withTyped } from './fields.ts';
import { History } from './history.tsx';

interface ToolsProps {
  readonly kind: KeptKind;
  readonly record: AnyRecord;
  /** Which one it is, in words, for those who do not see the line it stands in, and for the line that says it was deleted. */
  readonly what: string;
  /** Another way to change it, beside or instead of the fields. */
  readonly children?: React.ReactNode;
}

/** Beside one kept record: change it, delete it, see who wrote and changed it. A reader sees the last of these. */
export function EntryTools({ kind, record, what, children }: ToolsProps) {
  const [open, setOpen] = useState(false);
  const mayWrite = useMayWrite();
  const deletion = useOutbox().find((entry) => entry.deletes && entry.id === record.id);
  if (deletion) return <Deletion deletion={deletion} kind={kind} record={record} what={what} />;
  return (
    <details className="why no-print" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        {say(mayWrite ? 'web.record.change' : 'web.record.who')}
        <span className="unseen">: {what}</span>
      </summary>
      {open ? (
        <div>
          {mayWrite ? (
            <Change key={record.revision} kind={kind} record={record} what={what}>
              {children}
            </Change>
          ) : null}
          <p>
            <strong>{say('web.record.who')}</strong>
          </p>
          <History kind={kind} record={record} />
        </div>
      ) : null}
    </details>
  );
}

/** A record that is to be deleted: taken back until that is sent, and asked about when somebody changed it meanwhile. */
function Deletion({ deletion, kind, record, what }: ToolsProps & { readonly deletion: Entry }) {
  const [trouble, setTrouble] = useState<Error>();
  const act = async (work: () => Promise<unknown>) => {
    setTrouble(undefined);
    try {
      await work();
    } catch (problem) {
      setTrouble(problem as Error);
    }
  };
  if (!deletion.refused)
    return (
      <p className="small soft">
        {say('web.record.deletedUnsent')}{' '}
        <button type="button" className="button" data-kind="word" onClick={() => act(() => takeBack(record.id))}>
          {say('web.undo')}
          <span className="unseen">: {what}</span>
        </button>
      </p>
    );
  const { detail, errors } = deletion.refused;
  return (
    <div className="note" data-level="act">
      <p>{[detail, ...errors.map((one) => one.what).filter((one) => one !== detail)].join(' ')}</p>
      {trouble ? <Trouble error={trouble} /> : null}
      <div className="actions">
        <button type="button" className="button" onClick={() => act(() => takeBack(record.id))}>
          {say('web.record.keepStanding')}
          <span className="unseen">: {what}</span>
        </button>
        <button
          type="button"
          className="button"
          data-kind="quiet"
          onClick={() =>
            act(async () => {
              await takeBack(record.id);
              await deleteEntry({ kind, record, what });
            })
          }
        >
          {say('web.record.deleteAnyway')}
          <span className="unseen">: {what}</span>
        </button>
      </div>
    </div>
  );
}

function Change({ kind, record, what, children }: ToolsProps) {
  const figures = useFigures();
  const fields = FIELDS[kind] ?? [];
  const [typed, setTyped] = useState<Readonly<Record<string, string>>>(() =>
    Object.fromEntries(fields.map((field) => [field.name, shownAs(field, record, figures)])),
  );
  const [errors, setErrors] = useState<readonly ProblemError[]>([]);
  const [trouble, setTrouble] = useState<Error>();
  const [said, setSaid] = useState('');
  const act = async (work: () => Promise<string>) => {
    setTrouble(undefined);
    setErrors([]);
    setSaid('');
    try {
      setSaid(await work());
    } catch (problem) {
      setTrouble(problem as Error);
      if (problem instanceof Problem) setErrors(problem.errors);
    }
  };
  const save = (event: FormEvent) => {
    event.preventDefault();
    const made = withTyped(fields, record, typed, figures);
    if ('where' in made) {
      setErrors([made]);
      return;
    }
    void act(async () => say((await saveEntry(kind, made.body)) === 'saved' ? 'web.saved' : 'web.record.waiting'));
  };
  const remove = () =>
    act(async () => {
      await deleteEntry({ kind, record, what });
      return '';
    });
  return (
    <form onSubmit={save} noValidate>
      {trouble ? <Trouble error={trouble} /> : null}
      {fields.map((field) => (
        <OneField
          key={field.name}
          field={field}
          value={typed[field.name] ?? ''}
          error={errorAt(errors, field.name)}
          onChange={(value) => setTyped({ ...typed, [field.name]: value })}
        />
      ))}
      <div className="actions">
        {fields.length > 0 ? (
          <button type="submit" className="button" data-kind="main">
            {say('web.save')}
            <span className="unseen">: {what}</span>
          </button>
        ) : null}
        {children}
        <button type="button" className="button" data-kind="quiet" onClick={remove}>
          {say('web.record.delete')}
          <span className="unseen">: {what}</span>
        </button>
        <span role="status">{said}</span>
      </div>
    </form>
  );
}

interface OneFieldProps {
  readonly field: TypedField;
  readonly value: string;
  readonly error: string | undefined;
  readonly onChange: (value: string) => void;
}

function OneField({ field, value, error, onChange }: OneFieldProps) {
  const { massUnit, lengthUnit, temperatureUnit } = useFigures();
  const shared = { label: say(field.label), value, onChange, error };
  if (field.form === 'pick')
    return <Pick {...shared} options={(field.options ?? []).map((one) => ({ ...one, label: say(one.label) }))} />;
  const unit = { mass: massUnit, length: lengthUnit, temperature: temperatureUnit, hours: 'h' }[field.form as 'mass'];
  const kind = unit ? 'number' : field.form === 'line' ? 'text' : field.form;
  return <Field {...shared} kind={kind as 'text'} {...(unit ? { unit } : {})} />;
}
