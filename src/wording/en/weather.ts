/** English wording of weather. Keys begin with the room they belong to; {{name}} stands for a value. */
export const weatherWords = {
  'weather.where.record': 'the weather record',
  'weather.departures.round-of-year':
    'The record does not cover the whole round of the year, so cold and warm spells cannot be told from the season. Give at least 20 days of every month, over at least three winters.',
  'weather.departures.few-winters_one':
    'The record holds {{count}} winter of at least 60 days. At least {{least}} are needed to see how much winters differ. Use the common values until there are more.',
  'weather.departures.few-winters_other':
    'The record holds {{count}} winters of at least 60 days. At least {{least}} are needed to see how much winters differ. Use the common values until there are more.',
  'weather.where.file': 'the weather file',
  'weather.where.line': 'line {{line}} of the weather file',
  'weather.where.normals': 'the monthly normals',
  'weather.where.forecast': 'the answer of the weather service',
  'weather.where.forecast-hour': 'entry {{number}} of the answer of the weather service',
  'weather.file.not-csv': 'This is not a table of text. Save it as CSV (comma separated) and try again.',
  'weather.file.empty': 'There are no readings in it. It needs one line of headings and a line for each day or hour.',
  'weather.file.no-such-column': 'There is no column "{{wanted}}". The headings are: {{headings}}.',
  'weather.file.two-columns': 'More than one column could be the one wanted: {{names}}. Say which to use.',
  'weather.file.no-day':
    'No heading says which column holds the date. The headings are: {{headings}}. Say which to use.',
  'weather.file.no-temperature':
    'No heading names the air temperature, or the day’s maximum and minimum. The headings are: {{headings}}. Say which to use.',
  'weather.file.bad-time': '"{{text}}" is not a date or time. Write 2026-11-05 or 2026-11-05 15:00.',
  'weather.file.no-such-day':
    'There is no such day in the calendar. Correct the date, or change the order of day and month.',
  'weather.file.date-order':
    'The dates can be read with the day first or with the month first, and both fit. Say which comes first.',
  'weather.file.short-row':
    'The line stops before the column "{{heading}}". Add the missing value, or leave the cell empty.',
  'weather.file.bad-number':
    '"{{text}}" under "{{heading}}" is not a number. Correct it, or leave the cell empty for a missing value.',
  'weather.file.unit-unknown':
    'These temperatures are too high for degrees Celsius, and the file does not name its unit. If they are Fahrenheit, choose °F and read the file again.',
  'weather.file.impossible':
    '{{value}} {{unit}} is a temperature no air has had. Correct it, leave the cell empty, or change the unit.',
  'weather.file.max-below-min':
    'The maximum, {{max}}, lies below the minimum, {{min}}. Correct the line, or check which column is which.',
  'weather.file.day-twice':
    '{{day}} stands here and on line {{earlier}}. Keep one of the two lines; if the file holds several stations, keep one of them.',
  'weather.file.time-twice': 'This line has the same time as line {{earlier}}. Keep one of the two.',
  'weather.file.time-back':
    'The time goes back from line {{earlier}} to this one. Put the lines in order of time; if several files were joined, give them one by one.',
  'weather.file.skipped-hour':
    'The clock of {{zone}} skipped this hour in spring, so the file keeps another clock. Say which zone the file’s clock belongs to, or that it never changes.',
  'weather.file.days-without-extremes':
    'There is one temperature a day. A day needs its maximum and its minimum, or else a temperature for each hour.',
  'weather.forecast.not-forecast':
    'The answer is not a weather forecast in a form that is known here: neither hourly lists nor a time series of places.',
  'weather.forecast.refused': 'The weather service refused: {{reason}}',
  'weather.forecast.no-temperature': 'The answer holds no air temperature. Ask for it by name and try again.',
  'weather.forecast.unit': 'The answer gives {{quantity}} in "{{unit}}", which is not known here. Ask for {{wanted}}.',
  'weather.forecast.lengths': 'The list "{{quantity}}" does not have as many values as there are times.',
  'weather.forecast.time': 'A time cannot be read, or does not come after the one before it.',
  'weather.forecast.number': 'The value of "{{quantity}}" is not a number.',
  'weather.forecast.local-time':
    'The times are in a local clock that may be an hour off after a clock change. Ask for Greenwich time or for Unix times.',
  'weather.forecast.impossible': '{{value}} °C is a temperature no air has had. The answer was not used.',
  'weather.forecast.all-missing': 'Every temperature in the answer is missing.',
} as const;
