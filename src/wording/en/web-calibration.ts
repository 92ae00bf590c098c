/** Words of the dry run and what it teaches. */
export const webCalibrationWords = {
  'web.calibration.title': 'Dry run of {{box}}',
  'web.calibration.lead':
    'Let the box stand in its place for a week or two with its bedding and bottles, but without an animal. What its thermometer reads then shows how the box and the place really behave.',
  'web.calibration.back': 'Back to the box',
  'web.calibration.noPlace': 'This box stands in no place yet. Say where it stands first.',
  'web.calibration.refrigerator':
    'This box stands in a refrigerator, which makes its own cold: a dry run against the weather has nothing to teach here. Look at its readings over two weeks instead.',
  'web.calibration.noProbe':
    'No thermometer hangs in this box. Hang one where the animal will lie, and here you will see what its readings teach.',
  'web.calibration.noOutdoors':
    'No thermometer hangs outdoors (for a place known by readings: none hangs in the place). Without it nobody can tell what the box made of the weather.',
  'web.calibration.goesBy': 'Goes by {{probes}}, against {{outdoors}}.',
  'web.calibration.from': 'First day of the dry run',
  'web.calibration.to': 'Last day of the dry run',
  'web.calibration.daysHelp': 'At least two days; two weeks with a change of weather in them tell most.',
  'web.calibration.daysWrong': 'Choose a first day and a last day that is not before it.',
  'web.calibration.fit': 'See what it teaches',
  'web.calibration.working': 'Fitting …',
  'web.calibration.noWeather': 'Outdoors nothing was read in these days. Choose days with readings outdoors.',
  'web.calibration.refused': 'These readings cannot tell',
  'web.calibration.refusedThen': 'Nothing was changed. The forecast stays as the box and the place are described.',
  'web.calibration.found': 'What the dry run teaches',
  'web.calibration.col.factor': 'Beside the description',
  'web.calibration.col.value': 'Found',
  'web.calibration.col.interval': 'Nine in ten between',
  'web.calibration.col.error': 'Standard error',
  'web.calibration.times': '{{factor}} times',
  'web.calibration.untold': '{{name}}: {{why}}',
  'web.calibration.left': 'From {{count}} readings. What is left over (standard deviation): {{what}}.',
  'web.calibration.holdOut':
    'Fitted without the last third and tried on it, it was off by {{rms}} (root mean square), {{bias}} on the mean.',
  'web.calibration.noHoldOut': 'There are too few readings to keep some back and try it on them.',
  'web.calibration.fitted': '{{name}}, worked out',
  'web.calibration.redone': 'The forecast redone, eleven weeks asleep',
  'web.calibration.before': 'As described',
  'web.calibration.after': 'As the dry run teaches',
  'web.calibration.interval':
    'In the coldest winter nine readings in ten are expected within {{width}} of the line worked out. Its coldest hour is {{coldest}}, and may be {{low}}.',
  'web.calibration.save': 'Use this from now on',
  'web.calibration.saved': 'Kept with the box and its place. Every forecast now goes by it.',
  'web.calibration.how': 'How this is worked out',
  'web.calibration.howText':
    'Heat loss, heat store, sun and air change of the place and the box are moved until what is worked out follows what was read; what the readings cannot tell stays near its description. Readings close together say little new, and the errors count that in. A dry run in autumn says little about hard frost: look again in the first cold spell.',
} as const;
