/** English wording of records. Keys begin with the room they belong to; {{name}} stands for a value. */
export const recordsWords = {
  'records.damaged':
    'The database file is damaged, so nothing was opened and nothing was touched. Restore the newest good backup.',
  'records.newer':
    'This database was made by a newer version (it holds the step “{{step}}”). Start that version, or restore an older backup.',
  'records.notFound': 'There is no such record here, or it is not yours to see.',
  'records.deleted': 'This record was deleted. It can be brought back for 30 days.',
  'records.idInUse': 'Another record already has this identifier. Make a new one and send again.',
  'records.editConflict':
    'Someone else changed this in the meantime. Both versions are kept: look at both and save the one that is right.',
  'records.tooLate': 'More than 30 days have passed since this was deleted, so it cannot be brought back.',
  'records.noSuchReference': 'There is no such record in this group.',
  'records.future': 'This lies in the future. Check the date and the time.',
  'records.noSuchProbe': 'There is no such probe in this group. Add the probe first.',
  'records.tooOld': 'This is before the year 2000: the clock of the thermometer was probably never set.',
  'records.somebody': 'somebody on this machine',
  'records.notMeasured': 'Weigh the animal and measure its shell first: without both there is nothing to judge.',
  'records.noPlan': 'No plan can be made from this.',
  'records.noWeather':
    'No weather is known for this place. Enter the twelve monthly means of your nearest weather station in the group, or load weather records.',
  'records.noPicture': 'This is no picture that can be read. Send a photograph as JPEG, PNG or WebP.',
} as const;
