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
} as const;
