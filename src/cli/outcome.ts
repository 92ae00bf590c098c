import type { Problem } from '../schema/problems.ts';

/** What a command has to say: one JSON document, the same in words, and whether the answer is yes. */
export interface Outcome {
  readonly json: unknown;
  readonly text: string;
  /** 0: done, or the answer is yes; 1: the answer is no. */
  readonly code: 0 | 1;
}

/** The input is wrong, or what was asked cannot be done: exit code 1, problem details (RFC 9457) with `--json`. */
export class Refusal extends Error {
  readonly title: string;
  readonly errors: readonly Problem[];

  constructor(title: string, errors: readonly Problem[], detail?: string) {
    super(detail ?? errors.map(({ where, what }) => `${where}: ${what}`).join('\n'));
    this.title = title;
    this.errors = errors;
  }
}

/** Called wrongly: exit code 2. */
export class UsageError extends Error {}
