/** English wording of weather. Keys begin with the room they belong to; {{name}} stands for a value. */
export const weatherWords = {
  'weather.where.record': 'the weather record',
  'weather.departures.round-of-year':
    'The record does not cover the whole round of the year, so cold and warm spells cannot be told from the season. Give at least 20 days of every month, over at least three winters.',
  'weather.departures.few-winters_one':
    'The record holds {{count}} winter of at least 60 days. At least {{least}} are needed to see how much winters differ. Use the common values until there are more.',
  'weather.departures.few-winters_other':
    'The record holds {{count}} winters of at least 60 days. At least {{least}} are needed to see how much winters differ. Use the common values until there are more.',
} as const;
