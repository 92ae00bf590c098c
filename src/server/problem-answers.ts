import { type DiskTrouble, diskTrouble } from '../records/disk.ts';
import { RecordProblem, type RecordProblemType } from '../records/problem.ts';
import type { Problem } from '../schema/problems.ts';
import { type MessageKey, say } from '../wording/say.ts';

/** Kinds of refusal and their HTTP status (RFC 9110). The `type` of an answer is the path `/problems/` and this name. */
export const PROBLEM_STATUS = {
  invalid: 422,
  'not-json': 400,
  'not-signed-in': 401,
  'not-allowed': 403,
  'not-found': 404,
  'no-group': 404,
  'no-such-route': 404,
  deleted: 410,
  'id-in-use': 409,
  'edit-conflict': 409,
  'too-late': 409,
  'too-large': 413,
  'wrong-content-type': 415,
  'wrong-host': 421,
  'not-hibernating': 422,
  'not-measured': 422,
  'too-many': 429,
  'database-in-use': 503,
  'database-damaged': 503,
  'database-newer': 503,
  'database-away': 503,
  'disk-full': 507,
  'read-only-disk': 507,
  unexpected: 500,
} as const satisfies Record<RecordProblemType | string, number>;
export type ProblemName = keyof typeof PROBLEM_STATUS;

/** Refused by the server itself; records have their own RecordProblem. */
export class Refusal extends Error {
  readonly problem: ProblemName;
  readonly errors: readonly Problem[];
  readonly retryAfterS: number | undefined;

  constructor(problem: ProblemName, sentence?: string, errors: readonly Problem[] = [], retryAfterS?: number) {
    super(sentence ?? say(`server.problem.${problem}` as MessageKey));
    this.problem = problem;
    this.errors = errors;
    this.retryAfterS = retryAfterS;
  }
}

/** Problem details (RFC 9457), with `errors` as where and what, and `current` for a conflict. */
export interface ProblemDetails {
  readonly type: string;
  readonly title: string;
  readonly status: number;
  readonly detail: string;
  readonly errors: readonly Problem[];
  readonly current?: unknown;
}

/** What any thrown thing becomes for the reader. What was not foreseen is told in general words only: no paths, no SQL. */
export function problemDetails(error: unknown): ProblemDetails {
  if (error instanceof Refusal) return details(error.problem, error.message, error.errors);
  if (error instanceof RecordProblem) {
    const made = details(error.type, error.message, error.problems);
    return error.current === undefined ? made : { ...made, current: error.current };
  }
  const known = trouble(error);
  return details(known, say(`server.problem.${known}`), []);
}

/** Of Node, and of PostgreSQL: shutting down or starting, lost, full, and a database that takes no connections just now. */
const AWAY_CODE =
  /^(ECONNREFUSED|ECONNRESET|ETIMEDOUT|EPIPE|EHOSTUNREACH|EHOSTDOWN|ENETUNREACH|ENOTFOUND|EAI_AGAIN|57P0[1235]|08|53300|55000)/;

/** Troubles of disk and network that a keeper can do something about. */
function trouble(error: unknown): DiskTrouble | 'database-away' | 'unexpected' {
  const ofDisk = diskTrouble(error);
  if (ofDisk) return ofDisk;
  const code = String((error as { code?: unknown } | undefined)?.code ?? '');
  const message = error instanceof Error ? error.message : '';
  if (
    AWAY_CODE.test(code) ||
    /^(Connection terminated|timeout exceeded when trying to connect|Client has encountered a connection error)/.test(
      message,
    )
  )
    return 'database-away';
  return 'unexpected';
}

function details(problem: ProblemName, detail: string, errors: readonly Problem[]): ProblemDetails {
  return {
    type: `/problems/${problem}`,
    title: say(`server.title.${problem}` as MessageKey),
    status: PROBLEM_STATUS[problem],
    detail,
    errors,
  };
}
