/** English wording of papers. Keys begin with the room they belong to; {{name}} stands for a value. */
export const papersWords = {
  'papers.calendar.task': '{{animal}}: {{task}}',
  'papers.calendar.stage': '{{animal}}, {{stage}}',
  'papers.calendar.source': 'Source: {{source}}',
  'papers.stage.feeding-up': 'feeding up',
  'papers.stage.winding-down': 'winding down',
  'papers.stage.fast': 'fasting',
  'papers.stage.asleep': 'asleep',
  'papers.stage.waking': 'waking',
  'papers.stage.recovering': 'recovering',
  'papers.stage.back-to-full': 'back to full days',
  'papers.stage.cooling': 'cooling',
  'papers.stage.awake': 'awake this winter',
} as const;
