import { english } from '#wording';
import { figure, type LengthUnit, type TemperatureUnit } from '../measure/figures.ts';
import { celsiusToFahrenheit, mmToInches } from '../measure/units.ts';

/** Keys of the catalogue. A plural is written as two keys, `…_one` and `…_other`, and asked for without the ending. */
type Written = keyof typeof english;
export type MessageKey = Written extends infer K ? (K extends `${infer Stem}_${'one' | 'other'}` ? Stem : K) : never;

/** A sentence not yet put into words: knowledge returns these, faces say them in the reader's language. */
export interface Message {
  readonly key: MessageKey;
  readonly values?: Readonly<Record<string, string | number>>;
}

type Values = Readonly<Record<string, string | number | undefined>>;

/** Text is plain (each face escapes for itself), keys are flat. */
const catalogue = /* @__PURE__ */ new Map<string, string>(/* @__PURE__ */ Object.entries(english));
const plural = /* @__PURE__ */ new Intl.PluralRules('en');

/** Builds a message: `message('gate.mass.missing', {animal: 'Sedge'})`. `count` chooses between the plural forms. */
export function message(key: MessageKey, values?: Readonly<Record<string, string | number>>): Message {
  return values ? { key, values } : { key };
}

/** The sentence in words. Throws RangeError when the catalogue has no such key, so that no screen shows a bare key. */
export function say(key: MessageKey | Message, values?: Readonly<Record<string, string | number>>): string {
  const asked: { readonly key: string; readonly values?: Values | undefined } =
    typeof key === 'string' ? { key, values } : key;
  const words = wordsOf(asked.key, asked.values ?? {});
  if (words === undefined) throw new RangeError(`The catalogue has no wording for "${asked.key}"`);
  const told = inUnits(words, asked.values ?? {});
  return asked.values
    ? told.replace(/\{\{(\w+)\}\}/g, (_, name: string) => inTheirUnit(asked.values?.[name] ?? ''))
    : told;
}

function wordsOf(key: string, values: Values): string | undefined {
  return (
    (typeof values.count === 'number' ? catalogue.get(`${key}_${plural.select(values.count)}`) : undefined) ??
    catalogue.get(key)
  );
}

/** What the reader measures in. */
export interface ReaderUnits {
  readonly temperatureUnit: TemperatureUnit;
  readonly lengthUnit: LengthUnit;
}

let units: ReaderUnits = { temperatureUnit: 'C', lengthUnit: 'mm' };

/** From now on what sentences hold of themselves ("at 5 to 8 °C", "{{wall}} mm") is said in these units: on a page, which has one reader. */
export function speakIn({ temperatureUnit, lengthUnit }: ReaderUnits): void {
  units = { temperatureUnit, lengthUnit };
}

/** The same during one piece of work that waits for nothing, such as drawing a paper for one group. */
export function spokenIn<T>(reader: ReaderUnits, work: () => T): T {
  const before = units;
  speakIn(reader);
  try {
    return work();
  } finally {
    units = before;
  }
}

const fahrenheit = (tempC: string) => figure(celsiusToFahrenheit(Number(tempC.replace('\u2212', '-'))));

/** A value that is a temperature and nothing else: what the rooms of knowledge work out is in °C. */
function inTheirUnit(value: string | number): string {
  const written = units.temperatureUnit === 'F' ? /^(\u2212?\d+(?:\.(\d+))?)\u00a0°C$/.exec(String(value)) : null;
  if (!written) return String(value);
  const tempC = Number(written[1]?.replace('\u2212', '-'));
  return `${figure(celsiusToFahrenheit(tempC), written[2]?.length ?? 0)}\u00a0°F`;
}

function inUnits(words: string, values: Values): string {
  let told = words;
  if (units.temperatureUnit === 'F')
    told = told.replace(
      /(\u2212?\d+(?:\.\d+)?)(?:( to | or | and )(\u2212?\d+(?:\.\d+)?))?([ \u00a0])°C/g,
      (_, low: string, between: string | undefined, high: string, gap: string) =>
        `${fahrenheit(low)}${between ? between + fahrenheit(high) : ''}${gap}°F`,
    );
  // A sentence that speaks of millimetres by name asks for them.
  if (units.lengthUnit === 'in' && !/millimetres/i.test(words))
    told = told.replace(
      /((?:\{\{\w+\}\}(?: to | x ))*\{\{\w+\}\})([ \u00a0])mm\b/g,
      (written, lengths: string, gap: string) => {
        const names = [...lengths.matchAll(/\w+(?=\}\})/g)].map(([name]) => name);
        if (!names.every((name) => Number.isFinite(Number(values[name])))) return written;
        const inches = (_: string, name: string) => figure(mmToInches(Number(values[name])), 2).replace(/\.?0+$/, '');
        return `${lengths.replace(/\{\{(\w+)\}\}/g, inches)}${gap}in`;
      },
    );
  return told;
}

/** Whether the catalogue can say this by now. */
export const canSay = ({ key, values }: { readonly key: string; readonly values?: Values | undefined }): boolean =>
  wordsOf(key, values ?? {}) !== undefined;

/** Adds words to the catalogue: the screens begin with those of the first one and fetch the rest when it is wanted. */
export function addWords(words: Readonly<Record<string, string>>): void {
  for (const [key, text] of Object.entries(words)) catalogue.set(key, text);
}
