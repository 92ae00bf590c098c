import type { Animal } from '../../schema/animal.ts';
import { say } from '../../wording/say.ts';
import { useSession } from '../data/group.ts';

/** An animal's whole history as one file, for the keeper it goes to. */
export function HandOver({ animal }: { readonly animal: Animal }) {
  const { role } = useSession();
  if (role !== 'keeper' && role !== 'tutor') return null;
  return (
    <details className="why no-print">
      <summary>{say('web.keeping.hand')}</summary>
      <p>{say('web.keeping.handLead', { name: animal.name })}</p>
      <p>
        <a className="button" href={`/api/v1/animals/${animal.id}/archive`} download>
          {say('web.keeping.handDo')}
        </a>
      </p>
    </details>
  );
}
