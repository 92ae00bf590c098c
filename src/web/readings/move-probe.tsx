import { type FormEvent, useState } from 'react';
import type { BoxRecord, PlaceRecord } from '../../schema/housing.ts';
import type { Probe } from '../../schema/reading.ts';
import { say } from '../../wording/say.ts';
import { ask } from '../data/client.ts';
import { readAgain } from '../data/queries.ts';
import { Field, Pick, typedNumber } from '../parts/field.tsx';
import { Trouble } from '../parts/state.tsx';
import { placed, placingOf, placings } from './placing.ts';

interface MoveProps {
  readonly probe: Probe;
  readonly boxes: readonly BoxRecord[];
  readonly places: readonly PlaceRecord[];
}

/** Another name, another place to hang, another time between readings. */
export function MoveProbe({ probe, boxes, places }: MoveProps) {
  const [name, setName] = useState(probe.name);
  const [where, setWhere] = useState(placingOf(probe));
  const [minutes, setMinutes] = useState(String(Math.round(probe.expectedIntervalS / 6) / 10));
  const [trouble, setTrouble] = useState<Error>();
  const [said, setSaid] = useState('');
  const typed = typedNumber(minutes);
  const save = async (event: FormEvent) => {
    event.preventDefault();
    if (typed === undefined || !(typed > 0)) return;
    setTrouble(undefined);
    const { boxId: _box, placeId: _place, outdoors: _outdoors, ...kept } = probe;
    try {
      await ask(`probes/${probe.id}`, {
        method: 'PUT',
        body: { ...kept, name: name.trim(), ...placed(where), expectedIntervalS: Math.round(typed * 60) },
      });
      await readAgain('probes');
      setSaid(say('web.saved'));
    } catch (problem) {
      setTrouble(problem as Error);
    }
  };
  return (
    <details className="why">
      <summary>{say('web.probes.move')}</summary>
      <form onSubmit={save} noValidate>
        {trouble ? <Trouble error={trouble} /> : null}
        <Field label={say('web.readings.name')} value={name} onChange={setName} />
        <Pick label={say('web.readings.where')} value={where} onChange={setWhere} options={placings(boxes, places)} />
        <Field
          label={say('web.readings.interval')}
          kind="number"
          value={minutes}
          onChange={setMinutes}
          error={typed === undefined || !(typed > 0) ? say('web.error.number') : undefined}
        />
        <p className="field-help">{say('web.probes.moveHelp')}</p>
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
