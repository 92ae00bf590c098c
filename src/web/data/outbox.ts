import { useSyncExternalStore } from 'react';
import { v7 as uuidv7 } from 'uuid';
import { ask, Problem, type ProblemError } from './client.ts';
import { type Entry, shelves } from './store.ts';

/**
 * Entries made in the shed. Each is written to this device first and sent after, so that a reload, a dead battery or a
 * missing network loses nothing; the id made here lets the server keep it once however often it is sent.
 */
let entries: readonly Entry[] = [];
const listeners = new Set<() => void>();
const settled = new Set<(kinds: ReadonlySet<string>) => void>();
let sending: Promise<void> | undefined;

function show(next: readonly Entry[]) {
  entries = next;
  for (const listener of listeners) listener();
}

/** What the server says of each entry, in order. */
type BatchAnswer = readonly {
  readonly id: string;
  readonly state: 'saved' | 'already-there' | 'conflict' | 'refused';
  readonly problem?: { readonly title?: string; readonly detail?: string; readonly errors?: readonly ProblemError[] };
}[];

const MOST_AT_ONCE = 200;

/** Reads what an earlier visit left and starts sending whenever there may be a network. */
export async function openOutbox(onSettled: (kinds: ReadonlySet<string>) => void): Promise<void> {
  settled.add(onSettled);
  show(await (await shelves()).getAll('outbox'));
  addEventListener('online', () => void flush());
  document.addEventListener('visibilitychange', () => void flush());
  setInterval(() => void flush(), 20_000);
  await flush();
}

/** Keeps an entry and tries to send it. Resolves when it is on this device; the sending goes on by itself. */
export async function enter(kind: string, body: Record<string, unknown>, id: string = uuidv7()): Promise<string> {
  await keep({ id, kind, body: { id, ...body }, madeAtMs: Date.now() });
  return id;
}

/** Keeps on this device that a record is to be deleted, with the version of it that was seen. It can be taken back until it is sent. */
export const enterDeletion = (
  kind: string,
  record: { readonly id: string; readonly revision?: number },
): Promise<void> => keep({ id: record.id, kind, body: record, madeAtMs: Date.now(), deletes: true });

async function keep(entry: Entry): Promise<void> {
  await (await shelves()).put('outbox', entry);
  show([...entries.filter((one) => one.id !== entry.id), entry]);
  void flush();
}

/** What is sent of an entry: of a deletion only which record, and which version of it. */
function sent({ id, kind, body, deletes }: Entry) {
  if (!deletes) return { id, kind, body };
  const { revision } = body as { revision?: number };
  return { id, kind, body: { id, revision }, delete: true };
}

/** Takes back an entry that has not been sent, or was refused. False when it is no longer here. */
export async function takeBack(id: string): Promise<boolean> {
  const here = entries.some((entry) => entry.id === id);
  await (await shelves()).delete('outbox', id);
  show(entries.filter((entry) => entry.id !== id));
  return here;
}

export function flush(): Promise<void> {
  sending ??= send().finally(() => {
    sending = undefined;
  });
  return sending;
}

async function send(): Promise<void> {
  const waiting = entries.filter((entry) => !entry.refused).slice(0, MOST_AT_ONCE);
  if (waiting.length === 0) return;
  let answer: BatchAnswer;
  try {
    answer = await ask<BatchAnswer>('batch', {
      method: 'POST',
      body: waiting.map(sent),
    });
  } catch (problem) {
    // Refused as a whole (not signed in, too many): everything stays for the next try.
    if (problem instanceof Problem && problem.status < 500 && problem.status !== 401 && problem.status !== 429)
      await refuse(waiting, problem);
    return;
  }
  const db = await shelves();
  const kept = new Set<string>();
  const kinds = new Set<string>();
  for (const result of answer) {
    const entry = waiting.find((candidate) => candidate.id === result.id);
    if (!entry) continue;
    kinds.add(entry.kind);
    if (result.state === 'refused' || result.state === 'conflict') {
      const refused = {
        ...entry,
        refused: {
          detail: result.problem?.detail ?? result.problem?.title ?? '',
          errors: result.problem?.errors ?? [],
        },
      };
      await db.put('outbox', refused);
      show(entries.map((candidate) => (candidate.id === entry.id ? refused : candidate)));
    } else {
      await db.delete('outbox', entry.id);
      kept.add(entry.id);
    }
  }
  for (const listener of settled) listener(kinds);
  show(entries.filter((entry) => !kept.has(entry.id)));
}

async function refuse(waiting: readonly Entry[], problem: Problem) {
  const db = await shelves();
  for (const entry of waiting) {
    const refused = { ...entry, refused: { detail: problem.message, errors: problem.errors } };
    await db.put('outbox', refused);
    show(entries.map((candidate) => (candidate.id === entry.id ? refused : candidate)));
  }
}

/** What waits on this device, redrawn as it changes. */
export function useOutbox(): readonly Entry[] {
  return useSyncExternalStore(
    (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    () => entries,
  );
}
