import iconv from 'iconv-lite';

/**
 * Differently shaped files of readings, written for these tests after ordinary regional conventions: how Unicode CLDR writes dates and
 * numbers in each region, RFC 4180 and its common deviations, and the IANA time zone database for clock changes. None is a maker's own format.
 * The values are invented.
 */
export interface Shape {
  readonly name: string;
  readonly text: string;
  readonly encoding?: string;
  readonly mark?: boolean;
  readonly zone?: string;
  /** Expected: first reading as instant and °C, number of readings, of rejected rows, open questions, probes. */
  readonly first: readonly [string, number] | undefined;
  readonly ready: number;
  readonly rejected?: number;
  readonly asks?: readonly string[];
  readonly probes?: readonly string[];
  readonly order?: string;
  readonly unit?: string;
  readonly choices?: Record<string, unknown>;
}

export const bytesOf = (shape: Shape): Buffer =>
  iconv.encode(shape.text, shape.encoding ?? 'utf-8', { addBOM: shape.mark ?? false });

const berlin = 'Europe/Berlin';
const newYork = 'America/New_York';

/** Lines every ten minutes from a start, with a cell writer. */
const every = (
  count: number,
  line: (at: Date, n: number) => string,
  startMs = Date.UTC(2026, 10, 5, 15, 7),
  stepMin = 10,
) => Array.from({ length: count }, (_, n) => line(new Date(startMs + n * stepMin * 60_000), n)).join('\n');
const two = (value: number) => String(value).padStart(2, '0');
const dmy = (at: Date, mark = '.') =>
  `${two(at.getUTCDate())}${mark}${two(at.getUTCMonth() + 1)}${mark}${at.getUTCFullYear()}`;
const mdy = (at: Date) => `${at.getUTCMonth() + 1}/${at.getUTCDate()}/${at.getUTCFullYear()}`;
const iso = (at: Date) => at.toISOString().slice(0, 10);
const clock = (at: Date, mark = ':') => `${two(at.getUTCHours())}${mark}${two(at.getUTCMinutes())}`;
const half = (at: Date, am = 'AM', pm = 'PM') =>
  `${at.getUTCHours() % 12 || 12}:${two(at.getUTCMinutes())}:${two(at.getUTCSeconds())} ${at.getUTCHours() < 12 ? am : pm}`;
const point = (n: number) => (4.9 - n * 0.1).toFixed(1);
const comma = (n: number) => point(n).replace('.', ',');

