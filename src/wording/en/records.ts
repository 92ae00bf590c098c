/** English wording of records. Keys begin with the room they belong to; {{name}} stands for a value. */
export const recordsWords = {
  'records.damaged':
    'The database file is damaged, so nothing was opened and nothing was touched. No good backup was found beside it.',
  'records.damagedBackup':
    'The database file is damaged, so nothing was opened and nothing was touched. The newest good backup is {{name}}: restore it with “stillwinter restore”.',
  'records.disk-full':
    'The disk with the data folder {{folder}} is full. Nothing was changed. Make room, then try again.',
  'records.read-only-disk':
    'Nothing can be written in the data folder {{folder}}: its disk takes no writes, or you may not write there. Nothing was changed. Mend the disk or the rights; or copy the folder to a sound disk, and name the copy with --data.',
  'records.newer':
    'This database was made by a newer version (it holds the step “{{step}}”). Start that version, or restore an older backup.',
  'records.noForecast.not-asleep': 'No forecast: nobody sleeps in this box now.',
  'records.noForecast.no-thermometer':
    'No forecast yet: no thermometer hangs in this box, and a forecast starts from its readings.',
  'records.noForecast.refrigerator':
    'No forecast: the box stands in a refrigerator, which no weather moves. Go by its thermometer.',
  'records.noForecast.place-unknown':
    'No forecast yet: it is not written down how the place is built, only what a thermometer reads there.',
  'records.noForecast.no-weather': 'No forecast yet: no weather forecast has come in.',
  'records.noForecast.old-weather': 'No forecast now: the newest weather forecast is more than a day old.',
  'records.noForecast.short-weather': 'No forecast yet: too little is known of the weather round the present hour.',
  'records.noForecast.no-readings':
    'No forecast yet: the thermometer in this box was not read in the last 48 hours for which the weather is known.',
  'records.noForecast.in-work': 'The forecast is being worked out. Look again in a minute.',
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
  'records.targetNotEmpty': 'The database to move into is not empty. Nothing was copied.',
  'records.moveDiffers': 'After the copy these parts differ: {{tables}}. The old database is untouched; keep using it.',
  'records.backupSqliteOnly':
    'PostgreSQL has backup tools of its own. Use “stillwinter export” for a copy in open formats.',
  'records.backupUnsound': 'The copy is not sound ({{fault}}), so it was thrown away. Older backups are still there.',
  'records.restoreUnsound': 'The backup {{name}} is not sound ({{fault}}). Nothing was changed; try an older one.',
  'records.exportNewer': 'This export was made by a newer version and cannot be read by this one.',
  'records.exportNot': 'This is no export of Stillwinter: {{what}}.',
  'records.exportNeedsGroup':
    'This is the history of one animal. There is no group here yet for it to join: set one up first.',
  'records.exportTooBig': 'This archive unpacks to more than it should, so it was not opened.',
  'records.exportSum':
    'The part {{name}} does not match its checksum: the file was changed or cut off. Nothing was taken in.',
  'records.exportReadMe':
    'Everything this group has recorded. json/ holds each kind of record as it is kept; csv/ the same for a spreadsheet; readings/ one file for each probe, instants in UTC and temperatures in degrees Celsius; schema.json says what each field means; format.json counts the rows of each part and gives its SHA-256. Columns ending in Ms are milliseconds since 1970 in UTC. “stillwinter take-in” takes this archive in again; what is there already is left as it is.\n',
  'records.file.probe': 'Thermometer',
  'records.file.at': 'Time (UTC)',
  'records.file.temperature': 'Temperature (°C)',
  'records.file.humidity': 'Relative humidity (0 to 1)',
  'records.file.quality': 'Counts as',
  'records.file.source': 'Came by',
  'records.file.came': 'As it came (°C)',
  'records.file.reason': 'Why corrected',
  'records.inUse.stay': 'An animal is in it now: end the stay first. Nothing was deleted.',
  'records.inUse.asleep': 'This animal is in a box now: end its stay first. Nothing was deleted.',
  'records.inUse.box': 'Boxes stand in this place: delete them or move them first. Nothing was deleted.',
  'records.inUse.probe': 'A thermometer hangs in it: move that to another place first. Nothing was deleted.',
  'records.deleteConflict':
    'Someone else changed this after you had seen it, so it was not deleted. Look at it as it stands now, and say what is right.',
  'records.notDeletable': 'An entry of this kind cannot be deleted.',
  'records.animalLeft':
    'It died or left on {{day}}: no plan and no stay begins after that. If that was a mistake, take it back on its page.',
  'records.stayAfterLeaving':
    'It went into a box on {{day}}, which is later. Check the day it left, or change that stay first.',
  'records.noRule': 'There is no such rule of the watch.',
} as const;
