import { type FormEvent, useState } from 'react';
import { dayInZone } from '../../measure/zone.ts';
import type { Measurement } from '../../schema/measurement.ts';
import { say } from '../../wording/say.ts';
import type { ProblemError } from '../data/client.ts';
import { useWithWaiting } from '../data/entries.ts';
import { useFigures } from '../data/group.ts';
import { enter, useOutbox } from '../data/outbox.ts';
import { Expected } from '../mass/expected.tsx';
import type { SleepMass } from '../mass/sleep-mass.ts';
import { WeighAnswer } from '../mass/weigh-answer.tsx';
import { sayDayYear } from '../parts/dates.ts';
import { Choice, errorAt, Field, typedMass, typedNumber } from '../parts/field.tsx';
import { Normal } from '../parts/normal.tsx';
import { GrowthChart } from './growth-chart.tsx';

export const weighKinds = ['routine', 'start', 'asleep', 'after-waking'] as const;

/** Weigh-ins: a form for one hand, the curve and the list. Entries made here show at once, sent or not. */
export function WeighIns(props: {
  readonly animalId: string;
  readonly measurements: readonly Measurement[];
  readonly asleep: boolean;
  /** Of the sleep that is going on; absent without one, or without a weighing at its start. */
  readonly mass: SleepMass | undefined;
}) {
  const last = props.mass?.judged.at(-1);
  const waiting = useOutbox().filter(
    (entry) => entry.kind === 'measurement' && !entry.deletes && isOf(entry.body, props.animalId),
  );
  const all = [...useWithWaiting('measurement', props.animalId, props.measurements)].sort((a, b) =>
    a.at < b.at ? 1 : -1,
  );
  return (
    <section aria-labelledby="weigh">
      <h2 id="weigh">{say('web.weigh.title')}</h2>
      {last ? <WeighAnswer judged={last} /> : null}
      <WeighForm animalId={props.animalId} asleep={props.asleep} mass={props.mass} />
      {all.length === 0 ? (
        <p className="soft">{say('web.weigh.first')}</p>
      ) : (
        <List all={all} waiting={waiting.length} />
      )}
    </section>
  );
}

const isOf = (body: unknown, animalId: string) => (body as Measurement).animalId === animalId;

interface WeighFormProps {
  readonly animalId: string;
  readonly asleep: boolean;
  readonly mass: SleepMass | undefined;
}

function WeighForm({ animalId, asleep, mass: sleep }: WeighFormProps) {
  const figures = useFigures();
  const [mass, setMass] = useState('');
  const [length, setLength] = useState('');
  const [kind, setKind] = useState<(typeof weighKinds)[number]>(asleep ? 'asleep' : 'routine');
  const [errors, setErrors] = useState<readonly ProblemError[]>([]);
  const [said, setSaid] = useState('');
  const save = async (event: FormEvent) => {
    event.preventDefault();
    const massTyped = typedMass(mass);
    const lengthTyped = typedNumber(length);
    const wrong: ProblemError[] = [];
    if (massTyped === undefined && (mass.trim() !== '' || length.trim() === ''))
      wrong.push({ where: 'mass', what: say(mass.trim() === '' ? 'web.error.needed' : 'web.error.number') });
    if (length.trim() !== '' && lengthTyped === undefined)
      wrong.push({ where: 'length', what: say('web.error.number') });
    setErrors(wrong);
    if (wrong.length > 0) return;
    await enter('measurement', {
      animalId,
      at: new Date().toISOString(),
      ...(massTyped === undefined ? {} : { massG: figures.massG(massTyped) }),
      ...(lengthTyped === undefined ? {} : { sclMm: figures.lengthMm(lengthTyped) }),
      kind,
    });
    setMass('');
    setLength('');
    setSaid(say('web.saved'));
  };
  return (
    <form onSubmit={save} noValidate className="no-print">
      <Field
        label={say('web.weigh.mass')}
        kind="number"
        numeral
        unit={figures.massUnit}
        value={mass}
        onChange={setMass}
        error={errorAt(errors, 'mass')}
        help={sleep ? <Expected mass={sleep} /> : undefined}
      />
      <Field
        label={say('web.weigh.length')}
        kind="number"
        unit={figures.lengthUnit}
        value={length}
        onChange={setLength}
        error={errorAt(errors, 'length')}
      />
      {asleep ? (
        <details className="why">
          <summary>{say('web.normal.title')}</summary>
          <Normal beside={['weigh-in']} />
        </details>
      ) : null}
      <Choice
        label={say('web.weigh.kind')}
        value={kind}
        onChange={setKind}
        options={weighKinds.map((value) => ({ value, label: say(`web.weigh.kind.${value}`) }))}
      />
      <div className="actions">
        <button type="submit" className="button" data-kind="main">
          {say('web.weigh.save')}
        </button>
        <span role="status">{said}</span>
      </div>
    </form>
  );
}

function List({ all, waiting }: { readonly all: readonly Measurement[]; readonly waiting: number }) {
  const figures = useFigures();
  const weighed = all.flatMap((one) =>
    one.massG === undefined ? [] : [{ day: dayInZone(Date.parse(one.at), figures.zone), massG: one.massG }],
  );
  return (
    <>
      {waiting > 0 ? <p className="small soft">{say('web.outbox.waiting', { count: waiting })}</p> : null}
      {weighed.length > 2 ? <GrowthChart points={weighed} mass={figures.mass} /> : null}
      <details className="why" open={all.length <= 4}>
        <summary>{say('web.weigh.list')}</summary>
        <table>
          <thead>
            <tr>
              <th scope="col">{say('web.weigh.col.day')}</th>
              <th scope="col" data-number>
                {say('web.weigh.col.mass')}
              </th>
              <th scope="col" data-number>
                {say('web.weigh.col.length')}
              </th>
              <th scope="col">{say('web.weigh.col.kind')}</th>
            </tr>
          </thead>
          <tbody>
            {all.map((one) => (
              <tr key={one.id}>
                <th scope="row">{sayDayYear(dayInZone(Date.parse(one.at), figures.zone))}</th>
                <td data-number>{one.massG === undefined ? '' : figures.mass(one.massG)}</td>
                <td data-number>{one.sclMm === undefined ? '' : figures.length(one.sclMm)}</td>
                <td>{say(`web.weigh.kind.${one.kind}`)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </details>
    </>
  );
}
