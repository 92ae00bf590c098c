import { say } from '../../wording/say.ts';

/** One thing that is wrong with what was sent: `where` is the field's path, `what` a sentence for the keeper. */
export interface ProblemError {
  readonly where: string;
  readonly what: string;
}

/** The server's answer when it refuses (problem details, RFC 9457). */
export class Problem extends Error {
  readonly status: number;
  readonly title: string;
  readonly errors: readonly ProblemError[];
  constructor(status: number, title: string, detail: string, errors: readonly ProblemError[]) {
    super(detail || title);
    this.status = status;
    this.title = title;
    this.errors = errors;
  }
}

/** No answer came at all: no network, or no server behind it. */
export class Unreachable extends Error {
  constructor() {
    super(say('web.error.unreachable'));
  }
}

const PATIENCE_MS = 15_000;

/** What `early.ts` asked for before the screens were here; each answer is used once, and only if it is one. */
async function takeEarly(path: string): Promise<Response | undefined> {
  const { early } = globalThis as { early?: Map<string, Promise<Response>> };
  const asked = early?.get(path);
  early?.delete(path);
  const answer = await asked?.catch(() => undefined);
  return answer?.ok ? answer : undefined;
}

/** Asks the server. `path` starts after `/api/v1/`. Throws Problem or Unreachable. */
export async function ask<T>(path: string, send?: { method: 'POST' | 'PUT' | 'PATCH' | 'DELETE'; body?: unknown }) {
  let response = send ? undefined : await takeEarly(path);
  try {
    response ??= await fetch(`/api/v1/${path}`, {
      method: send?.method ?? 'GET',
      headers: send?.body === undefined ? {} : { 'content-type': 'application/json' },
      ...(send?.body === undefined ? {} : { body: JSON.stringify(send.body) }),
      signal: AbortSignal.timeout(PATIENCE_MS),
    });
  } catch {
    throw new Unreachable();
  }
  const text = await response.text();
  const json = read(text);
  if (response.ok) return json as T;
  const problem = (json ?? {}) as { title?: string; detail?: string; errors?: ProblemError[] };
  // A gateway that answers for a server which is gone is the same to the keeper as no answer.
  if (!problem.title && response.status >= 502) throw new Unreachable();
  throw new Problem(
    response.status,
    problem.title ?? say('web.error.refused'),
    problem.detail ?? '',
    Array.isArray(problem.errors) ? problem.errors : [],
  );
}

function read(text: string): unknown {
  if (text === '') return undefined;
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}
