import { Link } from '@tanstack/react-router';
import { say } from '../../wording/say.ts';
import { useFigures } from '../data/group.ts';
import type { RoundStay } from '../round/parts.ts';
import { sayWhen } from './when.ts';

/** The limit that the box of a stay is expected to pass in the next days, in a line, and the way to the whole forecast. */
export function RoundBreach({ stay }: { readonly stay: RoundStay }) {
  const { temperature, zone } = useFigures();
  const { breach } = stay;
  if (!breach) return null;
  const atMs = Date.parse(breach.at);
  const nowMs = Date.now();
  return (
    <p>
      {say(`web.ahead.round.${breach.side}${atMs <= nowMs ? '-now' : ''}`, {
        name: stay.animalName,
        box: stay.boxName,
        limit: temperature(breach.limitC, Number.isInteger(breach.limitC) ? 0 : 1),
        when: sayWhen(atMs, nowMs, zone),
      })}{' '}
      <Link to="/animals/$animalId" params={{ animalId: stay.animalId }} hash="ahead">
        {say('web.ahead.title')}
        <span className="unseen">: {stay.animalName}</span>
      </Link>
    </p>
  );
}
