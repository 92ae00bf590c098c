/** English wording of heat. Keys begin with the room they belong to; {{name}} stands for a value. */
export const heatWords = {
  'heat.exact.noResistance': 'Nothing resists the heat: give a layer, or a film resistance above 0 m²K/W.',

  // Refrigerator, freezing, calibration, the next three days, search and advice.
  'heat.refrigerator.never-stops':
    'The compressor hardly stops. It cannot make the cold you ask for in this room: move the refrigerator somewhere cooler, or mend it.',
  'heat.refrigerator.cold-room':
    'The room falls to {{coldest}}, below the {{on}} at which the compressor starts. The refrigerator then does nothing and follows the room; in a hard frost the box can freeze. Stand it in a room that stays warmer than that.',
  'heat.refrigerator.too-cold':
    'It reaches {{lowest}} at the animal. Turn the thermostat to a warmer setting before the animal goes in.',
  'heat.refrigerator.too-warm':
    'It reaches {{highest}} at the animal. Turn the thermostat to a colder setting before the animal goes in.',
  'heat.refrigerator.shelves':
    'The shelves differ by about {{difference}}. Put the probe on the shelf where the box stands.',
  'heat.refrigerator.cut':
    'If the current fails and the door stays shut, the box would reach 8 °C after about {{hours}} hours in a room at {{room}}.',
  'heat.refrigerator.cut-never': 'If the current fails, the box stays under 8 °C in a room at {{room}}.',
} as const;
