import { type FormEvent, useState } from 'react';
import type { Probe } from '../../schema/reading.ts';
import { say } from '../../wording/say.ts';
import { ask } from '../data/client.ts';
import { useFigures } from '../data/group.ts';
import { readAgain } from '../data/queries.ts';
import { sayInstant } from '../parts/dates.ts';
import { Field, typedNumber } from '../parts/field.tsx';
import { Trouble } from '../parts/state.tsx';

/** Beyond this the thermometer, or the ice, is at fault and no offset is stored, K. */
const MOST_K = 2;
const RECENT_MS = 3_600_000;

interface IceProps {
  readonly probe: Probe;
  readonly last: { readonly atMs: number; readonly tempC: number } | undefined;
}

/** Guides through the ice point: melting ice in water is at 0 °C, so what the thermometer says there is its error. */
export function IceCheck({ probe, last }: IceProps) {
  const { temperature, difference, tempC, temperatureUnit, zone } = useFigures();
  const [said, setSaid] = useState('');
  const [trouble, setTrouble] = useState<Error>();
  const [done, setDone] = useState('');
  const typed = typedNumber(said);
  const iceC = typed === undefined ? undefined : tempC(typed);
  const wrong = iceC !== undefined && Math.abs(iceC) > MOST_K;
  // What came in carries the offset already; the thermometer itself said this.
  const rawLastC = last && last.tempC - probe.offsetC;
  const recent = last !== undefined && Date.now() - last.atMs < RECENT_MS;
  const save = async (event: FormEvent) => {
    event.preventDefault();
    if (iceC === undefined || wrong) return;
    setTrouble(undefined);
    try {
      const offsetC = Math.round(-iceC * 100) / 100 + 0;
      await ask(`probes/${probe.id}`, { method: 'PUT', body: { ...probe, offsetC } });
      await readAgain('probes');
      setDone(say('web.ice.saved', { offset: difference(offsetC, 2) }));
      setSaid('');
    } catch (problem) {
      setTrouble(problem as Error);
    }
  };
  return (
    <details className="why">
      <summary>{say('web.ice.title')}</summary>
      <form onSubmit={save} noValidate>
        <p>{say('web.ice.lead')}</p>
        <ol className="steps ice-steps">
          {([1, 2, 3, 4] as const).map((step) => (
            <li key={step}>{say(`web.ice.step.${step}`)}</li>
          ))}
        </ol>
        {trouble ? <Trouble error={trouble} /> : null}
        <Field
          label={say('web.ice.says')}
          kind="number"
          unit={temperatureUnit}
          value={said}
          onChange={(next) => {
            setDone('');
            setSaid(next);
          }}
          error={
            said.trim() !== '' && iceC === undefined
              ? say('web.error.number')
              : wrong
                ? say('web.ice.tooFar', { most: difference(MOST_K) })
                : undefined
          }
        />
        {recent && rawLastC !== undefined && last ? (
          <p className="small soft">
            {say('web.ice.last', { temperature: temperature(rawLastC, 2), at: sayInstant(last.atMs, zone) })}
          </p>
        ) : null}
        <div className="actions">
          <button type="submit" className="button" disabled={iceC === undefined || wrong}>
            {iceC === undefined || wrong
              ? say('web.ice.save')
              : say('web.ice.saveAs', { offset: difference(-iceC + 0, 2) })}
          </button>
          <span role="status">{done}</span>
        </div>
        <p className="small soft">{say('web.ice.note')}</p>
      </form>
    </details>
  );
}
