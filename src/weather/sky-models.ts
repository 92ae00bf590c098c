import type { Source } from '../measure/source.ts';

/** A published rule for the emissivity of a clear sky, from the air temperature and the dew point near the ground. */
export interface SkyModel {
  readonly id: 'clark-allen' | 'martin-berdahl' | 'brunt' | 'berdahl-martin' | 'brutsaert' | 'swinbank';
  readonly emissivity: (airTempC: number, dewPointC: number) => number;
  readonly source: Source;
}

/** Vapour pressure over water at the dew point, hPa (Magnus form, WMO 2008 constants 6.112, 17.62, 243.12; from memory). */
const vapourHpa = (dewPointC: number): number => 6.112 * Math.exp((17.62 * dewPointC) / (243.12 + dewPointC));

/**
 * The published rules disagree by 28 W/m2 at 0 °C, about 1 K on a roof. The first is the one in force: it comes with a cloud factor
 * of its own. It gives the warmest sky, so a forecast of frost should also be read with the last.
 */
export const SKY_MODELS: readonly SkyModel[] = [
  {
    id: 'clark-allen',
    emissivity: (_air, dew) => 0.787 + 0.764 * Math.log((dew + 273.15) / 273),
    source: {
      cite: 'Clark and Allen 1978, Proc. 2nd National Passive Solar Conference 2:675-678',
      status: 'quoted',
      note: 'as quoted in the engineering reference of a public building simulation program',
    },
  },
  {
    id: 'martin-berdahl',
    emissivity: (_air, dew) => 0.758 + 0.521 * (dew / 100) + 0.625 * (dew / 100) ** 2,
    source: { cite: 'Martin and Berdahl 1984, Solar Energy 33:321-336', status: 'quoted' },
  },
  {
    id: 'brunt',
    emissivity: (_air, dew) => 0.618 + 0.056 * Math.sqrt(vapourHpa(dew)),
    source: { cite: 'Brunt 1932, Q. J. R. Meteorol. Soc. 58:389-420, with later coefficients', status: 'quoted' },
  },
  {
    id: 'berdahl-martin',
    emissivity: (_air, dew) => 0.711 + 0.56 * (dew / 100) + 0.73 * (dew / 100) ** 2,
    source: { cite: 'Berdahl and Martin 1984, Solar Energy 32:663-664', status: 'quoted' },
  },
  {
    id: 'brutsaert',
    emissivity: (air, dew) => 1.24 * (vapourHpa(dew) / (air + 273.15)) ** (1 / 7),
    source: { cite: 'Brutsaert 1975, Water Resour. Res. 11:742-744', status: 'from-memory' },
  },
  {
    id: 'swinbank',
    emissivity: (air) => (0.0552 * Math.sqrt(air + 273.15)) ** 4,
    source: { cite: 'Swinbank 1963, Q. J. R. Meteorol. Soc. 89:339-348', status: 'from-memory' },
  },
];
