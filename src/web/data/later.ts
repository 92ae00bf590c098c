import { useEffect, useState } from 'react';
import { addWords, canSay, type Message } from '../../wording/say.ts';

let coming: Promise<void> | undefined;

/** Fetches the words of every screen but the first. A failed try is made again by whoever asks next. */
export function allWords(): Promise<void> {
  coming ??= import('../../wording/en/rest.ts').then(
    ({ rest }) => addWords(rest),
    (problem) => {
      coming = undefined;
      throw problem;
    },
  );
  return coming;
}

/** The same part, with its words: neither waits for the other. */
export const withWords =
  <T>(load: () => Promise<T>): (() => Promise<T>) =>
  () =>
    Promise.all([load(), allWords()]).then(([part]) => part);

const here = new Map<() => Promise<unknown>, unknown>();

/**
 * A part of a screen that is fetched with its words when it is first wanted; undefined until it is here. `load` must be the same
 * function each time. Without a network it stays undefined and is tried again when the part is next drawn.
 */
export function usePart<T extends object>(load: () => Promise<T>, wanted = true): T | undefined {
  const [part, setPart] = useState(() => here.get(load) as T | undefined);
  useEffect(() => {
    if (!wanted || part) return;
    let gone = false;
    withWords(load)().then(
      (arrived) => {
        here.set(load, arrived);
        if (!gone) setPart(arrived);
      },
      () => undefined,
    );
    return () => {
      gone = true;
    };
  }, [load, wanted, part]);
  return part;
}

/** Fetches the rest of the words if one of these messages needs them, and draws again then. */
export function useWordsFor(messages: readonly { readonly key: string; readonly values?: Message['values'] }[]): void {
  const short = !messages.every(canSay);
  const [, drawAgain] = useState(0);
  useEffect(() => {
    if (short)
      allWords().then(
        () => drawAgain((times) => times + 1),
        () => undefined,
      );
  }, [short]);
}
