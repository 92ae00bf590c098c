import { type FormEvent, useState } from 'react';
import { v7 as uuidv7 } from 'uuid';
import type { Animal } from '../../schema/animal.ts';
import type { BoxRecord } from '../../schema/housing.ts';
import type { Stay } from '../../schema/stay.ts';
import { say } from '../../wording/say.ts';
import { ask } from '../data/client.ts';
import { useFigures } from '../data/group.ts';
import { readAgain } from '../data/queries.ts';
import { Field, Pick } from '../parts/field.tsx';
import { Trouble } from '../parts/state.tsx';

/** Why a stay ended; a waking is written by the waking itself. */
export const endReasons = ['woken', 'another-box', 'left', 'died', 'other'] as const;

interface StayProps {
  readonly box: BoxRecord;
  readonly placeId: string;
  readonly stay: Stay | undefined;
  readonly animals: readonly Animal[];
}

/** Puts an animal into a box from a day on, or ends its stay. */
export function StayForm({ box, placeId, stay, animals }: StayProps) {
  const { today } = useFigures();
  const [animalId, setAnimal] = useState('');
  const [day, setDay] = useState(today);
  const [reason, setReason] = useState<(typeof endReasons)[number]>('another-box');
  const [trouble, setTrouble] = useState<Error>();
  const save = async (event: FormEvent) => {
    event.preventDefault();
    setTrouble(undefined);
    try {
      if (stay) await ask(`stays/${stay.id}`, { method: 'PUT', body: { ...stay, toDay: day, endReason: reason } });
      else
        await ask('stays', { method: 'POST', body: { id: uuidv7(), animalId, boxId: box.id, placeId, fromDay: day } });
      await readAgain('stays', 'round');
    } catch (problem) {
      setTrouble(problem as Error);
    }
  };
  return (
    <details className="why no-print">
      <summary>{say(stay ? 'web.stay.end' : 'web.stay.begin')}</summary>
      <form onSubmit={save}>
        {trouble ? <Trouble error={trouble} /> : null}
        {stay ? null : (
          <Pick
            label={say('web.stay.animal')}
            value={animalId}
            onChange={setAnimal}
            options={[
              { value: '', label: say('web.animal.speciesChoose') },
              ...animals.map((animal) => ({ value: animal.id, label: animal.name })),
            ]}
          />
        )}
        <Field label={say(stay ? 'web.stay.lastDay' : 'web.stay.firstDay')} kind="day" value={day} onChange={setDay} />
        {stay ? (
          <Pick
            label={say('web.stay.reason')}
            help={say('web.stay.reasonHelp')}
            value={reason}
            onChange={setReason}
            options={endReasons.map((value) => ({ value, label: say(`web.stay.reason.${value}`) }))}
          />
        ) : null}
        <button type="submit" className="button" disabled={!stay && animalId === ''}>
          {say('web.save')}
        </button>
      </form>
    </details>
  );
}
