import { type FormEvent, useId, useState } from 'react';
import { v7 as uuidv7 } from 'uuid';
import { say } from '../../wording/say.ts';
import { useFigures } from '../data/group.ts';
import { enter } from '../data/outbox.ts';
import { Pick, typedNumber } from '../parts/field.tsx';
import type { RoundStay } from './parts.ts';

const DAY_MS = 86_400_000;
const LAST_LOOK = 'max-min-looked:';

/** A thermometer read by eye: the temperature now, or the highest and lowest since the last look. */
export function TemperatureEntry({ stays }: { readonly stays: readonly RoundStay[] }) {
  const figures = useFigures();
  const boxes = [...new Map(stays.map((stay) => [stay.boxId, stay])).values()];
  const [boxId, setBox] = useState(boxes[0]?.boxId ?? '');
  const [now, setNow] = useState('');
  const [max, setMax] = useState('');
  const [min, setMin] = useState('');
  const [error, setError] = useState('');
  const [said, setSaid] = useState('');
  const stay = boxes.find((one) => one.boxId === boxId);

  const save = async (event: FormEvent) => {
    event.preventDefault();
    setSaid('');
    const values = [now, max, min].map((text) => (text.trim() === '' ? undefined : typedNumber(text)));
    const wrong = [now, max, min].find((text, index) => text.trim() !== '' && values[index] === undefined);
    const [nowTyped, maxTyped, minTyped] = values;
    if (wrong !== undefined) return setError(say('web.round.notANumber', { text: wrong }));
    if ((maxTyped === undefined) !== (minTyped === undefined)) return setError(say('web.round.bothOrNone'));
    if (maxTyped !== undefined && minTyped !== undefined && minTyped > maxTyped)
      return setError(say('web.round.minAboveMax'));
    if (!stay || (nowTyped === undefined && maxTyped === undefined)) return setError(say('web.round.typeOne'));
    setError('');
    const at = new Date().toISOString();
    let probeId = stay.probeId ?? localStorage.getItem(`probe:${stay.boxId}`) ?? undefined;
    if (!probeId) {
      // The first figure typed for a box makes the thermometer it was read from.
      probeId = uuidv7();
      localStorage.setItem(`probe:${stay.boxId}`, probeId);
      await enter('probe', { name: stay.boxName, boxId: stay.boxId, offsetC: 0, expectedIntervalS: 86_400 }, probeId);
    }
    if (nowTyped !== undefined)
      await enter('reading', { probeId, at, tempC: figures.tempC(nowTyped), quality: 'good', source: 'typed' });
    if (maxTyped !== undefined && minTyped !== undefined) {
      const looked = localStorage.getItem(`${LAST_LOOK}${probeId}`);
      const fromAt = looked ?? new Date(Date.now() - DAY_MS).toISOString();
      await enter('max-min', {
        probeId,
        fromAt,
        toAt: at,
        maxC: figures.tempC(maxTyped),
        minC: figures.tempC(minTyped),
      });
      localStorage.setItem(`${LAST_LOOK}${probeId}`, at);
    }
    setNow('');
    setMax('');
    setMin('');
    setSaid(say('web.saved'));
  };

  const unit = figures.temperatureUnit;
  return (
    <details className="why">
      <summary>{say('web.round.readTemperature')}</summary>
      <form onSubmit={save} noValidate>
        {boxes.length > 1 ? (
          <Pick
            label={say('web.round.box')}
            value={boxId}
            onChange={setBox}
            options={boxes.map((one) => ({ value: one.boxId, label: `${one.boxName}, ${one.animalName}` }))}
          />
        ) : null}
        <div className="temperatures">
          <Small label={say('web.round.temperature', { unit })} value={now} onChange={setNow} />
          <Small label={say('web.round.max', { unit })} value={max} onChange={setMax} />
          <Small label={say('web.round.min', { unit })} value={min} onChange={setMin} />
        </div>
        <p className="field-help">{say('web.round.maxMin')}</p>
        {error ? (
          <p className="field-error" role="alert">
            {error}
          </p>
        ) : null}
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

interface SmallProps {
  readonly label: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
}

function Small({ label, value, onChange }: SmallProps) {
  const id = useId();
  return (
    <div>
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        className="input"
        data-numeral
        inputMode="text"
        autoComplete="off"
        value={value}
        onChange={(event) => onChange(event.target.value)}
      />
    </div>
  );
}
