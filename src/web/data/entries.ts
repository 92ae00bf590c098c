import { useSyncExternalStore } from 'react';
import { ask, Unreachable } from './client.ts';
import { enter, enterDeletion, useOutbox } from './outbox.ts';
import { readAgain } from './queries.ts';
import { withWaiting } from './with-waiting.ts';

/** A record as the screens change it: its fields by name. */
export type AnyRecord = { readonly id: string; readonly revision?: number } & Readonly<Record<string, unknown>>;

const many = {
  animal: 'animals',
  measurement: 'measurements',
  examination: 'examinations',
  'health-event': 'health-events',
  diary: 'diary',
  place: 'places',
  box: 'boxes',
  stay: 'stays',
  probe: 'probes',
  'task-done': 'tasks-done',
  photograph: 'photographs',
  'gut-warmth': 'gut-warmth',
} as const;
export type KeptKind = keyof typeof many;

const underAnimal: ReadonlySet<KeptKind> = new Set([
  'measurement',
  'examination',
  'health-event',
  'diary',
  'photograph',
  'gut-warmth',
]);

const pathOf = (kind: KeptKind, record: AnyRecord) =>
  `${underAnimal.has(kind) ? `animals/${record.animalId}/` : ''}${many[kind]}/${record.id}`;

/** Reads again whatever a changed record may show in. */
const readAllAgain = () =>
  readAgain(
    'animals',
    'places',
    'boxes',
    'stays',
    'probes',
    'round',
    'notices',
    'deleted',
    'records',
    'photographs',
    'tasks-done',
  );

/** Keeps an edit: with the server, or on this device until there is a network. Throws Problem. */
export async function saveEntry(kind: KeptKind, record: AnyRecord): Promise<'saved' | 'waiting'> {
  try {
    await ask(pathOf(kind, record), { method: 'PUT', body: record });
  } catch (problem) {
    // Pictures have no place in the outbox; their words wait for the network.
    if (!(problem instanceof Unreachable) || kind === 'photograph') throw problem;
    await enter(kind, { ...record }, record.id);
    return 'waiting';
  }
  await readAllAgain();
  return 'saved';
}

interface Deleted {
  readonly kind: KeptKind;
  readonly record: AnyRecord;
  /** What it is, in the words of its line. */
  readonly what: string;
}

let last: Deleted | undefined;
const listeners = new Set<() => void>();
function show(next: Deleted | undefined) {
  last = next;
  for (const listener of listeners) listener();
}

/**
 * Deletes a record, with the server or on this device until there is a network; what was deleted last can be undone on whatever screen
 * follows. Throws Problem or Unreachable.
 */
export async function deleteEntry(deleted: Deleted): Promise<'deleted' | 'waiting'> {
  const { kind, record } = deleted;
  try {
    await ask(pathOf(kind, record), { method: 'DELETE' });
  } catch (problem) {
    // What has no line to say so on, and pictures, are deleted where there is a network.
    if (
      !(problem instanceof Unreachable) ||
      record.revision === undefined ||
      kind === 'animal' ||
      kind === 'photograph'
    )
      throw problem;
    await enterDeletion(kind, record);
    return 'waiting';
  }
  show(deleted);
  await readAllAgain();
  return 'deleted';
}

/** Brings a deleted record back. Throws Problem or Unreachable. */
export async function bringBack(kind: KeptKind, record: AnyRecord): Promise<void> {
  await ask(`${pathOf(kind, record)}/restore`, { method: 'POST' });
  if (last?.record.id === record.id) show(undefined);
  await readAllAgain();
}

/** What was deleted last on this screen or the one before; forgotten when it is brought back or put away. */
export function useLastDeleted(): Deleted | undefined {
  return useSyncExternalStore(
    (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    () => last,
  );
}
export const putAwayDeleted = () => show(undefined);

/**
 * Records as they will be: with what still waits on this device made, or changed, among them, and without what is to be deleted unless
 * that is asked for too, to be shown as such.
 */
export function useWithWaiting<T extends { id: string; animalId?: string }>(
  kind: KeptKind,
  animalId: string,
  kept: readonly T[],
  alsoDeleted = false,
): readonly T[] {
  return withWaiting(useOutbox(), kind, animalId, kept, alsoDeleted);
}
