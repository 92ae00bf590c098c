/** English wording of heat. Keys begin with the room they belong to; {{name}} stands for a value. */
export const heatWords = {
  'heat.exact.noResistance': 'Nothing resists the heat: give a layer, or a film resistance above 0 m²K/W.',

  // Refrigerator, freezing, calibration, the next three days, search and advice.
  'heat.calibration.twice': 'Name each factor once.',
  'heat.calibration.sun-length':
    'Give the sun at the same samples as the outdoor temperature, as many as there are of those.',
  'heat.refrigerator.hysteresis': 'The compressor must start at a warmer temperature than it stops at.',
  'heat.refrigerator.no-node': 'No node is called "{{name}}". List it among the nodes, or correct the name.',
  'heat.refrigerator.same-name': 'Two nodes have the same name. Give each its own.',
  'heat.refrigerator.too-many-samples':
    'That would be more than two million samples. Make sampleS larger or spanS smaller.',
  'heat.next.cold-now': 'The box is below {{limit}} already.',
  'heat.next.warm-now': 'The box is above {{limit}} already.',
  'heat.next.cold-likely_one': 'The box is expected to fall below {{limit}} in about an hour.',
  'heat.next.cold-likely_other': 'The box is expected to fall below {{limit}} in about {{count}} hours.',
  'heat.next.warm-likely_one': 'The box is expected to rise above {{limit}} in about an hour.',
  'heat.next.warm-likely_other': 'The box is expected to rise above {{limit}} in about {{count}} hours.',
  'heat.next.cold-possible_one': 'The box may fall below {{limit}} in about an hour.',
  'heat.next.cold-possible_other': 'The box may fall below {{limit}} in about {{count}} hours.',
  'heat.next.warm-possible_one': 'The box may rise above {{limit}} in about an hour.',
  'heat.next.warm-possible_other': 'The box may rise above {{limit}} in about {{count}} hours.',
  'heat.advice.good': 'This build stays in the band in at least 95 winters of a hundred.',
  'heat.advice.good-known_one':
    'This build stays in the band in the one winter that is known. A colder or warmer winter may come.',
  'heat.advice.good-known_other':
    'This build stays in the band in all {{count}} winters that are known. A colder or warmer winter may come.',
  'heat.advice.found_one': 'One build of the {{tried}} tried keeps 95 winters of a hundred in the band.',
  'heat.advice.found_other':
    'These are the {{count}} simplest of {{tried}} builds tried that keep 95 winters of a hundred in the band.',
  'heat.advice.build':
    'Walls of {{wall}} mm, {{litres}} litres of water in bottles, sleep from {{dates}}: {{kept}} of the winters kept.',
  'heat.advice.build-elsewhere':
    'In another place, {{place}}: walls of {{wall}} mm, {{litres}} litres of water in bottles, sleep from {{dates}}: {{kept}} of the winters kept.',
  'heat.advice.place-too-warm':
    'The trouble is the place, not the box. Its own mean in these weeks is {{mean}}, and spells above {{high}} last longer than any box can bridge. No box makes a warm place cold: choose a colder place, or later or shorter dates.',
  'heat.advice.place-too-cold':
    'The trouble is the place, not the box. Its own mean in these weeks is {{mean}}, and spells below {{low}} last longer than any box can bridge. No box makes a cold place warm: choose a place that stays above freezing.',
  'heat.advice.swings':
    'The place swings too much: the best build tried here keeps {{kept}} of the winters. A place with thick walls or in the ground swings less.',
  'heat.advice.refrigerator':
    'None of the {{tried}} builds tried keeps 95 winters of a hundred in the band. A refrigerator in a room that is never cold can, with a probe and a daily look.',
  'heat.advice.change.wall':
    'The single change that helps most: walls of {{to}} mm ({{before}} of the hours in the band would become {{after}}).',
  'heat.advice.change.water':
    'The single change that helps most: {{to}} litres of water in bottles ({{before}} of the hours in the band would become {{after}}).',
  'heat.advice.change.earlier':
    'The single change that helps most: begin the sleep {{to}} weeks earlier ({{before}} of the hours in the band would become {{after}}).',
  'heat.advice.change.later':
    'The single change that helps most: begin the sleep {{to}} weeks later ({{before}} of the hours in the band would become {{after}}).',
  'heat.advice.change.place':
    'The single change that helps most: another place, {{to}} ({{before}} of the hours in the band would become {{after}}).',
  'heat.advice.water-idle': 'More water in the box would not help here.',
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

  'heat.check.thickness': 'A layer must be thicker than 0 mm, not {{value}} mm.',
  'heat.check.tooThick': 'A layer of {{value}} mm is thicker than the {{most}} mm this can be. Is it in millimetres?',
  'heat.check.conductivity':
    'The conductivity of {{material}} is {{low}} to {{high}} W/(m K); {{value}} belongs to another material. Check the figure, or choose the material it belongs to.',
  'heat.check.density':
    'The density of {{material}} is about {{usual}} kg/m³; {{value}} belongs to another material. Check the figure, or choose the material it belongs to.',
  'heat.check.noShell': 'A box needs at least one shell.',
  'heat.check.noWall': 'Give at least one layer here.',
  'heat.check.size': 'A size must be more than 0, not {{value}}.',
  'heat.check.doesNotFit':
    'Box {{inner}} is {{short}} mm too large to go into box {{outer}}. Make the inner one smaller or the outer one larger.',
  'heat.check.noSuchShell': 'There are only {{count}} boxes in the nest; count them from the outside, starting with 0.',
  'heat.check.bottle': 'Give the number of bottles and the litres of each, both more than 0.',
  'heat.check.beddingDeep': 'Bedding of {{value}} mm does not go into a box {{most}} mm high inside.',
  'heat.check.mass': 'The mass of the animal must be more than 0 g.',
  'heat.check.animalDoesNotFit': 'An animal of {{mass}} g has no room in the innermost box.',
  'heat.check.bottlesDoNotFit': 'Bottles of {{litres}} litres do not go where there is room for about {{room}} litres.',
  'heat.check.glassTooLarge': 'Glass of {{value}} m² is more than all walls and the roof together, {{most}} m².',
  'heat.check.largerThanPlace':
    'The box is {{length}} x {{width}} x {{height}} mm outside and does not go into this place. Check both sizes.',

  'heat.material.polystyrene': 'polystyrene (old fish box, packing foam)',
  'heat.material.extruded-polystyrene': 'extruded polystyrene board',
  'heat.material.mineral-wool': 'mineral wool',
  'heat.material.polyurethane-foam': 'polyurethane foam board',
  'heat.material.shredded-paper': 'shredded paper',
  'heat.material.newspaper': 'newspaper, stacked',
  'heat.material.straw': 'straw',
  'heat.material.dry-leaves': 'dry leaves',
  'heat.material.wood-shavings': 'wood shavings',
  'heat.material.soil': 'garden soil, moist',
  'heat.material.potting-soil': 'loose potting soil',
  'heat.material.sand': 'sand',
  'heat.material.bubble-wrap': 'bubble wrap',
  'heat.material.cardboard': 'corrugated cardboard',
  'heat.material.softwood': 'softwood planks',
  'heat.material.hardwood': 'hardwood',
  'heat.material.plywood': 'plywood',
  'heat.material.strand-board': 'strand board (OSB)',
  'heat.material.chipboard': 'chipboard',
  'heat.material.plastic': 'plastic (storage box)',
  'heat.material.plasterboard': 'plasterboard',
  'heat.material.glass': 'glass',
  'heat.material.polycarbonate': 'solid polycarbonate',
  'heat.material.steel-sheet': 'steel sheet',
  'heat.material.aluminium-sheet': 'aluminium sheet',
  'heat.material.roofing-felt': 'roofing felt',
  'heat.material.brick': 'brick',
  'heat.material.concrete-block': 'lightweight concrete block',
  'heat.material.aerated-block': 'aerated block',
  'heat.material.concrete': 'concrete',
  'heat.material.stone': 'stone',
  'heat.material.clay-tiles': 'clay tiles',
  'heat.material.plaster': 'plaster',
  'heat.material.render': 'render',
  'heat.material.cavity': 'air cavity',

  'heat.fill.air': 'air only',

  'heat.place.brick-outbuilding': 'brick outbuilding',
  'heat.place.timber-shed': 'timber shed',
  'heat.place.roof-space': 'roof space above the insulation',
  'heat.place.unheated-room': 'unheated room',
  'heat.place.cellar': 'cellar',
  'heat.place.greenhouse': 'greenhouse',
  'heat.place.cold-frame': 'cold frame',
  'heat.place.outdoor-pit': 'outdoor pit under a cover',
  'heat.place.readings': 'readings I have',

  'heat.glazing.single': 'single glazing',
  'heat.glazing.double': 'double glazing',
  'heat.glazing.polycarbonate-twinwall': 'twin-wall polycarbonate',
  'heat.glazing.plastic-film': 'plastic film',

  'heat.probe.beside-animal': 'beside the animal',
  'heat.probe.inner-air': 'in the air of the inner box',
  'heat.probe.outer-space': 'between the outer and the inner box',
  'heat.probe.on-ballast': 'on a water bottle',
  'heat.probe.under-lid': 'under the lid',

  'heat.note.cloudAssumed':
    'The weather record has no cloud cover; the usual winter sky of {{percent}} cloud was taken. This moves places with much glass or a thin roof most.',
  'heat.note.groundAssumed':
    'The temperature of the ground was guessed from these winters. Monthly averages of your place would make it better.',
  'heat.note.presetAssumed':
    'A place you have not measured is a starting point with a wide range. A week of readings there replaces it.',
  'heat.calibration.too-few':
    'There are only {{count}} readings. A calibration needs at least {{least}} readings over two days, or {{spans}} max-min readings.',
  'heat.calibration.too-short':
    'The readings cover {{hours}} hours. A calibration needs at least {{least}} hours; a week is better.',
  'heat.calibration.no-weather':
    'There is no outdoor temperature for part of the time of the readings. Bring in the weather of those days, then calibrate.',
  'heat.calibration.max-under-min':
    'A max-min reading has its highest below its lowest, or ends before it begins. Correct it, then calibrate.',
  'heat.calibration.order': 'The readings of one probe are not in the order of time, or two stand at the same moment.',
  'heat.calibration.too-warm':
    'The readings are {{over}} warmer than the weather, the sun and everything named in the place could make them. Is there a heater, is it the wrong probe, or the weather of another place?',
  'heat.calibration.too-cold':
    'The readings are {{over}} colder than the weather could make them. Is it the wrong probe, the weather of another place, or a refrigerator?',
  'heat.calibration.does-not-follow':
    'The readings do not follow the weather: {{left}} is left unexplained. Is it the wrong probe, the weather of another place, or a room that is sometimes heated?',
  'heat.calibration.beyond-belief':
    'To match the readings, {{name}} would have to be {{factor}} times what is described. Check the description of the place and which probe this is.',
  'heat.calibration.no-sun':
    'There was no sun in these days, so the readings cannot tell how much sun the place takes in. Add some sunny days.',
  'heat.calibration.outside-constant':
    'It was equally cold outdoors all the time, so the readings cannot tell how much heat is lost from how much is stored. Add days with a change of weather.',
  'heat.calibration.loss-and-air':
    'Heat lost through the walls and heat lost with the air look alike in these readings. Leave the air change as described, or add days on which a door or vent stood differently.',
  'heat.calibration.cannot-tell-apart':
    'These readings cannot tell {{first}} from {{second}}. Add readings from another probe or more days.',
  'heat.calibration.cannot-tell': 'These readings cannot tell {{name}}. Add more days.',
} as const;
