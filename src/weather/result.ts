import type { Message } from '../wording/say.ts';

/** What is wrong in something that was handed in: where (a line, a field) and what, with what to do about it. */
export interface WeatherProblem {
  readonly where: Message;
  readonly what: Message;
}

/** All or nothing: the whole value, or every problem found and no value. */
export type WeatherResult<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problems: readonly WeatherProblem[] };
