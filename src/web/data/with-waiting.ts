import type { Entry } from './store.ts';

/** Records with what still waits on this device made or changed among them; without what is to be deleted, unless that is asked for too. */
export function withWaiting<T extends { id: string; animalId?: string }>(
  outbox: readonly Entry[],
  kind: string,
  animalId: string,
  kept: readonly T[],
  alsoDeleted = false,
): readonly T[] {
  const own = outbox.filter((entry) => entry.kind === kind && (entry.body as T).animalId === animalId);
  const made = own.filter((entry) => !entry.deletes).map((entry) => entry.body as T);
  // One that the server would not delete is there.
  const gone = new Set(own.filter((entry) => entry.deletes && !entry.refused).map((entry) => entry.id));
  const all = [...new Map([...kept, ...made].map((one) => [one.id, one])).values()];
  return alsoDeleted ? all : all.filter((one) => !gone.has(one.id));
}
