import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import { say } from '../../wording/say.ts';
import { applyTheme, type Theme, theme } from '../app/theme.ts';
import { ask } from '../data/client.ts';
import { useGroup, useSession } from '../data/group.ts';
import { enter, enterDeletion, flush, takeBack, useOutbox } from '../data/outbox.ts';
import { forgetAnswers } from '../data/queries.ts';
import type { Entry } from '../data/store.ts';
import { AskOnce } from '../parts/ask-once.tsx';
import { sayInstant } from '../parts/dates.ts';
import { Choice } from '../parts/field.tsx';
import { GroupForm } from './group-form.tsx';
import { Told } from './told.tsx';

export function Settings() {
  const told = useState('');
  const group = useGroup();
  const session = useSession();
  const [chosen, setChosen] = useState<Theme>(theme());
  const signOut = async () => {
    await ask('session', { method: 'DELETE' });
    await forgetAnswers();
    location.assign('/');
  };
  return (
    <>
      <h1>{say('web.settings.title')}</h1>
      <Choice
        label={say('web.settings.theme')}
        value={chosen}
        onChange={(next) => {
          applyTheme(next);
          setChosen(next);
        }}
        options={(['device', 'light', 'dark'] as const).map((value) => ({
          value,
          label: say(`web.settings.theme.${value}`),
        }))}
      />
      <Told />
      <OutboxPart zone={group.zone} />
      <h2>{say('web.record.deletedTitle')}</h2>
      <p>
        {say('web.record.deletedLead')} <Link to="/deleted">{say('web.record.deletedGo')}</Link>
      </p>
      <h2>{say('web.settings.offline')}</h2>
      <p>{say(window.isSecureContext ? 'web.settings.offlineOk' : 'web.settings.offlineHttps')}</p>
      <h2>{say('web.settings.group')}</h2>
      <GroupForm known={group} action={say('web.settings.save')} key={group.revision ?? 0} told={told} />
      {session.person ? (
        <div className="actions">
          <button type="button" className="button" data-kind="quiet" onClick={signOut}>
            {say('web.signIn.out')}
          </button>
        </div>
      ) : null}
    </>
  );
}

/** What waits or was refused, each to be sent again or let go; letting go asks once and says what is lost. */
function OutboxPart({ zone }: { readonly zone: string }) {
  const entries = useOutbox();
  const again = async (entry: Entry) => {
    await takeBack(entry.id);
    if (entry.deletes) await enterDeletion(entry.kind, entry.body as { id: string });
    else await enter(entry.kind, entry.body as Record<string, unknown>, entry.id);
  };
  return (
    <section aria-labelledby="outbox">
      <h2 id="outbox">{say('web.settings.outbox')}</h2>
      {entries.length === 0 ? <p className="soft">{say('web.settings.outboxNone')}</p> : null}
      {entries.length > 0 ? (
        <ul className="lines">
          {entries.map((entry) => (
            <li key={entry.id}>
              <p>
                <strong>{say(`web.entry.${entry.kind as 'measurement'}`)}</strong>{' '}
                {entry.deletes ? `${say('web.record.deletedUnsent')} ` : ''}
                <span className="soft">{say('web.settings.outboxMade', { at: sayInstant(entry.madeAtMs, zone) })}</span>
              </p>
              <p className="small">{summary(entry)}</p>
              {entry.refused ? (
                <p className="field-error">
                  {[entry.refused.detail, ...entry.refused.errors.map((one) => one.what)].filter(Boolean).join(' ')}
                </p>
              ) : null}
              {animalOfEdit(entry) ? (
                <Link to="/animals/$animalId/record" params={{ animalId: animalOfEdit(entry)! }}>
                  {say('web.record.conflict')}
                </Link>
              ) : null}
              <div className="actions">
                <button type="button" className="button" onClick={() => (entry.refused ? again(entry) : flush())}>
                  {say('web.settings.outboxGo')}
                </button>
                <AskOnce
                  act={say('web.settings.outboxDrop')}
                  about={summary(entry)}
                  question={say('web.settings.outboxAsk', { what: summary(entry) })}
                  onYes={() => takeBack(entry.id)}
                />
              </div>
            </li>
          ))}
        </ul>
      ) : null}
    </section>
  );
}

/** The animal of an edit that was refused: on its record both versions are shown. */
function animalOfEdit(entry: Entry): string | undefined {
  const { animalId, revision } = entry.body as { animalId?: string; revision?: number };
  return entry.refused && revision !== undefined ? animalId : undefined;
}

/** The facts of an entry that a person typed, without the ids. */
function summary(entry: Entry): string {
  return Object.entries(entry.body as Record<string, unknown>)
    .filter(([name, value]) => !/id$/i.test(name) && (typeof value === 'string' || typeof value === 'number'))
    .map(([name, value]) => `${name} ${value}`)
    .join(', ');
}
