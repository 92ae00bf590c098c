import { type FormEvent, useState } from 'react';
import type { Person, Role } from '../../schema/person.ts';
import { say } from '../../wording/say.ts';
import { ask } from '../data/client.ts';
import { useSession } from '../data/group.ts';
import { queryClient, readAgain } from '../data/queries.ts';
import { AskOnce } from '../parts/ask-once.tsx';
import { Choice } from '../parts/field.tsx';
import { Trouble } from '../parts/state.tsx';

const roles = ['tutor', 'keeper', 'reader'] as const satisfies readonly Role[];

/** The people of the group; a tutor gives each another role, or takes them out. */
export function People({ people }: { readonly people: readonly Person[] }) {
  const session = useSession();
  const onlyTutor = people.filter((one) => one.role === 'tutor').length === 1;
  return (
    <ul className="lines">
      {people.map((person) => (
        <li key={person.id}>
          {person.name} <span className="soft">{say(`web.group.role.${person.role}`)}</span>
          {session.role === 'tutor' ? (
            <>
              {person.role === 'tutor' && onlyTutor ? (
                <p className="small soft">{say('web.group.onlyTutor')}</p>
              ) : (
                <ChangeRole key={person.role} person={person} />
              )}
              {person.id === session.person?.id ? null : <RemovePerson person={person} />}
            </>
          ) : null}
        </li>
      ))}
    </ul>
  );
}

/** What a person may do, chosen anew. */
function ChangeRole({ person }: { readonly person: Person }) {
  const session = useSession();
  const [role, setRole] = useState(person.role);
  const [trouble, setTrouble] = useState<Error>();
  const own = person.id === session.person?.id;
  const save = async (event: FormEvent) => {
    event.preventDefault();
    setTrouble(undefined);
    try {
      await ask(`people/${person.id}/role`, { method: 'PUT', body: { role } });
      // Another role sees other animals: with one's own, everything is read anew.
      await (own ? queryClient.invalidateQueries() : readAgain('people'));
    } catch (problem) {
      setTrouble(problem as Error);
    }
  };
  return (
    <details className="why">
      <summary>
        {say('web.group.changeRole')}
        <span className="unseen">: {person.name}</span>
      </summary>
      <form onSubmit={save}>
        {trouble ? <Trouble error={trouble} /> : null}
        <Choice
          label={say('web.group.roleOf', { name: person.name })}
          value={role}
          onChange={setRole}
          options={roles.map((value) => ({ value, label: say(`web.group.role.${value}`) }))}
          help={say(`web.group.roleMay.${role}`)}
        />
        {own && role !== 'tutor' ? <p className="note">{say('web.group.ownRole')}</p> : null}
        <button type="submit" className="button" disabled={role === person.role}>
          {say('web.group.changeRoleDo')}
        </button>
      </form>
    </details>
  );
}

/** Takes a person out of the group; what they wrote stays. */
function RemovePerson({ person }: { readonly person: Person }) {
  const [trouble, setTrouble] = useState<Error>();
  const remove = async () => {
    setTrouble(undefined);
    try {
      await ask(`people/${person.id}`, { method: 'DELETE' });
      await readAgain('people');
    } catch (problem) {
      setTrouble(problem as Error);
    }
  };
  return (
    <>
      <AskOnce
        act={say('web.group.remove')}
        about={person.name}
        question={say('web.group.removeAsk', { name: person.name })}
        onYes={remove}
      />
      {trouble ? <Trouble error={trouble} /> : null}
    </>
  );
}
