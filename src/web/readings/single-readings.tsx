import { type FormEvent, useState } from 'react';
import type { Day } from '../../measure/day.ts';
import { dayInZone, instantInZone } from '../../measure/zone.ts';
import type { Probe, SingleReading } from '../../schema/reading.ts';
import { say } from '../../wording/say.ts';
import { ask } from '../data/client.ts';
import { useFigures, useSession } from '../data/group.ts';
import { readAgain, useAnswer } from '../data/queries.ts';
import { sayInstant } from '../parts/dates.ts';
import { Choice, Field, Pick, typedNumber } from '../parts/field.tsx';
import { Answered, Trouble } from '../parts/state.tsx';

const DAY_MS = 86_400_000;
const AT_ONCE = 60;

/** Single readings of one thermometer on one day, each of which can be corrected or left out with a reason. */
export function SingleReadings({ probes, aroundMs }: { readonly probes: readonly Probe[]; readonly aroundMs: number }) {
  const [open, setOpen] = useState(false);
  return (
    <details className="why no-print" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{say('web.readings.single')}</summary>
      {open ? <Singles probes={probes} aroundMs={aroundMs} /> : null}
    </details>
  );
}

function Singles({ probes, aroundMs }: { readonly probes: readonly Probe[]; readonly aroundMs: number }) {
  const { zone } = useFigures();
  const [probeId, setProbeId] = useState(probes[0]?.id ?? '');
  const [typedDay, setDay] = useState<string>();
  const [shown, setShown] = useState(AT_ONCE);
  const day = typedDay ?? dayInZone(aroundMs, zone);
  const whole = /^\d{4}-\d\d-\d\d$/.test(day);
  const fromMs = whole ? instantInZone(day as Day, zone) : 0;
  const path = `readings/single?probeId=${probeId}&from=${iso(fromMs)}&to=${iso(fromMs + DAY_MS)}`;
  const answer = useAnswer<readonly SingleReading[]>(path, whole && probeId !== '');
  return (
    <div>
      <p className="field-help">{say('web.readings.singleLead')}</p>
      <div className="columns">
        <Pick
          label={say('web.readings.col.probe')}
          value={probeId}
          onChange={setProbeId}
          options={probes.map((probe) => ({ value: probe.id, label: probe.name }))}
        />
        <Field label={say('web.line.day')} kind="day" value={day} onChange={setDay} />
      </div>
      {whole ? (
        <Answered of={answer}>
          {(list) =>
            list.length === 0 ? (
              <p className="soft">{say('web.readings.none')}</p>
            ) : (
              <>
                <SinglesTable list={list.slice(0, shown)} key={path} />
                {list.length > shown ? (
                  <button type="button" className="button" data-kind="quiet" onClick={() => setShown(shown + 200)}>
                    {say('web.readings.more', { count: list.length - shown })}
                  </button>
                ) : null}
              </>
            )
          }
        </Answered>
      ) : null}
    </div>
  );
}

const iso = (ms: number) => new Date(ms).toISOString();

