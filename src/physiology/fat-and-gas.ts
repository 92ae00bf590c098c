import {
  CARBON_DIOXIDE_G_PER_L,
  FAT_KJ_PER_G,
  KJ_PER_L_CARBOHYDRATE,
  KJ_PER_L_FAT,
  OXYGEN_G_PER_L,
  RQ_FAT,
  WATER_G_PER_G_FAT,
} from './constants.ts';

/** kJ per litre of oxygen at a respiratory quotient between fat (0.71) and carbohydrate (1.0): a straight line between. */
export function kjPerLitreOxygen(respiratoryQuotient: number): number {
  const share = Math.min(1, Math.max(0, (respiratoryQuotient - RQ_FAT.value) / (1 - RQ_FAT.value)));
  return KJ_PER_L_FAT.value + share * (KJ_PER_L_CARBOHYDRATE.value - KJ_PER_L_FAT.value);
}

/** Heat of an animal that uses `oxygenMlH`, W. */
export function metabolicHeatW(oxygenMlH: number, respiratoryQuotient: number = RQ_FAT.value): number {
  return oxygenMlH * (kjPerLitreOxygen(respiratoryQuotient) / 3600);
}

/** Fat burnt per litre of oxygen, g, when fat is the only fuel. */
export function fatGPerLitreOxygen(): number {
  return KJ_PER_L_FAT.value / FAT_KJ_PER_G.value;
}

/** Water made per litre of oxygen on fat, g. It stays in the animal. */
export function metabolicWaterGPerLitreOxygen(): number {
  return fatGPerLitreOxygen() * WATER_G_PER_G_FAT.value;
}

/**
 * Change of the animal's mass per litre of oxygen, g: oxygen in less carbon dioxide out. On fat the two nearly cancel
 * (+0.025 g), so almost all mass lost in sleep is water; at the quotient of fed animals (0.97) half a gram leaves.
 */
export function netMassGPerLitreOxygen(respiratoryQuotient: number): number {
  return OXYGEN_G_PER_L.value - CARBON_DIOXIDE_G_PER_L.value * respiratoryQuotient;
}
