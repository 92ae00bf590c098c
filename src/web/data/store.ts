import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import type { ProblemError } from './client.ts';

/** An entry made on this device that the server has not yet confirmed. */
export interface Entry {
  /** UUIDv7 made here; the server keeps an entry once, however often it is sent. */
  readonly id: string;
  readonly kind: string;
  readonly body: unknown;
  readonly madeAtMs: number;
  /** What the server said against it. Such an entry waits for the keeper, not for the network. */
  readonly refused?: { readonly detail: string; readonly errors: readonly ProblemError[] };
}

interface Shelves extends DBSchema {
  outbox: { key: string; value: Entry };
  /** The last answer to each question that must be readable without network. */
  answers: { key: string; value: { path: string; atMs: number; answer: unknown } };
}

let opened: Promise<IDBPDatabase<Shelves>> | undefined;

export function shelves(): Promise<IDBPDatabase<Shelves>> {
  opened ??= openDB<Shelves>('stillwinter', 1, {
    upgrade(db) {
      db.createObjectStore('outbox', { keyPath: 'id' });
      db.createObjectStore('answers', { keyPath: 'path' });
    },
  });
  return opened;
}
