/** What a column of a weather file can hold. */
export type WeatherColumn =
  | 'day'
  | 'clock'
  | 'max'
  | 'min'
  | 'temperature'
  | 'cloud'
  | 'dewPoint'
  | 'humidity'
  | 'wind';

/**
 * Words of headings, without accents and in small letters, in the languages weather records commonly come in. A heading is cut into words at
 * anything that is no letter or digit.
 */
export const HEADING_WORDS = {
  day: 'date datum day tag fecha dia jour data giorno dag datetime timestamp instant when valid'.split(' '),
  clock: 'time zeit uhrzeit hora heure ora tijd klokkeslett tid hour stunde utc gmt'.split(' '),
  temperature: 'temp temperature temperatur temperatura tempera t ta tair t2m air drybulb dry tavg tmean'.split(' '),
  max: 'max maximum maxi maximal high highest tmax tx hochst hoechst maxima'.split(' '),
  min: 'min minimum mini minimal low lowest tmin tn tiefst minima'.split(' '),
  cloud: 'cloud clouds cloudiness cloudcover bewolkung bewolkt nuages nubosidad nuvolosita okta oktas'.split(' '),
  dewPoint: 'dew dewpoint taupunkt rosee rocio rugiada dauwpunt td'.split(' '),
  humidity: 'humidity rh feuchte luftfeuchtigkeit humidite humedad umidita hum'.split(' '),
  wind: 'wind windspeed viento vent vento'.split(' '),
  /** Other quantities: a heading that holds one of these is not the air's temperature. */
  other:
    'gust precipitation precip rain snow pressure soil ground grass surface water sea wet bulb feels apparent direction sun sunshine radiation solar quality flag qc boden niederschlag druck range'.split(
      ' ',
    ),
} as const;

/** Texts that stand for a missing value, in small letters; numbers among them are the usual sentinels. */
export const MISSING_TEXTS: ReadonlySet<string> = new Set([
  '',
  '-',
  '--',
  '---',
  'na',
  'n/a',
  'nan',
  'null',
  'none',
  'm',
  'err',
  '/',
  '-9999',
  '-9999.0',
  '-999',
  '-999.9',
  '-99.9',
  '9999',
  '99999',
]);
