import type { ImportChoices } from '../../src/schema/import.ts';

/** Refused whole with a message of `intake.file`, or read with these counts, reasons of `intake.row`, and open questions. */
type Outcome =
  | { readonly refused: string }
  | {
      readonly ready: number;
      readonly rejected?: number;
      readonly because?: readonly string[];
      readonly asks?: readonly string[];
      readonly probes?: readonly string[];
    };

/** A file that no logger should have written, and what becomes of it. */
interface MalformedFile {
  readonly name: string;
  readonly bytes: Uint8Array;
  readonly becomes: Outcome;
  readonly choices?: ImportChoices;
}

const utf8 = (text: string) => new TextEncoder().encode(text);
const latin = (text: string) => Uint8Array.from(Buffer.from(text, 'latin1'));
const join = (...parts: Uint8Array[]) => Uint8Array.from(Buffer.concat(parts));
const HEAD = 'Time;Box °C\n';
/** Ten good rows, ten minutes apart. */
const GOOD = Array.from(
  { length: 10 },
  (_, i) => `2026-12-01 0${Math.floor(i / 6)}:${i % 6}0;${(4 + i / 10).toFixed(1)}\n`,
);
const rows = (...more: string[]) => utf8(HEAD + GOOD.join('') + more.map((row) => `${row}\n`).join(''));
const only = (...more: string[]) => utf8(HEAD + more.map((row) => `${row}\n`).join(''));
const named = (header: string) => utf8(`${header}\n${GOOD.join('')}`);
const times = <T>(count: number, each: (number: number) => T) =>
  Array.from({ length: count }, (_, number) => each(number));
const utf16 = (text: string) => Uint8Array.from(Buffer.from(`\ufeff${text}`, 'utf16le'));

