import { type FormEvent, useState } from 'react';
import { v7 as uuidv7 } from 'uuid';
import type { BoxRecord, PlaceRecord } from '../../schema/housing.ts';
import { say } from '../../wording/say.ts';
import { ask } from '../data/client.ts';
import { readAgain } from '../data/queries.ts';
import { Field, Pick, typedNumber } from '../parts/field.tsx';
import { Trouble } from '../parts/state.tsx';
import { placed, placings } from './placing.ts';

/** A thermometer: its name, where it hangs and how often it should speak. */
export function AddProbe(props: { readonly boxes: readonly BoxRecord[]; readonly places: readonly PlaceRecord[] }) {
  const [name, setName] = useState('');
  const [where, setWhere] = useState('outdoors');
  const [minutes, setMinutes] = useState('10');
  const [trouble, setTrouble] = useState<Error>();
  const [said, setSaid] = useState('');
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setTrouble(undefined);
    try {
      await ask('probes', {
        method: 'POST',
        body: {
          id: uuidv7(),
          name: name.trim(),
          ...placed(where),
          offsetC: 0,
          expectedIntervalS: Math.round((typedNumber(minutes) ?? 10) * 60),
        },
      });
      await readAgain('probes');
      setName('');
      setSaid(say('web.saved'));
    } catch (problem) {
      setTrouble(problem as Error);
    }
  };
  return (
    <details className="why no-print">
      <summary>{say('web.readings.add')}</summary>
      <form onSubmit={submit} noValidate>
        {trouble ? <Trouble error={trouble} /> : null}
        <Field label={say('web.readings.name')} value={name} onChange={setName} />
        <Pick
          label={say('web.readings.where')}
          value={where}
          onChange={setWhere}
          options={placings(props.boxes, props.places)}
        />
        <Field label={say('web.readings.interval')} kind="number" value={minutes} onChange={setMinutes} />
        <div className="actions">
          <button type="submit" className="button">
            {say('web.save')}
          </button>
          <span role="status">{said}</span>
        </div>
      </form>
    </details>
  );
}
