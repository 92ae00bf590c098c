import type { Group } from '../../schema/group.ts';

/**
 * The demonstration group: an invented household in an invented valley with invented weather. Nothing in this folder describes a
 * real person, place or animal.
 */

/** Every identifier of the demonstration: `demoId(12)`. */
export const demoId = (number: number): string => `0192aaaa-0000-7000-8000-${String(number).padStart(12, '0')}`;

/** Invented means of daily maximum and minimum, °C, from the darkest month of the year on, for either hemisphere. */
const FROM_DARKEST = [
  [6.9, 1.2],
  [6.4, 0.7],
  [6.8, 0.6],
  [9.4, 1.8],
  [12.6, 3.7],
  [16.1, 6.6],
  [18.9, 9.4],
  [21.2, 11.3],
  [20.8, 11.2],
  [17.9, 9.1],
  [13.8, 6.4],
  [9.7, 3.3],
] as const;

/** The valley lies north or south of the equator: wherever the next shortest day is nearer, so that it is always near winter there. */
export function demoGroup(hemisphere: 'north' | 'south'): Group {
  // The darkest month is the twelfth of the calendar year in the north, the sixth in the south.
  const darkest = hemisphere === 'north' ? 11 : 5;
  return {
    id: demoId(1),
    name: 'Marrowick Bottom (invented)',
    zone: hemisphere === 'north' ? 'Europe/London' : 'Australia/Hobart',
    latitudeDeg: hemisphere === 'north' ? 52.3 : -42.4,
    longitudeDeg: hemisphere === 'north' ? -1.7 : 146.6,
    temperatureUnit: 'C',
    massUnit: 'g',
    lengthUnit: 'mm',
    lengthAdvice: 'uk-joint-2016',
    climateNormals: Array.from({ length: 12 }, (_, month) => {
      const [maxC, minC] = FROM_DARKEST[(month - darkest + 12) % 12]!;
      return { maxC, minC };
    }),
    climateNote: 'Invented for the demonstration: there is no such valley and no such weather station.',
    demonstration: true,
  };
}
