import { type FormEvent, useState } from 'react';
import type { HealthEvent } from '../../schema/health-event.ts';
import { say } from '../../wording/say.ts';
import { useWithWaiting } from '../data/entries.ts';
import { useFigures } from '../data/group.ts';
import { enter } from '../data/outbox.ts';
import { sayDayYear } from '../parts/dates.ts';
import { Field, Pick } from '../parts/field.tsx';

export const healthKinds: readonly HealthEvent['kind'][] = [
  'vet-check',
  'vet-clearance',
  'parasite-check',
  'illness',
  'treatment',
  'eggs',
  'new-arrival',
];

/** Illness, treatment, vet, parasites, eggs: what bears on the verdict. */
export function Health({ animalId, events }: { readonly animalId: string; readonly events: readonly HealthEvent[] }) {
  const list = [...useWithWaiting('health-event', animalId, events)].sort((a, b) => (a.fromDay < b.fromDay ? 1 : -1));
  return (
    <section aria-labelledby="health">
      <h2 id="health">{say('web.health.title')}</h2>
      {list.length === 0 ? (
        <p className="soft">{say('web.health.none')}</p>
      ) : (
        <dl className="facts">
          {list.map((one) => (
            <div key={one.id}>
              <dt>
                {one.toDay && one.toDay !== one.fromDay
                  ? say('web.health.span', { from: sayDayYear(one.fromDay), to: sayDayYear(one.toDay) })
                  : one.kind === 'illness' || one.kind === 'treatment' || one.kind === 'eggs'
                    ? say('web.health.since', { from: sayDayYear(one.fromDay) })
                    : sayDayYear(one.fromDay)}
              </dt>
              <dd>
                {say(`web.health.kind.${one.kind}`)}
                {one.note ? `: ${one.note}` : ''}
              </dd>
            </div>
          ))}
        </dl>
      )}
      <HealthForm animalId={animalId} />
    </section>
  );
}

function HealthForm({ animalId }: { readonly animalId: string }) {
  const { today } = useFigures();
  const [kind, setKind] = useState<HealthEvent['kind']>('vet-check');
  const [fromDay, setFrom] = useState(today);
  const [toDay, setTo] = useState('');
  const [note, setNote] = useState('');
  const [said, setSaid] = useState('');
  const save = async (event: FormEvent) => {
    event.preventDefault();
    await enter('health-event', {
      animalId,
      kind,
      fromDay,
      ...(toDay ? { toDay } : {}),
      ...(note.trim() === '' ? {} : { note: note.trim() }),
    });
    setNote('');
    setTo('');
    setSaid(say('web.saved'));
  };
  return (
    <details className="why no-print">
      <summary>{say('web.health.add')}</summary>
      <form onSubmit={save}>
        <Pick
          label={say('web.health.kind')}
          value={kind}
          onChange={setKind}
          options={healthKinds.map((value) => ({ value, label: say(`web.health.kind.${value}`) }))}
        />
        <Field label={say('web.health.from')} kind="day" value={fromDay} onChange={setFrom} />
        <Field label={say('web.health.to')} kind="day" value={toDay} onChange={setTo} />
        <Field label={say('web.health.note')} kind="lines" value={note} onChange={setNote} />
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
