import { percent, temperature } from '../measure/figures.ts';
import { COMMON_PRACTICE, type Source } from '../measure/source.ts';
import { type Message, message } from '../wording/say.ts';
import { dewPointC, vapourDensityKgM3, vapourPressurePa } from './humid-air.ts';

export interface HumidityAdvice {
  readonly state: 'dry' | 'middling' | 'damp' | 'dripping';
  /** Where water would settle: any wall colder than this, °C. */
  readonly dewPointC: number;
  readonly messages: readonly { readonly say: Message; readonly source: Source }[];
}

/** Where the advice changes its tone. Our own marks: published advice runs from 30 % to damp earth. */
const MARKS = { dry: 0.6, damp: 0.85, dripping: 0.98 } as const;

const PHYSICS: Source = {
  cite: 'evaporation k A (saturated vapour - vapour of the air), see the notes on the models',
  status: 'derived',
};
const DISAGREEMENT: Source = {
  cite: 'a US veterinary page for Gopherus (30 to 40 %, 2014); German practice (damp earth and leaves)',
  status: 'read',
  note: 'the two are for different species; physics and the Catalan weighings of T. hermanni favour damp for Testudo',
};
const REGAIN: Source = {
  cite: 'García Jurado 2011 and others (T. hermanni regains mass in damp spells) against Costanzo et al. (most hatchling turtles do not regain body water from wet soil)',
  status: 'read',
};

/**
 * Damp and dry boxes: what the humidity means for the loss of water, where water would settle, and what is not known.
 *
 * @param relativeHumidity share 0 to 1, in the box
 */
export function adviseHumidity(tempC: number, relativeHumidity: number): HumidityAdvice {
  const state =
    relativeHumidity < MARKS.dry
      ? 'dry'
      : relativeHumidity < MARKS.damp
        ? 'middling'
        : relativeHumidity < MARKS.dripping
          ? 'damp'
          : 'dripping';
  const dew = dewPointC(Math.max(1, vapourPressurePa(tempC, relativeHumidity)));
  const saturated = vapourDensityKgM3(tempC, 1);
  const deficit = (humidity: number) => saturated * (1 - humidity);
  // How the loss compares with the 80 % and 5 °C that the usual 1 % a month is tied to.
  const times = Math.max(0, deficit(relativeHumidity) / (0.2 * vapourDensityKgM3(5, 1)));
  return {
    state,
    dewPointC: dew,
    messages: [
      {
        say: message(`air.humidity.${state}`, {
          humidity: percent(relativeHumidity),
          times: times.toFixed(1),
          dew: temperature(dew),
        }),
        source: state === 'dripping' ? COMMON_PRACTICE : PHYSICS,
      },
      { say: message('air.humidity.disagreement'), source: DISAGREEMENT },
      { say: message('air.humidity.regain'), source: REGAIN },
    ],
  };
}
