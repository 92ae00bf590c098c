/** What the watch says. The animal's and the box's names are set before the sentence by the face that shows it. */
export const winterWatchWords = {
  'winter.watch.frost': 'At or under {{limit}} in the box: {{now}}. Ice in the body kills. Act now.',
  'winter.watch.under': 'Under {{limit}} for {{duration}} in all; coldest {{worst}}. Last reading {{now}}.',
  'winter.watch.over': 'Over {{limit}} for {{duration}} in all; warmest {{worst}}. Last reading {{now}}.',
  'winter.watch.spanCold':
    'The max-min thermometer went down to {{worst}}, past the limit of {{limit}}. How long it stayed there is not known.',
  'winter.watch.spanWarm':
    'The max-min thermometer went up to {{worst}}, past the limit of {{limit}}. How long it stayed there is not known.',
  'winter.watch.fastChange': 'The temperature changes fast.',
  'winter.watch.fastRise':
    'Warmer by {{change}} within {{hours}} h, now {{now}}. Look for a door left open, sun on the box or a power cut.',
  'winter.watch.fastFall':
    'Colder by {{change}} within {{hours}} h, now {{now}}. Look for a lid left off, a door left open or a hard frost.',
  'winter.watch.warmWeek': 'Over {{limit}} for {{hours}} h in the last 7 days. The reserves are being used up.',
  'winter.watch.silence':
    'No reading for {{duration}}; the last was {{last}}. Nobody knows the temperature in the box.',
  'winter.watch.silenceInCold':
    'No reading for {{duration}}, and the last was cold: {{last}}. Read the box with another thermometer now.',
  'winter.watch.batteryFlag': 'The probe says that its battery is low. Change it before it falls silent.',
  'winter.watch.battery': 'The battery of the probe is at {{percent}} %. Change it before it falls silent.',
  'winter.watch.lidClosed': 'No lid opened for {{days}} days. Open it for a minute: the animal needs fresh air.',
  'winter.watch.weighInOverdue': 'No weigh-in for {{days}} days. Weigh today.',
  'winter.watch.forecastCold_one':
    'Forecast: colder than {{limit}} in the box in about an hour, down to {{worst}}. There is time to act.',
  'winter.watch.forecastCold_other':
    'Forecast: colder than {{limit}} in the box in about {{count}} hours, down to {{worst}}. There is time to act.',
  'winter.watch.forecastWarm_one':
    'Forecast: warmer than {{limit}} in the box in about an hour, up to {{worst}}. There is time to act.',
  'winter.watch.forecastWarm_other':
    'Forecast: warmer than {{limit}} in the box in about {{count}} hours, up to {{worst}}. There is time to act.',
  'winter.watch.urine': 'Urine passed in the sleep. The store of water is gone: end the sleep now and bathe.',
  'winter.watch.awakeSigns': 'Signs of waking. Read the temperature first; often the box is too warm.',
  'winter.watch.noResponse': 'No answer to a touch. In the cold the answer is slow; follow the steps now.',
  'winter.watch.mass8': 'Weight {{mass}}, {{loss}} less than the {{start}} at the start. At 10 % the sleep must end.',
  'winter.watch.mass10':
    'Weight {{mass}}, {{loss}} less than the {{start}} at the start: the limit of 10 %. Weigh a second time now. Until then this weight counts.',
  'winter.watch.mass10Confirmed':
    'Weighed again: {{mass}}, {{loss}} less than the {{start}} at the start. End the sleep now.',
  'winter.watch.massBand':
    'Weight {{mass}}: less than the {{low}} that were the least to be expected. Weigh again and look for urine.',
  'winter.watch.massForecast_one':
    'At this rate the weight may pass the 8 % line a day before the planned waking. Plan a shorter sleep.',
  'winter.watch.massForecast_other':
    'At this rate the weight may pass the 8 % line {{count}} days before the planned waking. Plan a shorter sleep.',
  'winter.watch.weighingDoubted':
    'The second weighing says {{mass}}, {{loss}} less than at the start. The first was doubtful and no longer counts.',
} as const;
