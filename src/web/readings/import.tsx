import { Link } from '@tanstack/react-router';
import { type DragEvent, useEffect, useRef, useState } from 'react';
import { v7 as uuidv7 } from 'uuid';
import type { ImportChoices, ImportPreview } from '../../schema/import.ts';
import type { Probe } from '../../schema/reading.ts';
import { say } from '../../wording/say.ts';
import { ask } from '../data/client.ts';
import { readAgain, useAnswer } from '../data/queries.ts';
import { sendFile } from '../data/send-file.ts';
import { Trouble } from '../parts/state.tsx';
import { type Goes, PreviewOfFile } from './import-preview.tsx';
import { type ImportState, SavedFile } from './import-saved.tsx';

type Step =
  | { readonly at: 'choose' }
  | { readonly at: 'sending'; readonly share: number }
  | { readonly at: 'reading' }
  | { readonly at: 'preview'; readonly preview: ImportPreview }
  | { readonly at: 'saving'; readonly done: number; readonly all: number }
  | { readonly at: 'saved'; readonly state: ImportState };

const ASK_AGAIN_MS = 400;

/** A table of one thermometer seldom names it: then the name of the file does, until the keeper gives another. */
function probeNameOf(file: File | undefined): { readonly probeName?: string } {
  const name = (file?.name ?? '')
    .replace(/\.[^.]*$/, '')
    .replace(/[\p{C}\s]+/gu, ' ')
    .trim()
    .slice(0, 80);
  return name === '' ? {} : { probeName: name };
}

/** A logger's file: sent, looked at, asked about, and saved as a whole or not at all. */
export function ImportReadings() {
  const probes = useAnswer<readonly Probe[]>('probes').data ?? [];
  const [step, setStep] = useState<Step>({ at: 'choose' });
  const [file, setFile] = useState<File>();
  const [choices, setChoices] = useState<ImportChoices>({});
  const [trouble, setTrouble] = useState<Error>();
  const id = useRef('');
  const sending = useRef<AbortController | undefined>(undefined);
  useEffect(() => () => sending.current?.abort(), []);

  const startAgain = () => {
    sending.current?.abort();
    if (id.current && step.at !== 'saved')
      void ask(`imports/${id.current}`, { method: 'DELETE' }).catch(() => undefined);
    id.current = '';
    setFile(undefined);
    setChoices({});
    setTrouble(undefined);
    setStep({ at: 'choose' });
  };
  const look = async (next: ImportChoices, named: File | undefined = file) => {
    setChoices(next);
    setTrouble(undefined);
    setStep({ at: 'reading' });
    try {
      const preview = await ask<ImportPreview>(`imports/${id.current}/preview`, {
        method: 'POST',
        body: { choices: next, ...probeNameOf(named) },
      });
      setStep({ at: 'preview', preview });
    } catch (problem) {
      setTrouble(problem as Error);
      setStep({ at: 'choose' });
    }
  };
  const take = async (chosen: File | undefined) => {
    if (!chosen) return;
    startAgain();
    setFile(chosen);
    setStep({ at: 'sending', share: 0 });
    id.current = uuidv7();
    const controller = new AbortController();
    sending.current = controller;
    try {
      await sendFile(`imports?id=${id.current}`, 'text/csv', chosen, controller.signal, (share) =>
        setStep({ at: 'sending', share }),
      );
      await look({}, chosen);
    } catch (problem) {
      if (controller.signal.aborted) return;
      setTrouble(problem as Error);
      setStep({ at: 'choose' });
    }
  };
  const save = async (goes: Goes, preview: ImportPreview) => {
    setTrouble(undefined);
    setStep({ at: 'saving', done: 0, all: preview.ready });
    try {
      let state = await ask<ImportState>(`imports/${id.current}/save`, {
        method: 'POST',
        body: { choices, ...probeNameOf(file), ...goes },
      });
      while (state.state === 'saving') {
        await new Promise((resolve) => setTimeout(resolve, ASK_AGAIN_MS));
        state = await ask<ImportState>(`imports/${id.current}`);
        setStep({ at: 'saving', done: state.done, all: state.all || preview.ready });
      }
      if (state.state !== 'saved') throw new Error(state.problem ?? say('web.import.failed'));
      await readAgain('readings', 'probes', 'round');
      setStep({ at: 'saved', state });
    } catch (problem) {
      setTrouble(problem as Error);
      setStep({ at: 'preview', preview });
    }
  };

  return (
    <>
      <h1>{say('web.import.title')}</h1>
      <p className="lead">{say('web.import.lead')}</p>
      {trouble ? <Trouble error={trouble} /> : null}
      {step.at === 'choose' ? <Choose onFile={take} /> : null}
      {step.at === 'sending' || step.at === 'saving' ? (
        <Progress
          label={say(step.at === 'sending' ? 'web.import.sending' : 'web.import.saving', { file: file?.name ?? '' })}
          share={step.at === 'sending' ? step.share : step.all > 0 ? step.done / step.all : 0}
          onCancel={step.at === 'sending' ? startAgain : undefined}
        />
      ) : null}
      {step.at === 'reading' ? (
        <p className="soft" role="status">
          {say('web.import.looking', { file: file?.name ?? '' })}
        </p>
      ) : null}
      {step.at === 'preview' ? (
        <PreviewOfFile
          importId={id.current}
          fileName={file?.name ?? ''}
          preview={step.preview}
          choices={choices}
          probes={probes}
          onChoices={(next) => look(next)}
          onSave={(goes) => save(goes, step.preview)}
          onCancel={startAgain}
        />
      ) : null}
      {step.at === 'saved' && step.state.saved ? <SavedFile saved={step.state.saved} onMore={startAgain} /> : null}
      <p>
        <Link to="/readings">{say('web.probes.toReadings')}</Link>
      </p>
    </>
  );
}

function Choose({ onFile }: { readonly onFile: (file: File | undefined) => void }) {
  const [over, setOver] = useState(false);
  const drop = (event: DragEvent) => {
    event.preventDefault();
    setOver(false);
    onFile(event.dataTransfer.files[0]);
  };
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: dropping is a second way; the button inside is the first
    <div
      className="drop"
      data-over={over ? '' : undefined}
      onDragOver={(event) => {
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={() => setOver(false)}
      onDrop={drop}
    >
      <label className="button" data-kind="main">
        {say('web.import.choose')}
        <input
          type="file"
          className="unseen"
          accept=".csv,.txt,.tsv,.dat,text/csv,text/plain"
          onChange={(event) => onFile(event.target.files?.[0])}
        />
      </label>
      <p className="soft">{say('web.import.drop')}</p>
    </div>
  );
}

interface ProgressProps {
  readonly label: string;
  readonly share: number;
  readonly onCancel: (() => void) | undefined;
}

function Progress({ label, share, onCancel }: ProgressProps) {
  return (
    <div className="import-progress">
      <label>
        {label}
        <progress value={share} max={1} />
      </label>
      {onCancel ? (
        <button type="button" className="button" onClick={onCancel}>
          {say('web.cancel')}
        </button>
      ) : (
        <p className="soft">{say('web.import.whole')}</p>
      )}
    </div>
  );
}