function SinglesTable({ list }: { readonly list: readonly SingleReading[] }) {
  const { temperature, zone } = useFigures();
  const mayCorrect = useSession().role !== 'reader';
  const [chosen, setChosen] = useState<ReadonlySet<string>>(new Set());
  const toggle = (at: string) =>
    setChosen((before) => {
      const next = new Set(before);
      if (!next.delete(at)) next.add(at);
      return next;
    });
  const label = (column: 'at' | 'came' | 'counts' | 'source') => say(`web.readings.col.${column}`);
  return (
    <>
      <table data-fold>
        <thead>
          <tr>
            <th scope="col">{label('at')}</th>
            <th scope="col" data-number>
              {label('came')}
            </th>
            <th scope="col">{label('counts')}</th>
            <th scope="col">{label('source')}</th>
          </tr>
        </thead>
        <tbody>
          {list.map(({ reading, correction }) => (
            <tr key={reading.at}>
              <th scope="row">
                {mayCorrect ? (
                  <label className="check">
                    <input type="checkbox" checked={chosen.has(reading.at)} onChange={() => toggle(reading.at)} />
                    <span>{sayInstant(reading.at, zone)}</span>
                  </label>
                ) : (
                  sayInstant(reading.at, zone)
                )}
              </th>
              <td data-number data-label={label('came')}>
                {temperature(reading.tempC, 2)}
              </td>
              <td data-label={label('counts')}>
                {correction
                  ? correction.quality === 'excluded'
                    ? say('web.readings.leftOut', { why: correction.reason })
                    : say('web.readings.corrected', {
                        temperature: temperature(correction.tempC, 2),
                        why: correction.reason,
                      })
                  : say(`web.readings.quality.${reading.quality}`)}
              </td>
              <td data-label={label('source')}>{say(`web.readings.source.${reading.source}`)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {chosen.size > 0 ? (
        <CorrectionForm chosen={list.filter((one) => chosen.has(one.reading.at))} onDone={() => setChosen(new Set())} />
      ) : null}
    </>
  );
}

interface CorrectionProps {
  readonly chosen: readonly SingleReading[];
  readonly onDone: () => void;
}

/** What is to count instead, and why. The readings themselves stay as they came, so this can be taken back. */
function CorrectionForm({ chosen, onDone }: CorrectionProps) {
  const { tempC, temperatureUnit } = useFigures();
  const [kind, setKind] = useState<'leave-out' | 'other-value' | 'as-came'>('leave-out');
  const [value, setValue] = useState('');
  const [reason, setReason] = useState('');
  const [error, setError] = useState<{ readonly value?: string; readonly reason?: string }>({});
  const [trouble, setTrouble] = useState<Error>();
  const [done, setDone] = useState<number>();
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    const typed = typedNumber(value);
    const wrong = {
      ...(kind === 'other-value' && typed === undefined ? { value: say('web.error.number') } : {}),
      ...(reason.trim() === '' ? { reason: say('web.readings.reasonNeeded') } : {}),
    };
    setError(wrong);
    if (Object.keys(wrong).length > 0) return;
    setTrouble(undefined);
    let kept = 0;
    try {
      for (const { reading } of chosen) {
        const body = {
          reading: {
            ...reading,
            ...(kind === 'other-value' ? { tempC: tempC(typed as number), quality: 'good' } : {}),
            ...(kind === 'leave-out' ? { quality: 'excluded' } : {}),
          },
          reason: reason.trim(),
        };
        await ask('readings/corrections', { method: 'POST', body });
        setDone(++kept);
      }
      await readAgain('readings');
      onDone();
    } catch (problem) {
      // What was kept before the failure is shown as kept.
      setTrouble(problem as Error);
      await readAgain('readings');
    }
  };
  return (
    <form onSubmit={submit} noValidate className="form-part">
      {trouble ? <Trouble error={trouble} /> : null}
      <Choice
        label={say('web.readings.correct', { count: chosen.length })}
        value={kind}
        onChange={setKind}
        options={(['leave-out', 'other-value', 'as-came'] as const).map((one) => ({
          value: one,
          label: say(`web.readings.correct.${one}`),
        }))}
      />
      {kind === 'other-value' ? (
        <Field
          label={say('web.readings.otherValue')}
          kind="number"
          unit={temperatureUnit}
          value={value}
          onChange={setValue}
          error={error.value}
        />
      ) : null}
      <Field
        label={say('web.readings.reason')}
        help={say('web.readings.reasonHelp')}
        value={reason}
        onChange={setReason}
        error={error.reason}
        required
      />
      <div className="actions">
        <button type="submit" className="button" data-kind="main">
          {say('web.save')}
        </button>
        <span role="status">
          {done === undefined ? '' : say('web.readings.correctedCount', { count: done, all: chosen.length })}
        </span>
      </div>
    </form>
  );
}
