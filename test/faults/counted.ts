import { appendFileSync } from 'node:fs';

/** How many more times a fault is made than once: the proof `faults` asks for several. */
export const MORE = { repeats: Number(process.env.STILLWINTER_FAULT_REPEATS ?? 0) };

/** Faults of the table, and what each is made by. */
export type Fault =
  | 'killed'
  | 'disk-full'
  | 'disk-full-real'
  | 'read-only-at-start'
  | 'read-only-real'
  | 'read-only-disk'
  | 'damaged-whole'
  | 'damaged-pages'
  | 'clock-back'
  | 'one-folder'
  | 'database-away'
  | 'database-away-a-minute'
  | 'broker-killed'
  | 'intake-killed';

export interface FaultCount {
  readonly fault: Fault;
  /** How often the fault was made. */
  readonly times: number;
  /** What was found, by name; summed over all runs. */
  readonly found: Readonly<Record<string, number>>;
}

/** Notes what a test found, after its last expectation, for the table that `npm run prove -- faults` makes. */
export function counted(fault: Fault, times: number, found: FaultCount['found']): void {
  const file = process.env.STILLWINTER_FAULT_COUNTS;
  if (file) appendFileSync(file, `${JSON.stringify({ fault, times, found } satisfies FaultCount)}\n`);
}
