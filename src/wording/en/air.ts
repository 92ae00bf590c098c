/** English wording of air. Keys begin with the room they belong to; {{name}} stands for a value. */
export const airWords = {
  'air.holes.enough':
    'The holes give enough air: even an animal that uses much keeps {{oxygen}} oxygen and {{dioxide}} carbon dioxide, and they take only {{share}} of the heat the box loses.',
  'air.holes.too-few':
    'Too few holes for a still day: an animal that uses much would bring the air to {{oxygen}} oxygen. {{wanted}} holes of {{diameter}} mm in all keep 20.5 %. Opening the lid once a week helps but does not replace them.',
  'air.holes.more-than-needed':
    'More holes than the animal needs. Warm or cold air blowing through them is {{share}} of what the box loses ({{loss}} W/K) and makes it less steady. {{wanted}} holes of {{diameter}} mm would do.',
  'air.holes.range':
    'Still air passes {{floor}} litres an hour through the holes by itself; when the box is warmer or colder than the room it may be {{likely}}.',
  'air.sealed':
    'With every hole blocked the air would last {{days}} days at the least and {{usual}} as a rule (down to 19 % oxygen). Keep holes clear of bedding, tape and frost.',
  'air.lid': 'With the lid opened every {{days}} days, oxygen just before each opening is {{oxygen}} at the least.',
  'air.settled':
    'The animal alone would bring the air to {{damp}} humidity in still air, {{fresh}} when air moves through the holes; dry bedding takes up water for weeks before that.',
  'air.low':
    'Oxygen under 19 % is possible here. Make the holes before an animal goes in; open the lid daily until then.',
  'air.humidity.dry':
    '{{humidity}} is dry: the animal loses about {{times}} times the usual water. Damp (not wet) bedding slows it, most of all for small animals. Weigh more often.',
  'air.humidity.middling': '{{humidity}} is middling: the animal loses about {{times}} times the usual water.',
  'air.humidity.damp':
    '{{humidity}} is damp, which saves water ({{times}} times the usual loss). Any wall colder than {{dew}} will be wet: look for dripping and mould.',
  'air.humidity.dripping':
    '{{humidity}}: the air is full, and water settles on any wall colder than {{dew}}. Wet bedding chills and grows mould; change what is wet, and keep the holes open.',
  'air.humidity.disagreement':
    'Published advice disagrees: 30 to 40 % for desert tortoises, damp earth and leaves for Mediterranean ones. Nobody has measured the best humidity.',
  'air.humidity.regain':
    'Weight that comes back after damp days may be water in shell, skin and soil. Whether the animal itself gains water is not known: trust the weights over several weeks.',
} as const;
