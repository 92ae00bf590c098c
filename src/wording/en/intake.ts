/** English wording of intake. Keys begin with the room they belong to; {{name}} stands for a value. */
export const intakeWords = {
  'intake.weather.late': 'The weather service did not answer within ten seconds.',
  'intake.weather.unreachable': 'The weather service cannot be reached.',
  'intake.weather.too-often': 'The weather service says that it is asked too often. It is left alone for a while.',
  'intake.weather.elsewhere':
    'The weather service sends us to another address (answer {{status}}). That is not followed: put the new address into the settings if you trust it.',
  'intake.weather.status': 'The weather service answered {{status}} and gave no forecast.',
  'intake.weather.too-large': 'The answer of the weather service is larger than 2 MB. It was not used.',
  'intake.weather.not-json': 'The answer of the weather service is broken. The forecast before it stays in use.',
  'intake.weather.not-read': 'The forecast was not used. In {{where}}: {{what}}',
  'intake.weather.all-past': 'The answer of the weather service holds no temperature for the hours to come.',
  'intake.weather.not-stored': 'The weather forecast could not be stored.',
  'intake.file.zip':
    'This is a zip file or a spreadsheet, not a text table. Open it and save the sheet with the readings as CSV.',
  'intake.file.html': 'This is a web page, not a table. Export the readings as CSV instead of saving the page.',
  'intake.file.pdf': 'This is a PDF paper. Export the readings as CSV; numbers cannot be read from a paper.',
  'intake.file.binary': 'This is not a text file. Export the readings as CSV from the program that reads your logger.',
  'intake.file.empty': 'The file is empty. Export the readings again.',
  'intake.file.no-table':
    'No table of readings was found: no row holds a date or time together with a number. Check that this is the export of the readings.',
  'intake.file.no-temperature': 'No column looks like a temperature. Say which column it is.',
  'intake.file.no-time': 'No column holds a date or time. Export the readings with their times.',
  'intake.file.no-readings': 'The file has a table but no reading that could be understood. The rejected rows say why.',
  'intake.file.too-many-probes':
    'The column taken for the name of the probe holds more than 1,000 different names. Say which column it is.',
  'intake.file.two-tables':
    'From line {{line}} on the file has other columns than before. Cut it there and import the two parts one by one.',
  'intake.file.too-many-columns':
    'The table has more than 500 columns; no logger has so many probes. Check that this is the export of the readings.',
  'intake.file.long-line':
    'A line of the file is longer than 100,000 characters; no table of readings has such lines. Export the readings as CSV again.',
  'intake.file.other-encoding':
    'The file cannot be read as {{encoding}}. Leave the encoding open, or name the one it was written in.',
  'intake.note.bad-byte': 'A byte that is no UTF-8 was replaced: {{text}}',
  'intake.row.cut': 'The last row is cut off. It was left out.',
  'intake.row.no-moment': '“{{cell}}” is not a date and time.',
  'intake.row.no-temperature': '“{{cell}}” is not a temperature.',
  'intake.row.brackets':
    '“{{cell}}” in brackets may mean a number below zero. It was left out; write it with a minus sign.',
  'intake.row.no-such-time': 'There is no such date, or the clock never showed this time on that day.',
  'intake.row.too-old':
    'The time lies before the year 2000. The logger’s clock was never set, or counts the years of another calendar.',
  'intake.row.future':
    'The time lies in the future. The logger’s clock was wrong, or counts the years of another calendar.',
  'intake.row.stray-clock': 'The date lies years away from the other rows. The logger’s clock had been reset.',
  'intake.row.fault-value': '{{value}} is what loggers write when the probe does not answer.',
  'intake.row.impossible': '{{value}} cannot be a temperature in a box or a shed.',
  'intake.row.extremes': 'The highest ({{max}}) and lowest ({{min}}) do not fit together.',
  'intake.ask.date-order':
    'Which part of the date is the day? The file can be read in more than one way. Its first row is “{{example}}”.',
  'intake.ask.date-order.option': 'The readings begin on {{first}} and end on {{last}}',
  'intake.ask.unit': 'In which unit is “{{example}}” written? The file does not say.',
  'intake.ask.unit.option': '{{unit}}: the first reading is {{celsius}} °C',
  'intake.unit.C': 'Degrees Celsius',
  'intake.unit.F': 'Degrees Fahrenheit',
  'intake.unit.K': 'Kelvin',
  'intake.unit.tenths-C': 'Tenths of a degree Celsius',
  'intake.unit.thousandths-C': 'Thousandths of a degree Celsius',
  'intake.ask.columns': 'Which column is the temperature? The columns have no names.',
  'intake.ask.columns.option': 'Column {{number}}, which begins with “{{example}}”',
  'intake.ask.decimal-comma':
    'The rows have more cells than the header has names. Is the comma inside the numbers a decimal comma?',
  'intake.ask.decimal-comma.yes': 'Yes: the first value is {{example}}',
  'intake.ask.decimal-comma.no': 'No: the cells are columns of their own',
  'intake.ask.conflicts_one': '{{count}} reading stands twice with different values. Which one counts?',
  'intake.ask.conflicts_other': '{{count}} readings stand twice with different values. Which ones count?',
  'intake.ask.conflicts.first': 'The one that comes first in the file',
  'intake.ask.conflicts.last': 'The one that comes last in the file',
  'intake.ask.zone.skipped_one':
    '{{count}} row has a time that clocks in {{zone}} left out when they went forward. The logger kept one time all winter: which?',
  'intake.ask.zone.skipped_other':
    '{{count}} rows have times that clocks in {{zone}} left out when they went forward. The logger kept one time all winter: which?',
  'intake.ask.zone.once_one':
    '{{count}} row lies in the hour that clocks in {{zone}} showed twice, but the hour comes only once. Which time does the logger keep?',
  'intake.ask.zone.once_other':
    '{{count}} rows lie in the hour that clocks in {{zone}} showed twice, but the hour comes only once. Which time does the logger keep?',
  'intake.ask.zone.fixed': 'Always {{offset}}, without a change of the clock',
  'intake.ask.zone.follows': 'The clock of {{zone}}, with its changes',
  'intake.probe.column': 'Column {{number}}',
  'intake.summary': '{{first}} {{ready}} of {{all}} readings are ready; nothing has been saved yet.',
  'intake.summary.first': 'Row {{line}}: {{reason}}',
  'intake.save.open': 'Answer the questions about the file first; nothing was saved.',
  'intake.save.nothing': 'The file holds no reading that could be saved.',
} as const;
