import type { Source } from '../measure/source.ts';

/** A physical constant with the source it was taken from. */
interface Constant {
  readonly value: number;
  readonly source: Source;
}

/** Gas constant of water vapour, J/(kg K). */
export const VAPOUR_GAS_CONSTANT: Constant = {
  value: 461.5,
  source: { cite: 'ASHRAE Handbook of Fundamentals 2017, chapter 1', status: 'from-memory' },
};

/** Gas constant of dry air, J/(kg K). */
export const DRY_AIR_GAS_CONSTANT: Constant = {
  value: 287.042,
  source: { cite: 'ASHRAE Handbook of Fundamentals 2017, chapter 1', status: 'from-memory' },
};

/** Ratio of the molar masses of water and dry air. */
export const WATER_TO_AIR_MOLAR_RATIO: Constant = {
  value: 0.621945,
  source: { cite: 'ASHRAE Handbook of Fundamentals 2017, chapter 1, equation 20', status: 'from-memory' },
};

/** Pressure of the standard atmosphere at sea level, Pa. */
export const STANDARD_PRESSURE_PA = 101_325;

/** Heat capacity of the air that passes a hole, J/(m3 K), at 5 °C. */
export const AIR_HEAT_CAPACITY: Constant = {
  value: 1278,
  source: { cite: '0.355 Wh/(m3 K): 1.269 kg/m3 at 5 °C times 1006 J/(kg K)', status: 'derived' },
};

/** Dynamic viscosity of air, Pa s, at 5 °C. */
export const AIR_VISCOSITY: Constant = {
  value: 1.74e-5,
  source: { cite: 'textbook value for dry air at 5 °C', status: 'from-memory' },
};

/** Share of the ideal speed with which air passes a sharp-edged hole. */
export const DISCHARGE_COEFFICIENT: Constant = {
  value: 0.61,
  source: { cite: 'EN 16798-7 and ASHRAE Handbook of Fundamentals, sharp-edged opening', status: 'from-memory' },
};

/** Outdoor mole fractions of dry air. */
export const OUTDOOR_OXYGEN: Constant = {
  value: 0.2095,
  source: { cite: 'US Standard Atmosphere 1976', status: 'from-memory', note: '20.946 % of dry air' },
};
export const OUTDOOR_CARBON_DIOXIDE: Constant = {
  value: 0.0004,
  source: { cite: 'mean outdoor air, rounded', status: 'from-memory', note: 'about 0.00042 today and rising' },
};

export type Gas = 'oxygen' | 'carbonDioxide' | 'waterVapour';

/** Diffusion of a gas in air at 101,325 Pa: D = at0C * (T / 273.15 K)^exponent, m2/s. */
export const DIFFUSION_IN_AIR: Readonly<Record<Gas, { at0C: number; exponent: number; source: Source }>> = {
  oxygen: {
    at0C: 0.178e-4,
    exponent: 1.75,
    source: {
      cite: 'International Critical Tables',
      status: 'from-memory',
      note: 'Marrero and Mason 1972 for oxygen in nitrogen agrees within 0.7 %',
    },
  },
  carbonDioxide: {
    at0C: 0.1381e-4,
    exponent: 1.81,
    source: {
      cite: 'Massman 1998, Atmos. Environ. 32:1111-1127',
      status: 'from-memory',
      note: '2 % under the value of the CRC Handbook at 20 °C (0.160 cm2/s), so on the cautious side',
    },
  },
  waterVapour: {
    at0C: 0.20896e-4,
    exponent: 2.072,
    source: {
      cite: 'Marrero and Mason 1972, J. Phys. Chem. Ref. Data 1:3-118: 1.87e-6 T^2.072 cm2/s',
      status: 'from-memory',
      note: 'reproduces the CRC Handbook at 20 °C and 100 °C (0.242 and 0.399 cm2/s); fitted above 9 °C',
    },
  },
};
