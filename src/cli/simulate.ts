import type { Outcome } from './outcome.ts';

export async function simulateCommand(_file: string): Promise<Outcome> {
  throw new Error('not yet');
}
