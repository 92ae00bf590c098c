import { createContext, useContext } from 'react';
import type { Day } from '../../measure/day.ts';
import { length, mass, temperature, temperatureDifference } from '../../measure/figures.ts';
import { fahrenheitToCelsius, inchesToMm, ouncesToGrams } from '../../measure/units.ts';
import type { Group } from '../../schema/group.ts';
import type { Session } from '../../schema/person.ts';
import { today } from '../parts/dates.ts';

/** Who is looking, and the group whose units and clock the screens use. */
export interface Standing {
  readonly session: Session;
  readonly group: Group;
}

export const StandingContext = createContext<Standing | undefined>(undefined);

export function useGroup(): Group {
  const standing = useContext(StandingContext);
  if (!standing) throw new Error('This screen needs a group.');
  return standing.group;
}

export function useSession(): Session {
  const standing = useContext(StandingContext);
  if (!standing) throw new Error('This screen needs a session.');
  return standing.session;
}

/** Whether this person may enter and change; a reader only looks. */
export const useMayWrite = (): boolean => useSession().role !== 'reader';

/** Figures in the units and on the calendar of the group. */
export function useFigures() {
  const group = useGroup();
  return {
    zone: group.zone,
    today: today(group.zone) as Day,
    temperature: (tempC: number, digits = 1) => temperature(tempC, group.temperatureUnit, digits),
    difference: (differenceK: number, digits = 1) => temperatureDifference(differenceK, group.temperatureUnit, digits),
    mass: (massG: number) => mass(massG, group.massUnit),
    length: (lengthMm: number) => length(lengthMm, group.lengthUnit),
    massUnit: group.massUnit,
    lengthUnit: group.lengthUnit,
    temperatureUnit: group.temperatureUnit === 'C' ? '°C' : '°F',
    /** A typed mass in grams. */
    massG: (typed: number) => (group.massUnit === 'oz' ? ouncesToGrams(typed) : typed),
    lengthMm: (typed: number) => (group.lengthUnit === 'in' ? inchesToMm(typed) : typed),
    tempC: (typed: number) => (group.temperatureUnit === 'F' ? fahrenheitToCelsius(typed) : typed),
  };
}
