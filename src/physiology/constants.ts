import type { Source } from '../measure/source.ts';
import type { Spread } from '../measure/spread.ts';

/** A published figure, or a range of them, with its source. */
interface Figure {
  readonly value: number;
  readonly source: Source;
}
interface Ranged {
  readonly value: Spread;
  readonly source: Source;
}

/** Mean length of a month, days: what "per month" means in every rate of loss. */
export const DAYS_PER_MONTH = 30.44;

// Oxygen use

/** ml of oxygen per hour of a 1 kg animal asleep at 5 °C. */
export const OXYGEN_AT_5C: Ranged = {
  value: { low: 0.5, mid: 1.5, high: 5 },
  source: {
    cite: 'between Gatten 1974 (Comp. Biochem. Physiol. A, Terrapene ornata, 20 °C) brought to 5 °C and Hughes et al. 1971 brought to 5 °C',
    status: 'derived',
    note: 'no measurement of a Testudo below 20 °C was found; the range is meant to hold nine animals in ten',
  },
};

/** Exponent of mass in the oxygen use. */
export const OXYGEN_MASS_EXPONENT: Figure = {
  value: 0.82,
  source: { cite: 'Hughes, Gaymer, Moore and Woakes 1971, J. Exp. Biol. 55:651-665', status: 'abstract' },
};

/** ml/h of 1 kg inactive giant tortoise at 25.5 °C. Kept as a reference only: 3 to 4 times too high for a small land turtle. */
export const HUGHES_OXYGEN: Figure = {
  value: 45.47,
  source: {
    cite: 'Hughes, Gaymer, Moore and Woakes 1971, J. Exp. Biol. 55:651-665',
    status: 'abstract',
    note: 'Aldabrachelys gigantea, 0.118 to 35.5 kg, about 25.5 °C; T. hermanni in the same study rather lower',
  },
};

/** How many times faster per 10 K, below and above 15 °C. */
export const OXYGEN_Q10_COLD: Ranged = {
  value: { low: 2.4, mid: 3.0, high: 3.6 },
  source: {
    cite: 'Andrews and Pough 1985 (2.4, quoted) to Rowe 2024, Acta Oecologica 104007 (3.6, cooled hatchling Chelydra serpentina)',
    status: 'abstract',
  },
};
export const OXYGEN_Q10_WARM: Ranged = {
  value: { low: 2.4, mid: 5, high: 10 },
  source: {
    cite: 'Andrews and Pough 1985 (2.4, quoted) to Rowe 2024 (9.6) and Arnall, Kuchling and Mitchell 2014 (9.2)',
    status: 'abstract',
  },
};
export const Q10_LEG_C = 15;

// Fuel

export const OXYGEN_G_PER_L: Figure = {
  value: 1.429,
  source: { cite: 'molar mass over 22.39 l at STPD', status: 'derived' },
};
export const CARBON_DIOXIDE_G_PER_L: Figure = {
  value: 1.977,
  source: { cite: 'density of carbon dioxide at STPD', status: 'from-memory' },
};
/** Respiratory quotient of an animal living on its fat. Hughes et al. 1971 found 0.97 to 1.01 in fed animals. */
export const RQ_FAT: Figure = { value: 0.71, source: { cite: 'textbook value for fat', status: 'from-memory' } };
/** kJ per litre of oxygen on fat, and on carbohydrate (RQ 1.0). */
export const KJ_PER_L_FAT: Figure = { value: 19.6, source: { cite: 'textbook value', status: 'from-memory' } };
export const KJ_PER_L_CARBOHYDRATE: Figure = { value: 21.1, source: { cite: 'textbook value', status: 'from-memory' } };
export const FAT_KJ_PER_G: Figure = { value: 39.3, source: { cite: 'textbook value', status: 'from-memory' } };
export const WATER_G_PER_G_FAT: Figure = { value: 1.07, source: { cite: 'textbook value', status: 'from-memory' } };

// Water

/** Outer area of the animal, m2 per kg^(2/3), limbs out. k belongs to this area. */
export const AREA_M2_PER_KG23: Figure = {
  value: 0.1,
  source: {
    cite: 'usual reptile figure of 10 cm2 per g^(2/3); a shell alone has 5.0 to 5.6 (Jolicoeur and Mosimann 1960 as an ellipsoid)',
    status: 'derived',
  },
};
/** The state the usual "1 % a month" is tied to. */
export const USUAL_LOSS = {
  massKg: 1,
  sharePerMonth: 0.01,
  tempC: 5,
  relativeHumidity: 0.8,
  source: {
    cite: 'common practice, no source',
    status: 'common-practice',
    note: 'veterinary pages say 1, or 1 to 2 % a month; tied here to 1 kg, 5 °C and 80 % relative humidity',
  } satisfies Source,
} as const;

/** Spread of k between animals, as the standard deviation of its logarithm. */
export const LOG_K_SPREAD: Figure = {
  value: 0.5,
  source: {
    cite: "one keeper's hatchling (4.7 % a month at 24 g), 2.0 to 4.1 mg/(g d) in hatchlings of about 9 g (Baker et al. 2003; Dinkelacker et al.), 1 to 2 % a month of practice",
    status: 'estimate',
    note: 'these lie between 0.7 and 2.6 times the usual figure; 0.5 makes nine animals in ten lie between 0.44 and 2.3 times',
  },
};

// Gut

