import i18next from 'i18next';
import { english } from './en/index.ts';

/** Keys of the catalogue. A plural is written as two keys, `…_one` and `…_other`, and asked for without the ending. */
type Written = keyof typeof english;
export type MessageKey = Written extends infer K ? (K extends `${infer Stem}_${'one' | 'other'}` ? Stem : K) : never;

/** A sentence not yet put into words: knowledge returns these, faces say them in the reader's language. */
export interface Message {
  readonly key: MessageKey;
  readonly values?: Readonly<Record<string, string | number>>;
}

/** One catalogue of its own: text is plain (each face escapes for itself), keys are flat. */
const catalogue = i18next.createInstance();
void catalogue.init({
  lng: 'en',
  fallbackLng: 'en',
  resources: { en: { translation: english } },
  keySeparator: false,
  nsSeparator: false,
  initAsync: false,
  interpolation: { escapeValue: false },
});

/** Builds a message: `message('gate.mass.missing', {animal: 'Sedge'})`. `count` chooses between the plural forms. */
export function message(key: MessageKey, values?: Readonly<Record<string, string | number>>): Message {
  return values ? { key, values } : { key };
}

/** The sentence in words. Throws RangeError when the catalogue has no such key, so that no screen shows a bare key. */
export function say(key: MessageKey | Message, values?: Readonly<Record<string, string | number>>): string {
  const asked = typeof key === 'string' ? { key, values } : key;
  const options = asked.values ?? {};
  if (!catalogue.exists(asked.key, options)) throw new RangeError(`The catalogue has no wording for "${asked.key}"`);
  return catalogue.t(asked.key, options);
}
