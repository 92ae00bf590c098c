import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import type { ProblemError } from './client.ts';

/** An entry made on this device that the server has not yet confirmed. */
export interface Entry {
  /** UUIDv7 made here; the server keeps an entry once, however often it is sent. */
  readonly id: string;
  readonly kind: string;
  readonly body: unknown;
  readonly madeAtMs: number;
  /** The record in the body is to be deleted. */
  readonly deletes?: true;
  /** What the server said against it. Such an entry waits for the keeper, not for the network. */
  readonly refused?: { readonly detail: string; readonly errors: readonly ProblemError[] };
}

/** A photograph taken on this device that the server has not yet confirmed. */
export interface KeptPicture {
  readonly id: string;
  readonly animalId: string;
  readonly takenOn: string;
  readonly note?: string;
  /** The picture, made anew as JPEG on this device. */
  readonly bytes: ArrayBuffer;
  readonly madeAtMs: number;
  /** What the server said against it. */
  readonly refused?: string | undefined;
}

interface Shelves extends DBSchema {
  outbox: { key: string; value: Entry };
  pictures: { key: string; value: KeptPicture };
  /** The last answer to each question that must be readable without network. */
  answers: { key: string; value: { path: string; atMs: number; answer: unknown } };
}

let opened: Promise<IDBPDatabase<Shelves>> | undefined;

export function shelves(): Promise<IDBPDatabase<Shelves>> {
  opened ??= openDB<Shelves>('stillwinter', 2, {
    upgrade(db, before) {
      if (before < 1) {
        db.createObjectStore('outbox', { keyPath: 'id' });
        db.createObjectStore('answers', { keyPath: 'path' });
      }
      if (before < 2) db.createObjectStore('pictures', { keyPath: 'id' });
    },
    // Another window of a newer version waits for this one to let go.
    blocking: (_now, _next, event) => (event.target as IDBDatabase).close(),
  });
  return opened;
}
