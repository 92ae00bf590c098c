/** Words of the next three days in a box. */
export const webAheadWords = {
  'web.ahead.steady': 'the box stays at about {{temp}} for {{count}} hours.',
  'web.ahead.falls': '{{coldWhen}} the box falls to {{low}}, its coldest; its warmest is {{high}}, {{warmWhen}}.',
  'web.ahead.rises': 'the box grows warmer, to {{high}} {{warmWhen}}.',
  'web.ahead.stays': 'It stays inside {{low}} to {{high}} for {{count}} hours.',
  'web.ahead.goes.cold': 'It falls below {{limit}} {{when}}{{span}}.',
  'web.ahead.goes.warm': 'It rises above {{limit}} {{when}}{{span}}.',
  'web.ahead.is.cold': 'It is below {{limit}} already{{span}}.',
  'web.ahead.is.warm': 'It is above {{limit}} already{{span}}.',
  'web.ahead.span_one': ', for about an hour',
  'web.ahead.span_other': ', for about {{count}} hours',
  'web.ahead.may.cold': 'Should it turn out colder, it may fall below {{limit}} {{when}}: one chance in twenty.',
  'web.ahead.may.warm': 'Should it turn out warmer, it may rise above {{limit}} {{when}}: one chance in twenty.',
  'web.ahead.do.cold': 'There is time to add insulation, or to carry the whole box somewhere milder.',
  'web.ahead.do.warm':
    'There is time to open the place by night, to shade it, or to carry the whole box somewhere colder.',
  'web.ahead.misfit':
    'The readings do not fit this place and box as they are written down, so the truth may lie outside the range. A dry run teaches them.',
  'web.ahead.few_one': 'It starts from one hour of readings only. After two days of readings it is surer.',
  'web.ahead.few_other': 'It starts from {{count}} hours of readings only. After two days of readings it is surer.',
  'web.ahead.made': 'Worked out {{at}}, anew each hour.',
  'web.ahead.demonstration': 'Readings and weather here are invented for the demonstration.',
  'web.ahead.chart': 'Temperature in the box: read in the last two days, and expected in the next three',
  'web.ahead.now': 'now',
  'web.ahead.caption':
    'Left of now: read by the thermometer. Right of it: expected at the animal; grey: nine times in ten. Light stripe: the limits of this stay. Dashed: the further limits.',
  'web.ahead.table': 'Every three hours, in a table',
  'web.ahead.col.likely': 'Expected',
  'web.ahead.col.range': 'Nine in ten',
  'web.ahead.why': 'How this is worked out',
  'web.ahead.how':
    'The place and the box as you described them are run through the weather forecast, starting from the readings of the last two days. The range holds what the weather and the description may be off by; it grows with the time ahead. Water that freezes is left out, so a frost is told too early, never too late. A forecast is no substitute for a look.',
  'web.ahead.to.thermometers': 'Thermometers',
  'web.ahead.to.weather': 'Where the weather comes from',
  'web.ahead.to.place': 'Describe the place',
  'web.ahead.to.dryRun': 'Dry run',
} as const;
