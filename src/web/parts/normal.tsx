import { Link } from '@tanstack/react-router';
import type { ExaminationPart } from '../../tortoise/types.ts';
import { type NormalBeside, WHAT_IS_NORMAL, type WhatIsNormal } from '../../winter/what-is-normal.ts';
import { say } from '../../wording/say.ts';
import { Picture } from '../examination/pictures.tsx';
import { SourceLine, Why } from './text.tsx';

/** Where a small drawing says it faster: what the part looks like when it is as it should be, or when it is not. */
const drawings: Partial<Record<WhatIsNormal['id'], readonly [ExaminationPart, string]>> = {
  'lies-out': ['limbs', 'clear'],
  touch: ['limbs', 'no-response'],
  breathing: ['breathing', 'clear'],
  eyes: ['eyes', 'closed'],
  'wet-bedding': ['droppings', 'urine'],
  'first-urine': ['droppings', 'urine'],
};

interface NormalProps {
  readonly beside: readonly NormalBeside[];
  /** Only what belongs to a sleeping, or to a waking, animal. */
  readonly when?: WhatIsNormal['when'];
}

/** What is normal beside an entry, before the worried message is written; and what is not, with what to do then. */
export function Normal({ beside, when }: NormalProps) {
  const rows = WHAT_IS_NORMAL.filter(
    (one) => one.beside.some((entry) => beside.includes(entry)) && (when === undefined || one.when === when),
  );
  return (
    <dl className="facts normal-facts">
      {rows.map((one) => {
        const drawing = drawings[one.id];
        return (
          <div key={one.id}>
            <dt>
              {say('web.normal.title')}
              {drawing ? <Picture part={drawing[0]} code={drawing[1]} /> : null}
            </dt>
            <dd>
              {say(one.normal)} <strong>{say('web.normal.not')}:</strong> {say(one.notNormal)}{' '}
              <Link to="/now/$pageId" params={{ pageId: one.page }}>
                {say('web.round.whatToDo')}
              </Link>{' '}
              <Why>
                <SourceLine source={one.source} />
              </Why>
            </dd>
          </div>
        );
      })}
    </dl>
  );
}