export interface GutRow {
  /** Passage time at 28 °C, days. */
  readonly referenceDays: Spread;
  readonly source: Source;
}
export const GUT_REFERENCE: Readonly<Record<'adult' | 'small', GutRow>> = {
  adult: {
    referenceDays: { low: 7, mid: 11.5, high: 20 },
    source: {
      cite: 'Holt 1978, Vet. Rec. 103:198 (T. graeca, barium, 25 and 28 days); Sadeghayobi et al. 2011; Barboza 1995',
      status: 'derived',
    },
  },
  small: {
    referenceDays: { low: 5, mid: 8, high: 14 },
    source: {
      cite: 'common practice, no source',
      status: 'common-practice',
      note: 'the range is scaled from the adult one',
    },
  },
};
/** Length under which an animal counts as small, mm. */
export const SMALL_UNDER_MM = 100;
export const GUT_Q10: Ranged = {
  value: { low: 2.0, mid: 2.24, high: 2.5 },
  source: {
    cite: 'Parmenter 1981, Comp. Biochem. Physiol. 70A:235-238 (Chrysemys picta, 16 to 34 °C)',
    status: 'abstract',
  },
};
export const GUT_REFERENCE_C = 28;
/** Warmest body temperature at which passage was measured: no credit for more. */
export const GUT_HOTTEST_C = 34;
/** Full rate from the first, nothing at the second, a straight line between. */
export const GUT_TAPER = {
  fullC: 15,
  noneC: 10,
  source: {
    cite: 'Meyer 1998, J. Zoo Wildl. Med. 29:183-189 (T. hermanni: several times slower at 15 °C than at 30 °C)',
    status: 'from-memory',
    note: 'the straight line to nothing at 10 °C is our own choice, on the cautious side',
  } satisfies Source,
} as const;

// Body temperature

/** Time constants of a turtle in air, minutes at 1 kg, and exponents of mass. */
export const BODY_COOLING = {
  coolMin: 53.4,
  coolExponent: 0.53,
  warmMin: 34.0,
  warmExponent: 0.33,
  source: {
    cite: 'Chelonia mydas in air at 2.5 m/s, J. Herpetol. 1986, 20:325-332',
    status: 'abstract',
    note: 'still air is slower; land turtles cool faster than they warm (Spray and May 1972)',
  } satisfies Source,
} as const;

// Weighing and the estimator

const OUR_ESTIMATE = (note: string): Source => ({
  cite: 'our estimate, nothing published was found',
  status: 'estimate',
  note,
});

/** The air of a box where nothing is measured. */
export const USUAL_BOX_AIR = {
  tempC: 5,
  relativeHumidity: 0.8,
  source: {
    cite: 'common practice, no source',
    status: 'common-practice',
    note: 'aim of the sleep; damp outbuilding',
  } satisfies Source,
} as const;

/** Even in saturated air an animal a little warmer than it gives off water: least deficit as a share of saturation. */
export const LEAST_DEFICIT_SHARE: Figure = {
  value: 0.02,
  source: OUR_ESTIMATE('its own heat keeps an animal a few tenths of a kelvin over its air at most'),
};

/** Unmeasured humidity between about 60 and 90 %: standard deviation of the logarithm of the deficit. */
export const LOG_DEFICIT_SPREAD_UNMEASURED: Figure = {
  value: 0.4,
  source: OUR_ESTIMATE('60 to 90 % is 2 to 0.5 times the deficit at 80 %'),
};

/** How far k of one animal drifts in a month (logarithm), and how much single weeks differ (share of the week's loss). */
export const LOG_K_DRIFT_PER_MONTH: Figure = {
  value: 0.12,
  source: OUR_ESTIMATE('posture, depth in the bedding, wakefulness'),
};
export const WEEKLY_SCATTER: Figure = { value: 0.3, source: OUR_ESTIMATE('air in the box changes from week to week') };

/** What putting an animal on a scale adds: soil, position, draught. */
export const HANDLING_SHARE: Figure = { value: 0.001, source: OUR_ESTIMATE('1 g at 1 kg') };
export const HANDLING_G: Figure = { value: 0.1, source: OUR_ESTIMATE('crumbs of bedding') };

/** Water held in shell, skin and adhering soil, coming and going with the damp of the air. */
export const SURFACE_WATER_SHARE: Figure = {
  value: 0.0015,
  source: OUR_ESTIMATE('the part that varies at one humidity'),
};
export const SURFACE_WATER_PER_HUMIDITY: Figure = {
  value: 0.016,
  source: {
    cite: 'Catalan school weighings of T. hermanni (García Jurado 2011 and others): mass recovers in part after humid spells',
    status: 'derived',
    note: 'scaled so that 0.4 % comes back when the humidity rises from 70 to 95 %',
  },
};

/** Share of its mass an animal cannot lose or gain between two weigh-ins by any way known: beyond it the figure is wrong. */
export const IMPOSSIBLE_CHANGE: Figure = {
  value: 0.3,
  source: {
    cite: 'Nagy and Medica 1986, Herpetologica 42:73-92 (large bladder of Gopherus agassizii)',
    status: 'from-memory',
    note: 'the limit itself is our estimate',
  },
};

/** Shares of the starting mass that guard the animal. */
export const LOSS_PLAN_LIMIT: Figure = {
  value: 0.08,
  source: {
    cite: 'Bundestierärztekammer (8 to 10 % over a winter)',
    status: 'read',
    note: 'no published ground for 8 % itself was found',
  },
};
export const LOSS_END_LIMIT: Figure = {
  value: 0.1,
  source: { cite: 'Bundestierärztekammer; UK veterinary practice (wake at 10 % of the starting mass)', status: 'read' },
};
