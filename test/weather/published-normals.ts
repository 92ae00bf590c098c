import type { MonthlyNormals } from '../../src/weather/normals.ts';

const pairs = (text: string): MonthlyNormals =>
  text.split(' ').map((pair) => {
    const [maxC, minC] = pair.split('/').map(Number);
    return { maxC: maxC!, minC: minC! };
  });

/** Means of maximum and minimum 1981-2010 by month, computed from the station files of the Met Office (Open Government Licence). */
export const HEATHROW = pairs(
  '8.1/2.3 8.4/2.1 11.4/3.9 14.2/5.5 17.9/8.7 21.0/11.7 23.5/13.9 23.2/13.7 19.9/11.4 15.5/8.4 11.2/4.9 8.3/2.7',
);
export const OXFORD = pairs(
  '7.6/2.1 8.0/1.8 10.9/3.7 13.6/5.0 17.1/7.9 20.3/10.9 22.7/13.0 22.3/12.9 19.1/10.7 14.8/7.8 10.5/4.6 7.7/2.3',
);
export const ARMAGH = pairs(
  '7.4/1.9 8.1/1.6 10.2/3.1 12.6/4.3 15.6/6.7 18.0/9.6 19.7/11.7 19.3/11.4 16.9/9.5 13.4/6.8 10.0/3.9 7.7/2.1',
);
export const ABERPORTH = pairs(
  '7.6/3.1 7.4/2.7 9.1/4.1 11.1/5.3 14.0/7.9 16.4/10.4 18.2/12.3 18.2/12.5 16.4/11.0 13.4/8.6 10.3/5.8 8.1/3.6',
);
/** The same place with its seasons half a year on. */
export const southern = (normals: MonthlyNormals): MonthlyNormals => [...normals.slice(6), ...normals.slice(0, 6)];
