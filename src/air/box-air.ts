import { OUTDOOR_CARBON_DIOXIDE, OUTDOOR_OXYGEN } from './constants.ts';

/** The air of one box and what passes in and out. */
export interface BoxAir {
  /** Air in the box, without animal, bedding and bottles. */
  readonly freeVolumeM3: number;
  /** Oxygen the animals use, ml per hour. */
  readonly oxygenMlH: number;
  /** Carbon dioxide made per oxygen used: 0.71 on fat. */
  readonly respiratoryQuotient: number;
  /** What the openings pass, m3/s per unit of mole fraction: diffusion and, where there is any, flow. */
  readonly oxygenM3S: number;
  readonly carbonDioxideM3S: number;
}

/** Mole fractions of dry air, shares 0 to 1. */
export interface GasShares {
  readonly oxygen: number;
  readonly carbonDioxide: number;
}

const M3S_PER_ML_H = 1e-6 / 3600;

export const OUTDOOR_AIR: GasShares = { oxygen: OUTDOOR_OXYGEN.value, carbonDioxide: OUTDOOR_CARBON_DIOXIDE.value };

function check(box: BoxAir): void {
  if (!(box.freeVolumeM3 > 0 && box.oxygenMlH >= 0 && box.respiratoryQuotient >= 0))
    throw new RangeError(
      'a box has air (above 0 m3), an oxygen use of 0 or more and a respiratory quotient of 0 or more',
    );
  if (!(box.oxygenM3S >= 0 && box.carbonDioxideM3S >= 0)) throw new RangeError('openings pass 0 m3/s or more');
}

const clamp = (shares: GasShares): GasShares => ({
  oxygen: Math.max(0, shares.oxygen),
  carbonDioxide: Math.min(1, shares.carbonDioxide),
});

/** What the animals take from and give to the air, m3/s. */
function turnover(box: BoxAir): { usedM3S: number; madeM3S: number } {
  const usedM3S = box.oxygenMlH * M3S_PER_ML_H;
  return { usedM3S, madeM3S: usedM3S * box.respiratoryQuotient };
}

/** Shares after a long time: outdoors less demand over conductance. With no openings at all oxygen ends at 0. */
export function steadyGas(box: BoxAir): GasShares {
  check(box);
  const { usedM3S, madeM3S } = turnover(box);
  return clamp({
    oxygen: OUTDOOR_AIR.oxygen - (usedM3S === 0 ? 0 : usedM3S / box.oxygenM3S),
    carbonDioxide: OUTDOOR_AIR.carbonDioxide + (madeM3S === 0 ? 0 : madeM3S / box.carbonDioxideM3S),
  });
}

/** The exact solution of V dx/dt = source - G (x - outdoors) is linear in the start: x = keep * start + add. */
function step(outdoor: number, sourceM3S: number, conductanceM3S: number, volumeM3: number, afterS: number) {
  const fade = (conductanceM3S * afterS) / volumeM3;
  // (1 - e^-f) / f tends to 1 as the openings close.
  const spread = fade < 1e-9 ? 1 - fade / 2 : -Math.expm1(-fade) / fade;
  const keep = Math.exp(-fade);
  return { keep, add: outdoor * (1 - keep) + (sourceM3S / volumeM3) * afterS * spread };
}

function steps(box: BoxAir, afterS: number) {
  check(box);
  const { usedM3S, madeM3S } = turnover(box);
  return {
    oxygen: step(OUTDOOR_AIR.oxygen, -usedM3S, box.oxygenM3S, box.freeVolumeM3, afterS),
    carbonDioxide: step(OUTDOOR_AIR.carbonDioxide, madeM3S, box.carbonDioxideM3S, box.freeVolumeM3, afterS),
  };
}

/** Shares `afterS` seconds after the box held `from`. */
export function gasAfter(box: BoxAir, afterS: number, from: GasShares = OUTDOOR_AIR): GasShares {
  const { oxygen, carbonDioxide } = steps(box, afterS);
  return clamp({
    oxygen: oxygen.keep * from.oxygen + oxygen.add,
    carbonDioxide: carbonDioxide.keep * from.carbonDioxide + carbonDioxide.add,
  });
}

/** Shares just after the lid was open and `exchangedShare` (0 to 1) of the air was changed for outdoor air. */
export function afterLidOpening(before: GasShares, exchangedShare: number): GasShares {
  if (!(exchangedShare >= 0 && exchangedShare <= 1)) throw new RangeError('the exchanged share is 0 to 1');
  return {
    oxygen: before.oxygen + exchangedShare * (OUTDOOR_AIR.oxygen - before.oxygen),
    carbonDioxide: before.carbonDioxide + exchangedShare * (OUTDOOR_AIR.carbonDioxide - before.carbonDioxide),
  };
}

/** Shares just before each opening once a box opened every `everyS` seconds repeats itself: the worst moment of the cycle. */
export function worstBetweenOpenings(box: BoxAir, everyS: number, exchangedShare: number): GasShares {
  if (!(everyS > 0)) throw new RangeError('the time between openings is above 0 s');
  if (!(exchangedShare > 0)) return steadyGas(box);
  const { oxygen, carbonDioxide } = steps(box, everyS);
  // before = keep * ((1 - f) before + f outdoors) + add
  const repeat = ({ keep, add }: { keep: number; add: number }, outdoor: number) =>
    (keep * exchangedShare * outdoor + add) / (1 - keep * (1 - exchangedShare));
  return clamp({
    oxygen: repeat(oxygen, OUTDOOR_AIR.oxygen),
    carbonDioxide: repeat(carbonDioxide, OUTDOOR_AIR.carbonDioxide),
  });
}

/** Hours until a box with its openings sealed has fallen from outdoor air to `toOxygen`. */
export function sealedHours(
  box: Pick<BoxAir, 'freeVolumeM3' | 'oxygenMlH' | 'respiratoryQuotient'>,
  toOxygen = 0.19,
): { fixedVolume: number; leakingIn: number } {
  const fixedVolume = ((OUTDOOR_AIR.oxygen - toOxygen) * box.freeVolumeM3 * 1e6) / box.oxygenMlH;
  // Less carbon dioxide is given off than oxygen taken in: a box that is not quite tight draws in fresh air for the rest.
  return { fixedVolume, leakingIn: fixedVolume / (1 - (1 - box.respiratoryQuotient) * OUTDOOR_AIR.oxygen) };
}

/** What openings must pass, m3/s, to keep oxygen at `keepOxygen`. */
export function conductanceForM3S(oxygenMlH: number, keepOxygen: number): number {
  if (!(keepOxygen < OUTDOOR_AIR.oxygen))
    throw new RangeError('no opening keeps more oxygen inside than there is outdoors');
  return (oxygenMlH * M3S_PER_ML_H) / (OUTDOOR_AIR.oxygen - keepOxygen);
}

/**
 * Vapour density in a box, kg/m3, when only the animal gives off water and only the openings carry it away:
 * kA (saturated - x) = G (x - outdoors). Bedding that takes up or gives off water holds the air back from this for weeks.
 *
 * @param evaporationM3S k A of the animal (see the water loss of the physiology room)
 * @param openingsM3S what the openings pass of water vapour
 */
export function steadyVapourDensityKgM3(
  saturatedKgM3: number,
  outdoorKgM3: number,
  evaporationM3S: number,
  openingsM3S: number,
): number {
  const total = evaporationM3S + openingsM3S;
  return total === 0 ? outdoorKgM3 : (evaporationM3S * saturatedKgM3 + openingsM3S * outdoorKgM3) / total;
}
