/** English wording of heat. Keys begin with the room they belong to; {{name}} stands for a value. */
export const heatWords = {
  'heat.exact.noResistance': 'Nothing resists the heat: give a layer, or a film resistance above 0 m²K/W.',
} as const;
