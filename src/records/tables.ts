/** The tables as Kysely sees them. Columns are snake_case in the database; instants are epoch ms, days are text. */

export type DatabaseKind = 'sqlite' | 'postgres';

/** What every record a person enters carries beside its own fields. */
export interface EntryRow {
  id: string;
  groupId: string;
  revision: number;
  recordedBy: string | null;
  recordedAtMs: number;
  changedBy: string | null;
  changedAtMs: number;
  deletedAtMs: number | null;
  [field: string]: string | number | null;
}

/** Tables of entered records, all of the same shape and handled by one repository. */
export type EntryTable =
  | 'animals'
  | 'measurements'
  | 'examinations'
  | 'healthEvents'
  | 'diaryEntries'
  | 'places'
  | 'boxes'
  | 'stays'
  | 'probes'
  | 'tasksDone'
  | 'photographs'
  | 'gutWarmths';

interface GroupRow {
  id: string;
  name: string;
  zone: string;
  latitudeDeg: number;
  longitudeDeg: number;
  temperatureUnit: string;
  massUnit: string;
  lengthUnit: string;
  lengthAdvice: string;
  climateNormals: string | null;
  climateNote: string | null;
  demonstration: number;
  revision: number;
  recordedAtMs: number;
  changedBy: string | null;
  changedAtMs: number;
}

/** The audit trail: one row for each version of each record, with what it replaced. Never changed, never deleted. */
interface ChangeRow {
  id: string;
  groupId: string;
  kind: string;
  recordId: string;
  revision: number;
  action: 'made' | 'changed' | 'deleted' | 'restored';
  byPerson: string | null;
  atMs: number;
  before: string | null;
  after: string | null;
}

/** An edit that was made from an older version: kept beside the record until a person chooses. */
interface EditConflictRow {
  id: string;
  groupId: string;
  kind: string;
  recordId: string;
  baseRevision: number;
  body: string;
  byPerson: string | null;
  atMs: number;
  settledAtMs: number | null;
}

interface ProbeNumberRow {
  number: number;
  probeId: string;
  groupId: string;
  tokenHash: string | null;
}

export interface ReadingRow {
  probe: number;
  atMs: number;
  tempC: number;
  humidity: number | null;
  quality: number;
  source: number;
}

/** A correction stands above the reading of its instant; the highest part counts. */
interface ReadingCorrectionRow {
  probe: number;
  atMs: number;
  part: number;
  tempC: number;
  humidity: number | null;
  quality: number;
  source: number;
  reason: string;
  byPerson: string | null;
  recordedAtMs: number;
}

/** Readings of one hour, summed for charts of long ranges. */
interface ReadingHourRow {
  probe: number;
  hour: number;
  count: number;
  minC: number;
  sumC: number;
  maxC: number;
  humiditySum: number;
  humidityCount: number;
}

interface MaxMinRow {
  probe: number;
  toAtMs: number;
  part: number;
  fromAtMs: number;
  maxC: number;
  minC: number;
  byPerson: string | null;
  recordedAtMs: number;
}

interface BatteryLevelRow {
  probe: number;
  atMs: number;
  percent: number | null;
  /** 1 or 0 where the thermometer itself says whether its battery is low. */
  low: number | null;
}

interface WeatherHourRow {
  groupId: string;
  atMs: number;
  tempC: number;
  cloud: number | null;
  humidity: number | null;
  source: string;
}

interface WeatherForecastRow {
  groupId: string;
  madeAtMs: number;
  body: string;
}

interface PlanRow {
  id: string;
  groupId: string;
  animalId: string;
  winter: string;
  revision: number;
  madeAtMs: number;
  madeBy: string | null;
  reason: string;
  request: string;
  plan: string;
}

interface NoticeRow {
  id: string;
  groupId: string;
  ruleId: string;
  stayId: string;
  level: string;
  fromAtMs: number;
  clearedAtMs: number | null;
  message: string;
  acknowledgedBy: string | null;
  acknowledgedAtMs: number | null;
  acknowledgedNote: string | null;
}

interface PhotographBytesRow {
  photographId: string;
  image: Uint8Array;
}

export interface PersonRow {
  id: string;
  groupId: string;
  name: string;
  signInName: string;
  role: 'tutor' | 'keeper' | 'reader';
  passphraseHash: string;
  createdAtMs: number;
  removedAtMs: number | null;
}

interface SessionRow {
  tokenHash: string;
  personId: string;
  createdAtMs: number;
  lastSeenAtMs: number;
  device: string | null;
}

interface InvitationRow {
  id: string;
  groupId: string;
  tokenHash: string;
  role: 'tutor' | 'keeper' | 'reader';
  animalIds: string;
  invitedBy: string | null;
  untilMs: number;
  usedAtMs: number | null;
}

interface ShareLinkRow {
  id: string;
  groupId: string;
  animalId: string;
  forWhom: string;
  tokenHash: string;
  untilMs: number;
  revokedAtMs: number | null;
  madeBy: string | null;
  madeAtMs: number;
}

interface CalendarLinkRow {
  id: string;
  groupId: string;
  tokenHash: string;
  forWhom: string;
  madeBy: string | null;
  madeAtMs: number;
  revokedAtMs: number | null;
}

interface SettingRow {
  groupId: string;
  name: string;
  value: string;
}

interface ChannelRow {
  id: string;
  groupId: string;
  personId: string;
  kind: string;
  body: string;
  secret: string | null;
  addedAtMs: number;
  failedAtMs: number | null;
  lastError: string | null;
}

interface ListeningRow {
  personId: string;
  body: string;
}

/** One message to one channel of one person: queued once, sent once. */
export interface DeliveryRow {
  id: string;
  groupId: string;
  noticeId: string;
  personId: string;
  channelId: string;
  step: string;
  letter: string | null;
  dueAtMs: number;
  queuedAtMs: number;
  nextAtMs: number;
  leasedUntilMs: number | null;
  attempts: number;
  sentAtMs: number | null;
  givenUpAtMs: number | null;
  lastError: string | null;
}

/** A message or reading that could not be taken, kept so that a person can look at it. */
interface QuarantineRow {
  id: string;
  groupId: string;
  source: string;
  sender: string;
  what: string;
  why: string;
  firstAtMs: number;
  lastAtMs: number;
  count: number;
}

export type Tables = Record<EntryTable, EntryRow> & {
  quarantine: QuarantineRow;
  channels: ChannelRow;
  listenings: ListeningRow;
  deliveries: DeliveryRow;
  groups: GroupRow;
  changes: ChangeRow;
  editConflicts: EditConflictRow;
  probeNumbers: ProbeNumberRow;
  readings: ReadingRow;
  readingCorrections: ReadingCorrectionRow;
  readingHours: ReadingHourRow;
  maxMinReadings: MaxMinRow;
  batteryLevels: BatteryLevelRow;
  weatherHours: WeatherHourRow;
  weatherForecasts: WeatherForecastRow;
  plans: PlanRow;
  notices: NoticeRow;
  photographBytes: PhotographBytesRow;
  people: PersonRow;
  sessions: SessionRow;
  invitations: InvitationRow;
  shareLinks: ShareLinkRow;
  calendarLinks: CalendarLinkRow;
  settings: SettingRow;
};