export const FILES: readonly MalformedFile[] = [
  { name: 'empty', becomes: { refused: 'empty' }, bytes: utf8('') },
  { name: 'only blanks and line ends', becomes: { refused: 'no-table' }, bytes: utf8(' \r\n\r\n \n\t\n') },
  { name: 'only a byte-order mark', becomes: { refused: 'no-table' }, bytes: Uint8Array.of(0xef, 0xbb, 0xbf) },
  { name: 'only the header', becomes: { refused: 'no-table' }, bytes: utf8(HEAD) },
  {
    name: 'only the preamble',
    becomes: { refused: 'no-table' },
    bytes: utf8('Logger report\nSerial: 4711\nUnit: C\n'),
  },
  {
    name: 'a letter',
    becomes: { refused: 'no-table' },
    bytes: utf8('Dear Sir,\nmy tortoise sleeps well, thank you.\nYours\n'),
  },
  { name: 'one number', becomes: { refused: 'no-table' }, bytes: utf8('4.8') },
  { name: 'machine data', becomes: { refused: 'binary' }, bytes: Uint8Array.from(times(4096, (i) => (i * 37) % 256)) },
  {
    name: 'a picture',
    becomes: { refused: 'binary' },
    bytes: join(Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10), new Uint8Array(300)),
  },
  { name: 'a zip', becomes: { refused: 'zip' }, bytes: join(Uint8Array.of(0x50, 0x4b, 3, 4), new Uint8Array(100)) },
  {
    name: 'a web page',
    becomes: { refused: 'html' },
    bytes: utf8('\n<!DOCTYPE html><html><body><table><tr><td>4.8</td></tr></table></body></html>'),
  },
  {
    name: 'an XML file',
    becomes: { refused: 'html' },
    bytes: utf8('<?xml version="1.0"?><readings><r t="2026-12-01T00:00Z">4.8</r></readings>'),
  },
  { name: 'a paper', becomes: { refused: 'pdf' }, bytes: utf8('%PDF-1.7\n%âãÏÓ\n') },
  { name: 'JSON', becomes: { refused: 'no-table' }, bytes: utf8('[{"at":"2026-12-01T00:00:00Z","tempC":4.8}]') },
  { name: 'nothing but NUL bytes', becomes: { refused: 'binary' }, bytes: new Uint8Array(5000) },
  {
    name: 'a NUL inside one value',
    becomes: { ready: 10, rejected: 1, because: ['no-temperature'] },
    bytes: rows('2026-12-01 02:00;4.\u00008'),
  },
  { name: 'NUL padding behind the rows', becomes: { refused: 'binary' }, bytes: join(rows(), new Uint8Array(20)) },
  {
    name: 'a lone surrogate written as UTF-8',
    becomes: { ready: 11 },
    bytes: join(rows(), Uint8Array.of(0xed, 0xa0, 0x80, 10), utf8('2026-12-01 02:00;5.1\n')),
  },
  {
    name: 'a cut UTF-8 character in a value',
    becomes: { ready: 11 },
    bytes: join(rows(), utf8('2026-12-01 02:00;5.1 '), Uint8Array.of(0xc2), utf8('C\n')),
  },
  {
    name: 'broken UTF-8 far behind the sample',
    becomes: { ready: 20000 },
    bytes: join(
      utf8(HEAD.replace(' °C', ' C')),
      utf8(
        times(
          20_000,
          (i) => `${new Date(Date.UTC(2026, 0, 1) + i * 600_000).toISOString().slice(0, 16).replace('T', ' ')};4.5\n`,
        ).join(''),
      ),
      Uint8Array.of(0xff, 0xfe, 10),
    ),
    choices: { zone: 'UTC' },
  },
  {
    name: 'UTF-16 cut in the middle of a character',
    becomes: { ready: 9, rejected: 1, because: ['no-temperature'] },
    bytes: utf16(HEAD + GOOD.join('')).slice(0, -3),
  },
  {
    name: 'UTF-16 with the wrong mark',
    becomes: { refused: 'no-table' },
    bytes: join(Uint8Array.of(0xfe, 0xff), Uint8Array.from(Buffer.from(HEAD + GOOD.join(''), 'utf16le'))),
  },
  {
    name: 'an encoding that is not',
    becomes: { refused: 'other-encoding' },
    bytes: rows(),
    choices: { encoding: 'klingon-8' },
  },
  {
    name: 'said to be UTF-8 and is not',
    becomes: { refused: 'other-encoding' },
    bytes: latin(HEAD + GOOD.join('')),
    choices: { encoding: 'utf-8' },
  },
  { name: 'one line of 5 MB', becomes: { refused: 'long-line' }, bytes: utf8('4.8;'.repeat(1_300_000)) },
  {
    name: 'a line of 5 MB among good rows',
    becomes: { refused: 'long-line' },
    bytes: rows(`2026-12-01 02:00;${'9'.repeat(5_000_000)}`),
  },
  {
    name: '10,000 columns',
    becomes: { refused: 'too-many-columns' },
    bytes: utf8(
      `${['Time', ...times(9999, (i) => `T${i}`)].join(';')}\n${times(4, (i) => `2026-12-01 0${i}:00${';4.8'.repeat(9999)}\n`).join('')}`,
    ),
  },
  {
    name: '501 columns',
    becomes: { refused: 'too-many-columns' },
    bytes: utf8(
      `${['Time', ...times(500, (i) => `T${i}`)].join(';')}\n${times(4, (i) => `2026-12-01 0${i}:00${';4.8'.repeat(500)}\n`).join('')}`,
    ),
  },
  {
    name: 'a name of its own for each of 2,000 rows',
    becomes: { refused: 'too-many-probes' },
    bytes: utf8(
      `Time;Probe;Temp C\n${times(40, (i) => `2026-12-01 00:00;a;4.${i % 10}\n`).join('')}${times(2000, (i) => `2026-12-01 01:00;p${i};4.8\n`).join('')}`,
    ),
    choices: { columns: { '1': 'probe' } },
  },
  {
    name: 'a quote never closed',
    becomes: { ready: 10, rejected: 1, because: ['no-moment'] },
    bytes: rows('"2026-12-01 02:00;4.8'),
  },
  { name: 'a quote never closed in the header', becomes: { ready: 10 }, bytes: named('"Time;Box °C') },
  {
    name: 'every row in one pair of quotes',
    becomes: { refused: 'no-table' },
    bytes: utf8(`"Time;Box °C"\n${GOOD.map((row) => `"${row.trim()}"\n`).join('')}`),
  },
  {
    name: 'dates that do not exist',
    becomes: { ready: 10, rejected: 4, because: ['no-such-time'] },
    bytes: rows('2026-02-30 02:00;4.8', '2026-13-01 02:00;4.8', '2026-00-10 02:00;4.8', '2025-02-29 02:00;4.8'),
  },
  {
    name: 'nothing but dates that do not exist',
    becomes: { ready: 0, rejected: 2, because: ['no-such-time'] },
    bytes: only('2026-02-30 02:00;4.8', '2026-02-31 02:00;4.8'),
  },
  {
    name: 'a date that does not exist before dates in open order',
    becomes: { ready: 2, rejected: 1, because: ['no-such-time'], asks: ['dateOrder'] },
    bytes: only('2026-02-30 00:00;4.8', '03/04/2026 00:00;4.8', '05/06/2026 00:00;4.8'),
  },
  {
    name: 'times that do not exist',
    becomes: { ready: 10, rejected: 3, because: ['no-moment'] },
    bytes: rows('2026-12-01 25:61;4.8', '2026-12-01 24:01;4.8', '2026-12-01 -1:00;4.8'),
  },
  {
    name: 'a Persian year',
    becomes: { ready: 0, rejected: 2, because: ['too-old'] },
    bytes: only('1405-09-10 02:00;4.8', '1405-09-10 03:00;4.8'),
  },
  {
    name: 'a Buddhist year',
    becomes: { ready: 0, rejected: 2, because: ['future'] },
    bytes: only('2569-12-01 02:00;4.8', '2569-12-01 03:00;4.8'),
  },
  {
    name: 'the years 1 and 9999',
    becomes: { ready: 10, rejected: 2, because: ['stray-clock', 'future'] },
    bytes: rows('0001-01-01 00:00;4.8', '9999-12-31 23:59;4.8'),
  },
  {
    name: 'Arabic-Indic digits',
    becomes: { refused: 'no-table' },
    bytes: only('٢٠٢٦-١٢-٠١ ٠٠:٠٠;٤٫٨', '٢٠٢٦-١٢-٠١ ٠١:٠٠;٤٫٩'),
  },
  { name: 'full-width digits', becomes: { refused: 'no-table' }, bytes: only('２０２６-１２-０１ 00:00;４.８') },
  {
    name: 'a temperature of 1e300',
    becomes: { ready: 10, rejected: 3, because: ['no-temperature', 'impossible'] },
    bytes: rows('2026-12-01 02:00;1e300', '2026-12-01 02:10;1e30', '2026-12-01 02:20;99999999999'),
  },
  {
    name: 'NaN, inf and null',
    becomes: { ready: 10 },
    bytes: rows('2026-12-01 02:00;NaN', '2026-12-01 02:10;inf', '2026-12-01 02:20;null', '2026-12-01 02:30;-Infinity'),
  },
  {
    name: 'fault values',
    becomes: { ready: 10, rejected: 3, because: ['fault-value'] },
    bytes: rows('2026-12-01 02:00;-127', '2026-12-01 02:10;-999', '2026-12-01 02:20;999.9'),
  },
  { name: 'a power-on value', becomes: { ready: 11 }, bytes: rows('2026-12-01 02:00;85.0') },
  {
    name: 'temperatures of an oven and of the moon',
    becomes: { ready: 12, rejected: 2, because: ['impossible'] },
    bytes: rows('2026-12-01 02:00;60.1', '2026-12-01 02:10;60.0', '2026-12-01 02:20;-55.1', '2026-12-01 02:30;-55.0'),
  },
  {
    name: 'hexadecimal and two points',
    becomes: { ready: 10, rejected: 3, because: ['no-temperature'] },
    bytes: rows('2026-12-01 02:00;0x1F', '2026-12-01 02:10;4.8.1', '2026-12-01 02:20;4,8,1'),
  },
  {
    name: 'a number in brackets',
    becomes: { ready: 10, rejected: 1, because: ['brackets'] },
    bytes: rows('2026-12-01 02:00;(1.5)'),
  },
  {
    name: 'formula cells',
    becomes: { ready: 11, rejected: 3, because: ['no-temperature'] },
    bytes: rows(
      '2026-12-01 02:00;=1+1',
      '2026-12-01 02:10;=cmd|/C calc!A0',
      '2026-12-01 02:20;@SUM(A1:A9)',
      '2026-12-01 02:30;="4.8"',
    ),
  },
  {
    name: 'a formula as the name of a probe',
    becomes: { ready: 10 },
    bytes: named('Time;=HYPERLINK("http://example.org") °C'),
  },
  {
    name: 'control characters and HTML in a name',
    becomes: { ready: 10 },
    bytes: named('Time;<script>\u0007alert(1)</script>\u202e °C'),
  },
  {
    name: 'a carriage return in a quoted name',
    becomes: { ready: 10 },
    bytes: utf8(`Time;"Box\rSubject: hello" °C\n${GOOD.join('')}`),
  },
  { name: 'a name of 5,000 letters', becomes: { ready: 10 }, bytes: named(`Time;${'x'.repeat(5000)} °C`) },
  {
    name: 'a name that every object has',
    becomes: { ready: 10, probes: ['__proto'] },
    bytes: utf8(`Time;Probe;Temp °C\n${GOOD.map((row) => row.replace(';', ';__proto__;')).join('')}`),
  },
  {
    name: 'units mixed in one column',
    becomes: { ready: 4 },
    bytes: only(
      '2026-12-01 00:00;4.8 °C',
      '2026-12-01 01:00;40.6 °F',
      '2026-12-01 02:00;4.9 °C',
      '2026-12-01 03:00;40.8 °F',
    ),
  },
  {
    name: 'whole degrees near 41 without a unit',
    becomes: { ready: 3, asks: ['unit'] },
    bytes: utf8('Time;Reading\n2026-12-01 00:00;41\n2026-12-01 01:00;42\n2026-12-01 02:00;41\n'),
  },
  {
    name: 'two forms of date mixed',
    becomes: { ready: 11, rejected: 1, because: ['future'] },
    bytes: rows('01/12/2026 02:00;4.8', '13/12/2026 02:00;4.8'),
  },
  {
    name: 'two orders of date mixed',
    becomes: { ready: 2, rejected: 1, because: ['no-such-time'] },
    bytes: only('13/11/2026 02:00;4.8', '11/14/2026 02:00;4.8', '15/11/2026 02:00;4.8'),
  },
  {
    name: 'dates in open order',
    becomes: { ready: 2, asks: ['dateOrder'] },
    bytes: only('03/04/2026 02:00;4.8', '03/04/2026 03:00;4.8'),
  },
  {
    name: 'newest first with gaps',
    becomes: { ready: 5 },
    bytes: utf8(HEAD + [9, 8, 5, 4, 1].map((i) => GOOD[i]).join('')),
  },
  {
    name: 'in no order at all',
    becomes: { ready: 10 },
    bytes: utf8(HEAD + [3, 9, 1, 5, 0, 7, 2, 8, 6, 4].map((i) => GOOD[i]).join('')),
  },
  {
    name: 'one moment 1,000 times with one value',
    becomes: { ready: 1 },
    bytes: only(...times(1000, () => '2026-12-01 02:00;4.8')),
  },
  {
    name: 'one moment 1,000 times with many values',
    becomes: { ready: 1, asks: ['conflicts'] },
    bytes: only(...times(1000, (i) => `2026-12-01 02:00;4.${i % 10}`)),
  },
  {
    name: 'a clock ten years behind in some rows',
    becomes: { ready: 10, rejected: 2, because: ['stray-clock'] },
    bytes: rows('2016-12-01 02:00;4.8', '2016-12-01 02:10;4.8'),
  },
  {
    name: 'a clock ten years ahead',
    becomes: { ready: 0, rejected: 2, because: ['future'] },
    bytes: only('2036-12-01 02:00;4.8', '2036-12-01 02:10;4.8'),
  },
  {
    name: 'a clock that was never set',
    becomes: { ready: 0, rejected: 2, because: ['too-old'] },
    bytes: only('1970-01-01 00:00;4.8', '1970-01-01 00:10;4.8'),
  },
  {
    name: 'the hour the clock left out',
    becomes: { ready: 2, rejected: 1, because: ['no-such-time'], asks: ['zone'] },
    bytes: only('2026-03-29 00:30;4.8', '2026-03-29 01:30;4.7', '2026-03-29 02:30;4.6'),
  },
  { name: 'the last row cut', becomes: { ready: 9, rejected: 1, because: ['cut'] }, bytes: rows().slice(0, -8) },
  {
    name: 'rows of different widths',
    becomes: { ready: 11, rejected: 1, because: ['no-moment'] },
    bytes: rows('2026-12-01 02:00', '2026-12-01 02:10;4.8;9;9;9;9', ';;;;', ';4.9'),
  },
  {
    name: 'unquoted decimal commas in a comma table',
    becomes: { ready: 10, asks: ['decimalComma'], probes: ['Box', 'Lid'] },
    bytes: utf8(`Time,Box °C,Lid °C\n${times(5, (i) => `2026-12-01 0${i}:00,4,${i},3,${i}\n`).join('')}`),
  },
  {
    name: 'no column of temperatures',
    becomes: { refused: 'no-table' },
    bytes: utf8('Time;State\n2026-12-01 00:00;asleep\n2026-12-01 01:00;asleep\n'),
  },
  {
    name: 'no column of times',
    becomes: { refused: 'no-time' },
    bytes: utf8('Box °C;Lid °C\n4.8;4.9\n4.7;4.8\n4.6;4.7\n'),
  },
  {
    name: 'time elapsed from no start',
    becomes: { refused: 'no-readings' },
    bytes: utf8('Elapsed s;Temp °C\n0;4.8\n600;4.7\n1200;4.6\n'),
  },
  {
    name: 'time elapsed beyond all time',
    becomes: { ready: 3, rejected: 1, because: ['future'] },
    bytes: utf8('Start: 2026-12-01 00:00\nElapsed s;Temp °C\n0;4.8\n600;4.7\n1200;4.6\n9999999e90;4.5\n'),
  },
  {
    name: 'the highest under the lowest',
    becomes: { ready: 1, rejected: 1, because: ['extremes'] },
    bytes: utf8('Date;Max °C;Min °C\n2026-11-30;3,1;5,9\n2026-12-01;5,9;3,1\n'),
  },
  {
    name: 'the header again in the middle',
    becomes: { ready: 10 },
    bytes: utf8(HEAD + GOOD.slice(0, 5).join('') + HEAD + GOOD.slice(5).join('')),
  },
  {
    name: 'two exports joined with other columns',
    becomes: { refused: 'two-tables' },
    bytes: utf8(`${HEAD}${GOOD.join('')}Time;Humidity %;Box °C\n2026-12-02 00:00;80;4.8\n2026-12-02 01:00;81;4.9\n`),
  },
  {
    name: 'lines ended by a lone CR',
    becomes: { ready: 10 },
    bytes: utf8((HEAD + GOOD.join('')).replaceAll('\n', '\r')),
  },
  {
    name: 'a separator that is not there',
    becomes: { refused: 'no-table' },
    bytes: rows(),
    choices: { delimiter: '#' },
  },
  {
    name: 'a column chosen that is not there',
    becomes: { refused: 'no-temperature' },
    bytes: rows(),
    choices: { columns: { '7': 'temperature', '1': 'ignored' } },
  },
];
