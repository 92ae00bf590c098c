/** Words of the screens of care: examination step by step, the weight forecast, gut, waking, air, limits. */
export const webCareWords = {
  'web.exam.way': 'How to go through it',
  'web.exam.way.guided': 'one part at a time',
  'web.exam.way.list': 'all in one list',
  'web.exam.step': 'Part {{step}} of {{steps}}: {{part}}.',
  'web.exam.stepLast': 'All parts seen. What you found, and the last questions:',
  'web.exam.back': 'Back',
  'web.exam.next': 'Next part',
  'web.exam.skip': 'Could not see it: next',

  'web.mass.expected': 'Expected {{low}} to {{high}} now.',
  'web.mass.again': 'Weigh a second time.',
  'web.mass.counts': 'Until a second weighing has settled it, {{mass}} counts as true.',
  'web.mass.title': 'Weight until the waking',
  'web.mass.atWaking':
    'At the planned waking on {{day}}: about {{mass}}, {{share}} less than at the start; nine times in ten between {{low}} and {{high}}.',
  'web.mass.atEnd':
    'By {{day}}: about {{mass}}, {{share}} less than at the start; nine times in ten between {{low}} and {{high}}.',
  'web.mass.limit': 'The {{share}} limit ({{mass}}): {{odds}} likely to be passed by {{day}}.',
  'web.mass.limitLikely': 'As likely as not by {{day}}.',
  'web.mass.limitEarly': 'One chance in twenty already by {{day}}.',
  'web.mass.limitLabel': '{{share}} lost',
  'web.mass.odds.none': 'not',
  'web.mass.odds.sure': 'almost certainly',
  'web.mass.chart': 'Weight so far and expected, with the 8 and 10 per cent limits',
  'web.mass.caption':
    'Dots: weighed. Dark band: the middle half of what is expected. Light band: nine times in ten. Dashed: 8 % lost, plan the waking; 10 % lost, end the sleep.',
  'web.mass.why': 'How this is worked out',
  'web.mass.how':
    'A sleeping animal loses almost only water, faster in dry air. The forecast begins with the usual loss and its wide spread, follows the warmth and damp read in the box, and grows narrower with each weigh-in.',
  'web.mass.table': 'Week by week, in a table',
  'web.mass.col.likely': 'Likely',
  'web.mass.col.half': 'Middle half',
  'web.mass.col.nine': 'Nine in ten',
  'web.mass.col.past': '{{share}} passed',
} as const;
