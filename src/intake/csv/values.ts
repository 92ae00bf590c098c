import { doubt } from '../plausible.ts';

/** What one cell of a temperature column says. */
export type CellUnit = 'C' | 'F' | 'K';

export type ValueCell =
  | { readonly kind: 'value'; readonly value: number; readonly unit?: CellUnit; readonly flag?: string }
  | { readonly kind: 'missing' }
  | { readonly kind: 'brackets' }
  | { readonly kind: 'text' };

const MISSING: ValueCell = { kind: 'missing' };
const TEXT: ValueCell = { kind: 'text' };
const BRACKETS: ValueCell = { kind: 'brackets' };

const missingWords = new Set([
  '',
  '-',
  '--',
  '---',
  '–',
  '—',
  'n/a',
  'na',
  '#n/a',
  'nan',
  'null',
  'none',
  'err',
  'error',
  'ol',
  'ofl',
  'open',
  'nc',
  'fault',
  'no data',
  'missing',
  '?',
  '.',
]);

const PLAIN = /^-?\d{1,5}(?:\.\d+)?$/;
const PLAIN_COMMA = /^-?\d{1,5},\d+$/;
// sign, digits, decimals by point or comma, exponent, sign behind, unit (with the degree sign as any page may have spoilt it), flag
const GENERAL =
  /^([<>≤≥]\s*)?([+\-\u2212\u2013]?)\s*(\d{1,7})(?:[.,](\d+))?(?:e([+-]?\d{1,2}))?\s*(-)?[\s\u00a0\u202f]*(?:(?:°|º|˚|deg\.?|â°|&deg;|\?|\ufffd|grad)?[\s\u00a0]*(c|f|k|celsius|fahrenheit|kelvin)|(℃)|(℉)|(°))?\s*([hl*!]|hi|lo|alarm)?$/i;

/** Reads a temperature cell. Unit, flag and number are kept apart; nothing is ever evaluated. */
export function readValue(cell: string): ValueCell {
  if (PLAIN.test(cell)) return { kind: 'value', value: Number(cell) };
  if (PLAIN_COMMA.test(cell)) return { kind: 'value', value: Number(cell.replace(',', '.')) };
  let text = cell.trim();
  if (text.startsWith('="') && text.endsWith('"')) text = text.slice(2, -1);
  if (text.startsWith("'")) text = text.slice(1);
  const lower = text.toLowerCase();
  if (missingWords.has(lower) || /^\*+$/.test(text)) return MISSING;
  if (/^\(\s*\d+(?:[.,]\d+)?\s*\)$/.test(text)) return BRACKETS;
  const match = GENERAL.exec(text.replaceAll('Â', 'â'));
  if (!match) return TEXT;
  const [, limit, sign = '', whole = '', decimals = '', exponent, behind, letter, celsius, fahrenheit, , mark] = match;
  const size = Number(`${whole}.${decimals || '0'}${exponent === undefined ? '' : `e${exponent}`}`);
  if (!Number.isFinite(size)) return TEXT;
  const negative = sign === '-' || sign === '\u2212' || sign === '\u2013' || behind === '-';
  const unit = celsius ? 'C' : fahrenheit ? 'F' : letter ? (letter.charAt(0).toUpperCase() as CellUnit) : undefined;
  const flag = limit ? limit.trim() : mark;
  return {
    kind: 'value',
    value: negative ? -size : size,
    ...(unit ? { unit } : {}),
    ...(flag ? { flag } : {}),
  };
}

/** Values that loggers and their libraries write in place of a reading that failed. */
const faultValues = new Set([
  -127, -999, -999.9, -9999, 9999, 999.9, 6553.5, 3276.7, -3276.8, 127.937, -0.062, -0.0625,
]);

export type Suspicion = 'fault-value' | 'power-on-value' | 'impossible';

/** Why a temperature cannot be taken as a reading; `undefined` when nothing speaks against it. °C, as converted. */
export function suspicion(tempC: number, asWritten: number): Suspicion | undefined {
  const why = doubt(tempC);
  // The same digits in tenths or thousandths of a degree are an ordinary reading.
  return faultValues.has(asWritten) && (why || tempC === asWritten) ? 'fault-value' : why;
}
