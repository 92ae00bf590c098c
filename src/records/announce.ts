import type { Database } from './database.ts';
import type { EntryKindName } from './kinds.ts';

/** Something that has just been recorded, told after it is durable. */
export type Announcement =
  | { readonly kind: 'readings'; readonly probeIds: readonly string[]; readonly fromMs: number }
  | { readonly kind: 'batteries'; readonly probeIds: readonly string[] }
  | { readonly kind: EntryKindName; readonly animalId?: string; readonly entry?: string };

type Listener = (announcement: Announcement) => void;
const listeners = new WeakMap<Database['kysely'], Set<Listener>>();

/** Hears of everything recorded through this process. Returns how to stop. */
export function onRecorded(database: Database, listener: Listener): () => void {
  const all = listeners.get(database.kysely) ?? new Set();
  listeners.set(database.kysely, all);
  all.add(listener);
  return () => all.delete(listener);
}

export function announce(database: Database, announcement: Announcement): void {
  for (const listener of listeners.get(database.kysely) ?? []) listener(announcement);
}

/** Announces an entered record: what kind it is and which animal it is about. */
export function announceEntry(database: Database, kind: EntryKindName, thing: object): void {
  const { animalId, kind: entry } = thing as { animalId?: string; kind?: string };
  announce(database, {
    kind,
    ...(animalId === undefined ? {} : { animalId }),
    ...(entry === undefined ? {} : { entry }),
  });
}
