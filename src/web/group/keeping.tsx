import { useState } from 'react';
import { v7 as uuidv7 } from 'uuid';
import { figure } from '../../measure/figures.ts';
import type { ArchiveContents, ArchiveTaken, Backups } from '../../schema/archive.ts';
import { say } from '../../wording/say.ts';
import { ask } from '../data/client.ts';
import { useFigures } from '../data/group.ts';
import { readAgain, useAnswer } from '../data/queries.ts';
import { sendFile } from '../data/send-file.ts';
import { sayInstant } from '../parts/dates.ts';
import { Answered, Trouble } from '../parts/state.tsx';

/** The records taken along and brought in, and their backups. For the tutor. */
export function Keeping() {
  return (
    <section aria-labelledby="keeping">
      <h2 id="keeping">{say('web.keeping.title')}</h2>
      <h3>{say('web.keeping.out')}</h3>
      <p>{say('web.keeping.outLead')}</p>
      <p>
        <a className="button" href="/api/v1/archive" download>
          {say('web.keeping.outDo')}
        </a>
      </p>
      <TakeIn />
      <BackupList />
    </section>
  );
}

type Step =
  | { readonly at: 'choose' }
  | { readonly at: 'sending'; readonly file: string; readonly share: number }
  | { readonly at: 'look' | 'taking'; readonly contents: ArchiveContents }
  | { readonly at: 'taken'; readonly taken: ArchiveTaken };

/** An archive sent, looked at, and taken in as a whole. */
function TakeIn() {
  const { zone } = useFigures();
  const [step, setStep] = useState<Step>({ at: 'choose' });
  const [trouble, setTrouble] = useState<Error>();
  const attempt = async (work: () => Promise<Step>, otherwise: Step) => {
    setTrouble(undefined);
    try {
      setStep(await work());
    } catch (problem) {
      setTrouble(problem as Error);
      setStep(otherwise);
    }
  };
  const send = (file: File) =>
    attempt(
      async () => {
        setStep({ at: 'sending', file: file.name, share: 0 });
        const contents = await sendFile<ArchiveContents>(
          `archives?id=${uuidv7()}`,
          'application/zip',
          file,
          AbortSignal.timeout(600_000),
          (share) => setStep({ at: 'sending', file: file.name, share }),
        );
        return { at: 'look', contents };
      },
      { at: 'choose' },
    );
  const take = (contents: ArchiveContents) =>
    attempt(
      async () => {
        setStep({ at: 'taking', contents });
        const taken = await ask<ArchiveTaken>(`archives/${contents.id}/take-in`, { method: 'POST' });
        await readAgain('animals', 'stays', 'places', 'boxes', 'probes', 'readings', 'round', 'notices');
        return { at: 'taken', taken };
      },
      { at: 'look', contents },
    );
  const leave = (contents: ArchiveContents) => {
    void ask(`archives/${contents.id}`, { method: 'DELETE' }).catch(() => undefined);
    setTrouble(undefined);
    setStep({ at: 'choose' });
  };
  return (
    <>
      <h3>{say('web.keeping.in')}</h3>
      <p>{say('web.keeping.inLead')}</p>
      {trouble ? <Trouble error={trouble} /> : null}
      {step.at === 'sending' ? (
        <p role="status">{say('web.keeping.sending', { file: step.file, percent: Math.round(step.share * 100) })}</p>
      ) : null}
      {step.at === 'taking' ? <p role="status">{say('web.keeping.taking')}</p> : null}
      {step.at === 'look' ? (
        <div className="note" role="status">
          <p>
            <strong>{say('web.keeping.made', { at: sayInstant(step.contents.exportedAt, zone) })}</strong>{' '}
            {step.contents.groupName === undefined
              ? null
              : say('web.keeping.ofGroup', { name: step.contents.groupName })}
          </p>
          <ul>
            {step.contents.animals.map((animal) => (
              <li key={animal.id}>
                {say(animal.known ? 'web.keeping.known' : 'web.keeping.new', { name: animal.name })}
              </li>
            ))}
          </ul>
          <p>
            {say('web.keeping.holds', {
              records: figure(step.contents.records),
              photographs: figure(step.contents.photographs),
              readings: figure(step.contents.readings),
            })}
          </p>
          <div className="actions">
            <button type="button" className="button" data-kind="main" onClick={() => void take(step.contents)}>
              {say('web.keeping.do')}
            </button>
            <button type="button" className="button" data-kind="quiet" onClick={() => leave(step.contents)}>
              {say('web.cancel')}
            </button>
          </div>
        </div>
      ) : null}
      {step.at === 'taken' ? (
        <p className="note" role="status">
          {say('web.keeping.taken', {
            records: figure(step.taken.records),
            readings: figure(step.taken.readings),
          })}{' '}
          {step.taken.differing > 0 ? say('web.keeping.differing', { count: step.taken.differing }) : null}
        </p>
      ) : null}
      {step.at === 'choose' || step.at === 'taken' ? (
        <p>
          <label className="button">
            {say('web.keeping.choose')}
            <input
              type="file"
              className="unseen"
              accept=".zip,application/zip"
              onChange={(event) => {
                const file = event.target.files?.[0];
                if (file) void send(file);
              }}
            />
          </label>
        </p>
      ) : null}
    </>
  );
}

function BackupList() {
  const { zone } = useFigures();
  const answer = useAnswer<Backups>('backups');
  const [busy, setBusy] = useState(false);
  const [trouble, setTrouble] = useState<Error>();
  const make = async () => {
    setBusy(true);
    setTrouble(undefined);
    try {
      await ask('backups', { method: 'POST' });
      await readAgain('backups');
    } catch (problem) {
      setTrouble(problem as Error);
    }
    setBusy(false);
  };
  return (
    <>
      <h3>{say('web.keeping.backups')}</h3>
      {trouble ? <Trouble error={trouble} /> : null}
      <Answered of={answer}>
        {({ ownTools, backups }) =>
          ownTools ? (
            <p>{say('web.keeping.ownTools')}</p>
          ) : (
            <>
              <p role="status">
                {backups[0]
                  ? say('web.keeping.backup', {
                      at: sayInstant(backups[0].madeAt, zone),
                      size: figure(backups[0].bytes / 1e6, 1),
                      count: backups.length,
                    })
                  : say('web.keeping.noBackup')}
              </p>
              <p className="soft">{say('web.keeping.backupWhere')}</p>
              <p>
                <button type="button" className="button" disabled={busy} onClick={() => void make()}>
                  {say('web.keeping.backupDo')}
                </button>
              </p>
            </>
          )
        }
      </Answered>
    </>
  );
}
