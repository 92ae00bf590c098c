import { english } from '#wording';

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
  return asked.values
    ? words.replace(/\{\{(\w+)\}\}/g, (_, name: string) => String(asked.values?.[name] ?? ''))
    : words;
}

function wordsOf(key: string, values: Values): string | undefined {
  return (
    (typeof values.count === 'number' ? catalogue.get(`${key}_${plural.select(values.count)}`) : undefined) ??
    catalogue.get(key)
  );
}

/** Whether the catalogue can say this by now. */
export const canSay = ({ key, values }: { readonly key: string; readonly values?: Values | undefined }): boolean =>
  wordsOf(key, values ?? {}) !== undefined;

/** Adds words to the catalogue: the screens begin with those of the first one and fetch the rest when it is wanted. */
export function addWords(words: Readonly<Record<string, string>>): void {
  for (const [key, text] of Object.entries(words)) catalogue.set(key, text);
}
