import type { Problem } from '../schema/problems.ts';

/** Stable names of what can go wrong with records. Faces turn each into words and, over HTTP, into a status. */
export type RecordProblemType =
  | 'invalid'
  | 'not-found'
  | 'deleted'
  | 'id-in-use'
  | 'edit-conflict'
  | 'not-allowed'
  | 'too-late'
  | 'database-in-use'
  | 'database-damaged'
  | 'database-newer'
  | 'disk-full'
  | 'read-only-disk'
  | 'not-hibernating'
  | 'not-measured';

export class RecordProblem extends Error {
  readonly type: RecordProblemType;
  readonly problems: readonly Problem[];
  /** What is kept instead, for a conflict: the record as it stands. */
  readonly current: unknown;

  constructor(type: RecordProblemType, sentence: string, problems: readonly Problem[] = [], current?: unknown) {
    super(sentence);
    this.name = 'RecordProblem';
    this.type = type;
    this.problems = problems;
    this.current = current;
  }
}