export const shapes: readonly Shape[] = [
  {
    name: 'comma, point, ISO time',
    text: `Time,Temperature (°C)\n${every(6, (at, n) => `${iso(at)} ${clock(at)},${point(n)}`)}\n`,
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 6,
  },
  {
    name: 'semicolon and decimal comma',
    zone: berlin,
    text: `Zeit;Temperatur °C\n${every(6, (at, n) => `${dmy(at)} ${clock(at)};${comma(n)}`, Date.UTC(2026, 10, 15, 15, 7))}\n`,
    first: ['2026-11-15T14:07:00.000Z', 4.9],
    ready: 6,
    order: 'dmy',
  },
  {
    name: 'comma separator with quoted decimal comma',
    zone: 'Europe/Paris',
    text: `Heure,Température\n${every(6, (at, n) => `${dmy(at, '/')} ${clock(at)},"${comma(n)}"`, Date.UTC(2026, 10, 15, 15, 7))}\n`,
    first: ['2026-11-15T14:07:00.000Z', 4.9],
    ready: 6,
  },
  {
    name: 'comma separator with unquoted decimal comma is asked',
    text: `Time,Temp °C\n${every(8, (at, n) => `${iso(at)} ${clock(at)},${comma(n)}`)}\n`,
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 8,
    asks: ['decimalComma'],
  },
  {
    name: 'tabs, date and time apart',
    zone: berlin,
    text: every(6, (at, n) => `${dmy(at)}\t${clock(at)}\t${comma(n)}`, Date.UTC(2026, 10, 15, 15, 7)),
    first: ['2026-11-15T14:07:00.000Z', 4.9],
    ready: 6,
  },
  {
    name: 'pipes',
    text: `time|temp C\n${every(5, (at, n) => `${iso(at)} ${clock(at)}|${point(n)}`)}\n`,
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 5,
  },
  {
    name: 'runs of blanks',
    text: every(5, (at, n) => `${iso(at)} ${clock(at)}   ${point(n)}`),
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 5,
  },
  {
    name: 'single blanks',
    text: every(5, (at, n) => `${iso(at)} ${clock(at)} ${point(n)}`),
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 5,
  },
  {
    name: 'a first line that names the separator',
    text: `sep=;\r\nTime;Temp °C\r\n${every(4, (at, n) => `${iso(at)} ${clock(at)};${point(n)}`)}\r\n`,
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 4,
  },
  {
    name: 'header by comma, rows by semicolon',
    text: `Time,Temp °C\n${every(5, (at, n) => `${iso(at)} ${clock(at)};${comma(n)}`)}\n`,
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 5,
  },
  {
    name: 'everything quoted',
    text: `"Date","Time","Temp °C"\n${every(5, (at, n) => `"${iso(at)}","${clock(at)}","${point(n)}"`)}\n`,
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 5,
  },
  {
    name: 'a stray quotation mark in a name',
    text: `Time,5" probe °C\n${every(5, (at, n) => `${iso(at)} ${clock(at)},${point(n)}`)}\n`,
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 5,
  },
  {
    name: 'doubled quotation marks in a cell',
    text: `Time,Sensor,Temp °C\n${every(5, (at, n) => `${iso(at)} ${clock(at)},"5"" probe",${point(n)}`)}\n`,
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 5,
    probes: ['5" probe'],
  },
  {
    name: 'a separator at the end of every row',
    zone: berlin,
    text: `Zeit;Temp °C;\n${every(5, (at, n) => `${dmy(at)} ${clock(at)};${comma(n)};`, Date.UTC(2026, 10, 15, 15, 7))}\n`,
    first: ['2026-11-15T14:07:00.000Z', 4.9],
    ready: 5,
  },
  {
    name: 'ragged rows with remarks',
    text: `Time,Temp °C,Remark\n2026-11-05 15:07,4.9\n2026-11-05 15:17,4.8,lid open, twice\n2026-11-05 15:27,4.7,\n2026-11-05 15:37\n`,
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 3,
  },
  {
    name: 'CRLF line ends',
    text: `Time,Temp °C\r\n${every(5, (at, n) => `${iso(at)} ${clock(at)},${point(n)}`).replaceAll('\n', '\r\n')}\r\n`,
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 5,
  },
  {
    name: 'lone CR line ends',
    text: `Time,Temp °C\r${every(5, (at, n) => `${iso(at)} ${clock(at)},${point(n)}`).replaceAll('\n', '\r')}\r`,
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 5,
  },
  {
    name: 'mixed line ends',
    text: `Time,Temp °C\r\n2026-11-05 15:07,4.9\n2026-11-05 15:17,4.8\r2026-11-05 15:27,4.7\r\n`,
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 3,
  },
  {
    name: 'the last row cut off inside its number',
    text: `Time,Temp °C\n2026-11-05 15:07,4.9\n2026-11-05 15:17,4.8\n2026-11-05 15:27,4.`,
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 2,
    rejected: 1,
  },
  {
    name: 'the last row cut off before its number',
    text: `Time,Temp °C\n2026-11-05 15:07,4.9\n2026-11-05 15:17,4.8\n2026-11-05 15:2`,
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 2,
    rejected: 1,
  },
  {
    name: 'blank lines and lines of separators',
    text: `Time;Temp °C\n\n2026-11-05 15:07;4.9\n;;\n2026-11-05 15:17;4.8\n\n;\n`,
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 2,
  },
  {
    name: 'UTF-8 with a byte-order mark',
    mark: true,
    text: `Time,Temp °C\n${every(4, (at, n) => `${iso(at)} ${clock(at)},${point(n)}`)}\n`,
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 4,
  },
  {
    name: 'UTF-16 little-endian with mark',
    encoding: 'utf-16le',
    mark: true,
    text: `Time\tTemp °C\n${every(4, (at, n) => `${iso(at)} ${clock(at)}\t${point(n)}`)}\n`,
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 4,
  },
  {
    name: 'UTF-16 big-endian with mark',
    encoding: 'utf-16be',
    mark: true,
    text: `Time\tTemp °C\n${every(4, (at, n) => `${iso(at)} ${clock(at)}\t${point(n)}`)}\n`,
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 4,
  },
  {
    name: 'UTF-16 little-endian without mark',
    encoding: 'utf-16le',
    text: `Time\tTemp °C\n${every(9, (at, n) => `${iso(at)} ${clock(at)}\t${point(n)}`)}\n`,
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 9,
  },
  {
    name: 'Windows-1252 with the degree sign in the header',
    zone: berlin,
    encoding: 'windows-1252',
    text: `Zeit;Fühler 1 °C\n${every(5, (at, n) => `${dmy(at)} ${clock(at)};${comma(n)}`, Date.UTC(2026, 10, 15, 15, 7))}\n`,
    first: ['2026-11-15T14:07:00.000Z', 4.9],
    ready: 5,
    unit: 'C',
  },
  {
    name: 'Windows-1252 with the degree sign on every row',
    encoding: 'windows-1252',
    text: `Time,Temp\n${every(5, (at, n) => `${iso(at)} ${clock(at)},${point(n)} °C`)}\n`,
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 5,
    unit: 'C',
  },
  {
    name: 'Windows-1250, Czech',
    zone: 'Europe/Prague',
    encoding: 'windows-1250',
    text: `Čas;Teplota (°C)\n${every(5, (at, n) => `${at.getUTCDate()}. ${at.getUTCMonth() + 1}. ${at.getUTCFullYear()} ${clock(at)};${comma(n)}`, Date.UTC(2026, 10, 15, 15, 7))}\n`,
    first: ['2026-11-15T14:07:00.000Z', 4.9],
    ready: 5,
  },
  {
    name: 'Windows-1251, Russian',
    zone: 'Europe/Moscow',
    encoding: 'windows-1251',
    text: `Время;Температура\n${every(5, (at, n) => `${dmy(at)} ${clock(at)};${comma(n)}`, Date.UTC(2026, 10, 15, 15, 7))}\n`,
    first: ['2026-11-15T12:07:00.000Z', 4.9],
    ready: 5,
  },
  {
    name: 'Shift_JIS, Japanese',
    zone: 'Asia/Tokyo',
    encoding: 'shift_jis',
    text: `日時,温度℃\n${every(5, (at, n) => `${at.getUTCFullYear()}/${two(at.getUTCMonth() + 1)}/${two(at.getUTCDate())} ${clock(at)},${point(n)}`, Date.UTC(2026, 10, 15, 15, 7))}\n`,
    first: ['2026-11-15T06:07:00.000Z', 4.9],
    ready: 5,
  },
  {
    name: 'GB18030, Chinese',
    zone: 'Asia/Shanghai',
    encoding: 'gb18030',
    text: `时间,温度\n${every(5, (at, n) => `${iso(at)} ${clock(at)},${point(n)}`)}\n`,
    first: ['2026-11-05T07:07:00.000Z', 4.9],
    ready: 5,
  },
  {
    name: 'MacRoman degree sign',
    encoding: 'macroman',
    text: `Time,Temp\n${every(5, (at, n) => `${iso(at)} ${clock(at)},${point(n)} °C`)}\n`,
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 5,
  },
  {
    name: 'code page 850 degree sign',
    encoding: 'cp850',
    text: `Time,Temp\n${every(5, (at, n) => `${iso(at)} ${clock(at)},${point(n)}°C`)}\n`,
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 5,
  },
  {
    name: 'a degree sign spoilt by a sheet',
    text: `Time,Temp (Â°C)\n${every(5, (at, n) => `${iso(at)} ${clock(at)},${point(n)} Â°C`)}\n`,
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 5,
  },
  {
    name: 'a preamble of keys and values in the same columns',
    text: `Serial;12345\nName;Brick store, box 2\nStart;2026-11-05 15:00\nInterval;10 min\nUnit;Celsius\n\nTime;Value\n${every(6, (at, n) => `${iso(at)} ${clock(at)};${point(n)}`)}\n`,
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 6,
    unit: 'C',
  },
  {
    name: 'sixty lines of preamble',
    text: `${Array.from({ length: 60 }, (_, n) => `Setting ${n}: value ${n}`).join('\n')}\nTime,Temp °C\n${every(6, (at, n) => `${iso(at)} ${clock(at)},${point(n)}`)}\n`,
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 6,
  },
  {
    name: 'statistics behind the table',
    zone: berlin,
    text: `Zeit;°C\n${every(6, (at, n) => `${dmy(at)} ${clock(at)};${comma(n)}`, Date.UTC(2026, 10, 15, 15, 7))}\n\nMax;8,1\nMin;4,4\nMittel;4,7\n`,
    first: ['2026-11-15T14:07:00.000Z', 4.9],
    ready: 6,
  },
  {
    name: 'two header lines, name and unit',
    text: `Time;Temp\n;°F\n${every(6, (at, n) => `${iso(at)} ${clock(at)};${(40.8 - n * 0.2).toFixed(1)}`)}\n`,
    first: ['2026-11-05T15:07:00.000Z', 4.8889],
    ready: 6,
    unit: 'F',
  },
  {
    name: 'no header',
    text: every(5, (at, n) => `${iso(at)} ${clock(at)},${point(n)}`),
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 5,
  },
  {
    name: 'the header again in the middle',
    text: `Time,Temp °C\n2026-11-05 15:07,4.9\n2026-11-05 15:17,4.8\nTime,Temp °C\n2026-11-05 15:27,4.7\n`,
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 3,
  },
  {
    name: 'a running number first',
    zone: berlin,
    text: `Nr;Datum;Uhrzeit;Temp\n${every(6, (at, n) => `${n + 1};${dmy(at)};${clock(at)};${comma(n)}`, Date.UTC(2026, 10, 15, 15, 7))}\n`,
    first: ['2026-11-15T14:07:00.000Z', 4.9],
    ready: 6,
  },
  {
    name: 'a running number without header',
    zone: berlin,
    text: every(6, (at, n) => `${n + 1};${dmy(at)};${clock(at)};${comma(n)}`, Date.UTC(2026, 10, 15, 15, 7)),
    first: ['2026-11-15T14:07:00.000Z', 4.9],
    ready: 6,
  },
  {
    name: 'time before date',
    text: `time,date,temp C\n${every(5, (at, n) => `${clock(at)},${iso(at)},${point(n)}`)}\n`,
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 5,
  },
  {
    name: 'year, month and day in columns of their own',
    text: `year,month,day,time,temp C\n${every(5, (at, n) => `${at.getUTCFullYear()},${at.getUTCMonth() + 1},${at.getUTCDate()},${clock(at)},${point(n)}`)}\n`,
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 5,
  },
  {
    name: 'the date only on the first row of a day',
    zone: berlin,
    text: `Datum;Zeit;°C\n15.11.2026;15:07;4,9\n;15:17;4,8\n;15:27;4,7\n16.11.2026;00:07;4,6\n;00:17;4,5\n`,
    first: ['2026-11-15T14:07:00.000Z', 4.9],
    ready: 5,
  },
  {
    name: 'day and month that the file cannot tell are asked',
    text: 'Time,Temp °C\n03/04/2026 09:00,4.9\n03/04/2026 09:10,4.8\n03/04/2026 09:20,4.7\n',
    first: undefined,
    ready: 3,
    asks: ['dateOrder'],
  },
  {
    name: 'day and month told by the next days',
    text: `Time,Temp °C\n${every(40, (at, n) => `${two(at.getUTCDate())}/${two(at.getUTCMonth() + 1)}/2026 ${clock(at)},${point(n % 9)}`, Date.UTC(2026, 3, 3, 9), 120)}\n`,
    first: ['2026-04-03T09:00:00.000Z', 4.9],
    ready: 40,
    order: 'dmy',
  },
  {
    name: 'month first, told by a number over twelve',
    zone: newYork,
    text: `Date/Time,Temp (°F)\n${every(5, (at) => `${mdy(at)} ${half(at)},40.8`, Date.UTC(2026, 10, 15, 15, 7))}\n`,
    first: ['2026-11-15T20:07:00.000Z', 4.8889],
    ready: 5,
    order: 'mdy',
  },
  {
    name: 'month first, told by the steps',
    zone: newYork,
    text: `Date,Time,Temp (°F)\n${every(60, (at) => `${mdy(at)},${half(at)},40.8`, Date.UTC(2026, 10, 3, 15), 60)}\n`,
    first: ['2026-11-03T20:00:00.000Z', 4.8889],
    ready: 60,
    order: 'mdy',
  },
  {
    name: 'an answer decides',
    text: 'Time,Temp °C\n03/04/2026 09:00,4.9\n03/04/2026 09:10,4.8\n',
    choices: { dateOrder: 'mdy' },
    first: ['2026-03-04T09:00:00.000Z', 4.9],
    ready: 2,
    order: 'mdy',
  },
  {
    name: 'two-digit years',
    zone: berlin,
    text: `Zeit;°C\n${every(5, (at, n) => `${two(at.getUTCDate())}.${two(at.getUTCMonth() + 1)}.26 ${clock(at)};${comma(n)}`, Date.UTC(2026, 9, 30, 15, 7))}\n`,
    first: ['2026-10-30T14:07:00.000Z', 4.9],
    ready: 5,
    order: 'dmy',
  },
  {
    name: 'months by name, English',
    text: `Time,Temp °C\n${every(5, (at, n) => `5-Nov-26 ${clock(at)},${point(n)}`)}\n`,
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 5,
  },
  {
    name: 'months by name, French',
    zone: 'Europe/Paris',
    text: `Date;Heure;Température\n${every(5, (at, n) => `5 nov. 2026;${clock(at)};${comma(n)}`)}\n`,
    first: ['2026-11-05T14:07:00.000Z', 4.9],
    ready: 5,
  },
  {
    name: 'months by name, Polish in the genitive',
    zone: 'Europe/Warsaw',
    text: `Data;Czas;Temperatura\n${every(5, (at, n) => `5 listopada 2026;${clock(at)};${comma(n)}`)}\n`,
    first: ['2026-11-05T14:07:00.000Z', 4.9],
    ready: 5,
  },
  {
    name: 'twelve-hour clock around noon and midnight',
    text: 'Time,Temp °C\n2026-11-05 11:50:00 AM,4.9\n2026-11-05 12:00:00 PM,4.8\n2026-11-05 12:10:00 PM,4.7\n2026-11-06 12:00:00 AM,4.6\n',
    first: ['2026-11-05T11:50:00.000Z', 4.9],
    ready: 4,
  },
  {
    name: 'twelve-hour clock, a.m. written with dots and blanks',
    zone: 'America/Mexico_City',
    text: 'Fecha;Hora;Temp °C\n15/11/2026;3:07:09 p. m.;4.9\n15/11/2026;3:17:09 p. m.;4.8\n15/11/2026;3:27:09 p. m.;4.7\n',
    first: ['2026-11-15T21:07:09.000Z', 4.9],
    ready: 3,
  },
  {
    name: 'twelve-hour clock, Greek',
    zone: 'Europe/Athens',
    text: 'Ημερομηνία;Ώρα;Θερμοκρασία\n15/11/2026;3:07 μ.μ.;4,9\n15/11/2026;3:17 μ.μ.;4,8\n15/11/2026;3:27 μ.μ.;4,7\n',
    first: ['2026-11-15T13:07:00.000Z', 4.9],
    ready: 3,
  },
  {
    name: '24:00 ends the day',
    zone: berlin,
    text: 'Zeit;°C\n15.11.2026 23:50;4,9\n15.11.2026 24:00;4,8\n16.11.2026 00:10;4,7\n',
    first: ['2026-11-15T22:50:00.000Z', 4.9],
    ready: 3,
  },
  {
    name: 'dots in the time, Finnish',
    zone: 'Europe/Helsinki',
    text: 'Aika;Lämpötila\n15.11.2026 15.07.09;4,9\n15.11.2026 15.17.09;4,8\n15.11.2026 15.27.09;4,7\n',
    first: ['2026-11-15T13:07:09.000Z', 4.9],
    ready: 3,
  },
  {
    name: 'an h in the time, Canadian French',
    zone: 'America/Toronto',
    text: 'Date;Heure;Température\n2026-11-15;15 h 07;4,9\n2026-11-15;15 h 17;4,8\n2026-11-15;15 h 27;4,7\n',
    first: ['2026-11-15T20:07:00.000Z', 4.9],
    ready: 3,
  },
  {
    name: 'no leading zeros, padded by blanks',
    text: 'Date,Time,Temp °C\n 2026-11-5, 9:07,  4.9\n 2026-11-5, 9:17,  4.8\n 2026-11-5, 9:27,  4.7\n',
    first: ['2026-11-05T09:07:00.000Z', 4.9],
    ready: 3,
  },
  {
    name: 'ISO with T, fractions and an offset',
    zone: newYork,
    text: `time,temp\n${every(5, (at, n) => `${iso(at)}T${clock(at)}:09.250+01:00,${point(n)}`)}\n`,
    first: ['2026-11-05T14:07:09.250Z', 4.9],
    ready: 5,
  },
  {
    name: 'ISO with Z',
    zone: newYork,
    text: `time,temp\n${every(5, (at, n) => `${iso(at)}T${clock(at)}:00Z,${point(n)}`)}\n`,
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 5,
  },
  {
    name: 'an offset in the header',
    zone: newYork,
    text: `"Time (GMT+01:00)","Temp (°C)"\n${every(5, (at, n) => `${iso(at)} ${clock(at)},${point(n)}`)}\n`,
    first: ['2026-11-05T14:07:00.000Z', 4.9],
    ready: 5,
  },
  {
    name: 'a zone in the preamble',
    zone: newYork,
    text: `Time zone: Europe/Berlin\nTime;Temp °C\n${every(5, (at, n) => `${iso(at)} ${clock(at)};${point(n)}`)}\n`,
    first: ['2026-11-05T14:07:00.000Z', 4.9],
    ready: 5,
  },
  {
    name: 'Unix seconds',
    zone: newYork,
    text: `timestamp,temp\n${every(5, (at, n) => `${at.getTime() / 1000},${point(n)}`)}\n`,
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 5,
  },
  {
    name: 'Unix milliseconds',
    zone: newYork,
    text: `timestamp,temp\n${every(5, (at, n) => `${at.getTime()},${point(n)}`)}\n`,
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 5,
  },
  {
    name: 'a spreadsheet’s serial days with decimal comma',
    zone: berlin,
    text: `Zeit;Temp °C\n${every(5, (at, n) => `${(at.getTime() / 86_400_000 + 25_569).toFixed(6).replace('.', ',')};${comma(n)}`)}\n`,
    first: ['2026-11-05T14:07:00.000Z', 4.9],
    ready: 5,
  },
  {
    name: 'elapsed time with the start in the preamble',
    text: 'Start: 2026-11-05 15:00\nElapsed;Temp °C\n00:10:00;4.9\n00:20:00;4.8\n00:30:00;4.7\n',
    first: ['2026-11-05T15:10:00.000Z', 4.9],
    ready: 3,
  },
  {
    name: 'the hour that autumn repeats',
    zone: berlin,
    text: `Zeit;°C\n${['01:30', '02:00', '02:30', '02:00', '02:30', '03:00'].map((time, n) => `25.10.2026 ${time};${comma(n)}`).join('\n')}\n`,
    first: ['2026-10-24T23:30:00.000Z', 4.9],
    ready: 6,
  },
  {
    name: 'an autumn hour that came once is asked',
    zone: berlin,
    text: `Zeit;°C\n${['01:30', '02:00', '02:30', '03:00', '03:30'].map((time, n) => `25.10.2026 ${time};${comma(n)}`).join('\n')}\n`,
    first: ['2026-10-24T23:30:00.000Z', 4.9],
    ready: 5,
    asks: ['zone'],
  },
  {
    name: 'a spring hour that no clock showed is asked',
    zone: berlin,
    text: `Zeit;°C\n${['01:30', '02:00', '02:30', '03:00', '03:30'].map((time, n) => `29.03.2026 ${time};${comma(n)}`).join('\n')}\n`,
    first: ['2026-03-29T00:30:00.000Z', 4.9],
    ready: 3,
    rejected: 2,
    asks: ['zone'],
  },
  {
    name: 'newest row first',
    text: `Time,Temp °C\n${every(5, (at, n) => `${iso(at)} ${clock(at)},${point(n)}`)
      .split('\n')
      .reverse()
      .join('\n')}\n`,
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 5,
  },
  {
    name: 'probes below each other',
    text: `Time,Probe,Temp °C\n${every(4, (at, n) => `${iso(at)} ${clock(at)},Box 1,${point(n)}\n${iso(at)} ${clock(at)},Box 2,${point(n + 3)}`)}\n`,
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 8,
    probes: ['Box 1', 'Box 2'],
  },
  {
    name: 'probes side by side with humidity',
    text: `Time;T1;T2;RH\n${every(5, (at, n) => `${iso(at)} ${clock(at)};${point(n)};${point(n + 2)};87 %`)}\n`,
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 10,
    probes: ['T1', 'T2'],
  },
  {
    name: 'the same column name twice',
    text: `Time;Temp;Temp\n${every(5, (at, n) => `${iso(at)} ${clock(at)};${point(n)};${point(n + 2)}`)}\n`,
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 10,
    probes: ['Temp', 'Temp 2'],
  },
  {
    name: 'a unit in every cell behind a no-break blank',
    zone: 'Europe/Paris',
    text: `Heure;Temp\n${every(5, (at, n) => `${iso(at)} ${clock(at)};${comma(n)}\u00a0°C`)}\n`,
    first: ['2026-11-05T14:07:00.000Z', 4.9],
    ready: 5,
    unit: 'C',
  },
  {
    name: 'a unit that fits twice is asked',
    text: `Time,Value\n${every(5, (at, n) => `${iso(at)} ${clock(at)},${(41.2 - n * 0.2).toFixed(1)}`)}\n`,
    first: undefined,
    ready: 5,
    asks: ['unit'],
  },
  {
    name: 'thousandths of a degree',
    text: `time,temp\n${every(5, (at, n) => `${iso(at)} ${clock(at)},${4937 - n * 62}`)}\n`,
    first: ['2026-11-05T15:07:00.000Z', 4.937],
    ready: 5,
  },
  {
    name: 'a true minus sign, Swedish',
    zone: 'Europe/Stockholm',
    text: `Tid;Temperatur\n${every(5, (at, n) => `${iso(at)} ${clock(at)};\u22120,${5 + (n % 4)}`)}\n`,
    first: ['2026-11-05T14:07:00.000Z', -0.5],
    ready: 5,
  },
  {
    name: 'a minus sign behind the number',
    text: 'Time;Temp °C\n2026-11-05 15:07;0,5-\n2026-11-05 15:17;0,4-\n2026-11-05 15:27;0,1\n',
    first: ['2026-11-05T15:07:00.000Z', -0.5],
    ready: 3,
  },
  {
    name: 'brackets are not guessed',
    text: 'Time;Temp °C\n2026-11-05 15:07;0,5\n2026-11-05 15:17;(0,4)\n2026-11-05 15:27;0,1\n',
    first: ['2026-11-05T15:07:00.000Z', 0.5],
    ready: 2,
    rejected: 1,
  },
  {
    name: 'plus signs, apostrophes and quoted formulas',
    text: 'Time;Temp °C\n2026-11-05 15:07;+4.9\n2026-11-05 15:17;\'4.8\n2026-11-05 15:27;="4.7"\n',
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 3,
  },
  {
    name: 'exponents and long fractions',
    text: 'Time,Temp °C\n2026-11-05 15:07,4.9e+00\n2026-11-05 15:17,4.800000095\n',
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 2,
  },
  {
    name: 'words for no reading are never zero',
    text: `Time,Temp °C\n${['4.9', '-', '---', 'n/a', 'NaN', 'NULL', 'ERR', 'OL', 'Open', '****', '', '4.8'].map((cell, n) => `2026-11-05 15:${two(n)},${cell}`).join('\n')}\n`,
    first: ['2026-11-05T15:00:00.000Z', 4.9],
    ready: 2,
  },
  {
    name: 'values that mean a fault',
    text: `Time,Temp °C\n${['4.9', '-127', '-999.9', '9999', '6553.5', '4.8'].map((cell, n) => `2026-11-05 15:${two(n)},${cell}`).join('\n')}\n`,
    first: ['2026-11-05T15:00:00.000Z', 4.9],
    ready: 2,
    rejected: 4,
  },
  {
    name: 'flags at a limit',
    text: 'Time;Temp °C\n2026-11-05 15:07;4.9*\n2026-11-05 15:17;>8.0\n2026-11-05 15:27;8,1 H\n',
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 3,
  },
  {
    name: 'events between the readings are notes',
    text: 'Time,Temp °C\n2026-11-05 15:07,4.9\n2026-11-05 15:10,Button pressed\n2026-11-05 15:17,4.8\nLow battery\n2026-11-05 15:27,4.7\n',
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 3,
  },
  {
    name: 'lowest, mean and highest of each interval',
    text: `Time;Min °C;Avg °C;Max °C\n${every(5, (at, n) => `${iso(at)} ${clock(at)};${point(n + 1)};${point(n)};${(5.4 - n * 0.1).toFixed(1)}`)}\n`,
    first: undefined,
    ready: 4,
  },
  {
    name: 'one row a day with highest and lowest',
    zone: berlin,
    text: 'Datum;Max °C;Min °C\n15.11.2026;6,1;2,9\n16.11.2026;5,8;3,0\n17.11.2026;5,5;3,1\n',
    first: undefined,
    ready: 3,
  },
  {
    name: 'the same row twice counts once',
    text: 'Time,Temp °C\n2026-11-05 15:07,4.9\n2026-11-05 15:07,4.9\n2026-11-05 15:17,4.8\n',
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 2,
  },
  {
    name: 'the same time with two values is asked',
    text: 'Time,Temp °C\n2026-11-05 15:07,4.9\n2026-11-05 15:07,5.9\n2026-11-05 15:17,4.8\n',
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 2,
    asks: ['conflicts'],
  },
  {
    name: 'a clock reset to 2000',
    text: `Time,Temp °C\n${every(5, (at, n) => `${iso(at)} ${clock(at)},${point(n)}`)}\n2000-01-01 00:03,4.1\n2000-01-01 00:13,4.1\n`,
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 5,
    rejected: 2,
  },
  {
    name: 'formula-like cells stay text',
    text: 'Time,Temp °C,Note\n2026-11-05 15:07,4.9,=1+4\n2026-11-05 15:17,=1+4,x\n2026-11-05 15:27,4.7,@x\n',
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 2,
    rejected: 1,
  },
  {
    name: 'compact ISO without separators',
    text: `time,temp\n${every(5, (at, n) => `${iso(at).replaceAll('-', '')}T${clock(at).replace(':', '')}00Z,${point(n)}`)}\n`,
    first: ['2026-11-05T15:07:00.000Z', 4.9],
    ready: 5,
  },
  {
    name: 'Swiss: dots in dates, points in numbers',
    zone: 'Europe/Zurich',
    text: `Datum/Zeit;Temp. °C\n${every(5, (at, n) => `${dmy(at)} ${clock(at)}:00;${point(n)}`, Date.UTC(2026, 10, 15, 15, 7))}\n`,
    first: ['2026-11-15T14:07:00.000Z', 4.9],
    ready: 5,
  },
  {
    name: 'Hungarian: year first with dots',
    zone: 'Europe/Budapest',
    text: `Idő;Hőmérséklet\n${every(5, (at, n) => `2026. 11. 15. ${clock(at)};${comma(n)}`)}\n`,
    first: ['2026-11-15T14:07:00.000Z', 4.9],
    ready: 5,
  },
  {
    name: 'Dutch: dashes, day first',
    zone: 'Europe/Amsterdam',
    text: `Datum;Tijd;Temperatuur\n${every(5, (at, n) => `${dmy(at, '-')};${clock(at)};${comma(n)}`, Date.UTC(2026, 10, 15, 15, 7))}\n`,
    first: ['2026-11-15T14:07:00.000Z', 4.9],
    ready: 5,
  },
  {
    name: 'a half-hour clock change',
    zone: 'Australia/Lord_Howe',
    text: 'Time,Temp °C\n2026-04-05 01:20,4.9\n2026-04-05 01:40,4.8\n2026-04-05 01:40,4.7\n2026-04-05 02:00,4.6\n',
    first: ['2026-04-04T14:20:00.000Z', 4.9],
    ready: 4,
  },
];
