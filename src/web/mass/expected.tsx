import { say } from '../../wording/say.ts';
import { useFigures } from '../data/group.ts';
import type { SleepMass } from './sleep-mass.ts';

/** The range a weigh-in made now should fall in, said before it is typed. */
export function Expected({ mass }: { readonly mass: SleepMass }) {
  const figures = useFigures();
  return (
    <span className="expected">
      {say('web.mass.expected', { low: figures.mass(mass.expectedG.low), high: figures.mass(mass.expectedG.high) })}
    </span>
  );
}
