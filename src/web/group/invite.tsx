import { type FormEvent, useState } from 'react';
import { v7 as uuidv7 } from 'uuid';
import type { Animal } from '../../schema/animal.ts';
import type { Role } from '../../schema/person.ts';
import { say } from '../../wording/say.ts';
import { ask } from '../data/client.ts';
import { useFigures } from '../data/group.ts';
import { sayInstant } from '../parts/dates.ts';
import { Choice } from '../parts/field.tsx';
import { QrCode } from '../parts/qr-code.tsx';
import { Trouble } from '../parts/state.tsx';

/** Names of this machine to itself: nobody else reaches them. */
const LOOPBACK = /^(localhost|127\.|\[::1\])/;

/** Asks a person in by a link that works once, read off the screen by their phone or sent to them. */
export function Invite({ animals }: { readonly animals: readonly Animal[] }) {
  const { zone } = useFigures();
  const [role, setRole] = useState<Role>('keeper');
  const [chosen, setChosen] = useState<readonly string[]>([]);
  const [made, setMade] = useState<{ token: string; until: string }>();
  const [trouble, setTrouble] = useState<Error>();
  const link = `${location.origin}/join/${made?.token ?? ''}`;
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setTrouble(undefined);
    try {
      setMade(
        await ask('people/invitations', {
          method: 'POST',
          body: { id: uuidv7(), role, ...(role === 'keeper' ? { animalIds: chosen } : {}) },
        }),
      );
    } catch (problem) {
      setTrouble(problem as Error);
    }
  };
  return (
    <details className="why">
      <summary>{say('web.group.invite')}</summary>
      <form onSubmit={submit}>
        {trouble ? <Trouble error={trouble} /> : null}
        <Choice
          label={say('web.group.as')}
          value={role}
          onChange={setRole}
          options={(['keeper', 'reader', 'tutor'] as const).map((value) => ({
            value,
            label: say(`web.group.role.${value}`),
          }))}
        />
        {role === 'keeper' ? (
          <fieldset>
            <legend>{say('web.group.theirAnimals')}</legend>
            {animals.map((animal) => (
              <label className="check" key={animal.id}>
                <input
                  type="checkbox"
                  checked={chosen.includes(animal.id)}
                  onChange={(event) =>
                    setChosen(event.target.checked ? [...chosen, animal.id] : chosen.filter((one) => one !== animal.id))
                  }
                />
                {animal.name}
              </label>
            ))}
          </fieldset>
        ) : null}
        <button type="submit" className="button">
          {say('web.group.inviteDo')}
        </button>
        {made ? (
          <div role="status">
            <p>
              {say('web.group.invited', { until: sayInstant(made.until, zone) })}
              <br />
              <code>{link}</code>
            </p>
            <QrCode text={link} label={say('web.group.inviteCode')} />
            {LOOPBACK.test(location.hostname) ? <p className="soft">{say('web.group.inviteHere')}</p> : null}
          </div>
        ) : null}
      </form>
    </details>
  );
}
