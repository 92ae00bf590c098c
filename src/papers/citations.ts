import type { Source } from '../measure/source.ts';

/** Sources of one paper, numbered in the order in which they are first named, and listed once at its end. */
export class Citations {
  readonly #numbers = new Map<string, number>();

  /** The mark that stands behind a sentence: "[3]". */
  mark(source: Pick<Source, 'cite' | 'note'>): string {
    const text = source.cite;
    let number = this.#numbers.get(text);
    if (number === undefined) {
      number = this.#numbers.size + 1;
      this.#numbers.set(text, number);
    }
    return `\u00a0[${number}]`;
  }

  get list(): readonly string[] {
    return [...this.#numbers.keys()];
  }
}
