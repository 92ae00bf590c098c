import { useSyncExternalStore } from 'react';
import { v7 as uuidv7 } from 'uuid';
import type { Day } from '../../measure/day.ts';
import { say } from '../../wording/say.ts';
import { readAgain } from './queries.ts';
import { type KeptPicture, shelves } from './store.ts';

/**
 * Photographs on their way to the server. Each is kept on this device, bytes and all, until the server has it: the entries of the
 * outbox are sent as one small message, pictures one after the other with their progress.
 */
interface Waiting extends Omit<KeptPicture, 'bytes'> {
  /** Address of the picture on this page. */
  readonly address: string;
  /** Share sent, 0 to 1, while it is being sent. */
  readonly sent?: number | undefined;
}

let waiting: readonly Waiting[] = [];
let opened: Promise<void> | undefined;
let sending: Promise<void> | undefined;
const listeners = new Set<() => void>();

function show(next: readonly Waiting[]) {
  waiting = next;
  for (const listener of listeners) listener();
}

const change = (id: string, part: Partial<Waiting>) =>
  show(waiting.map((one) => (one.id === id ? { ...one, ...part } : one)));

const shown = ({ bytes, ...about }: KeptPicture): Waiting => ({
  ...about,
  address: URL.createObjectURL(new Blob([bytes], { type: 'image/jpeg' })),
});

function open(): Promise<void> {
  opened ??= (async () => {
    show((await (await shelves()).getAll('pictures')).map(shown));
    addEventListener('online', () => void sendPictures());
    setInterval(() => void sendPictures(), 20_000);
    void sendPictures();
  })().catch(() => undefined);
  return opened;
}

/** Keeps a picture on this device and begins to send it. Resolves when it is kept here. */
export async function enterPicture(about: {
  readonly animalId: string;
  readonly takenOn: Day;
  readonly note?: string;
  readonly image: Blob;
}): Promise<void> {
  await open();
  const { image, ...rest } = about;
  const kept: KeptPicture = { ...rest, id: uuidv7(), bytes: await image.arrayBuffer(), madeAtMs: Date.now() };
  await (await shelves()).put('pictures', kept);
  show([...waiting, shown(kept)]);
  void sendPictures();
}

/** Lets go of a picture that has not been sent. */
export async function dropPicture(id: string): Promise<void> {
  await (await shelves()).delete('pictures', id);
  const gone = waiting.find((one) => one.id === id);
  if (gone) URL.revokeObjectURL(gone.address);
  show(waiting.filter((one) => one.id !== id));
}

/** Sends what waits; with an identifier also that one again which was refused. */
export function sendPictures(again?: string): Promise<void> {
  if (again) change(again, { refused: undefined });
  sending ??= sendAll().finally(() => {
    sending = undefined;
  });
  return sending;
}

async function sendAll(): Promise<void> {
  for (;;) {
    const next = waiting.find((one) => !one.refused);
    const kept = next && (await (await shelves()).get('pictures', next.id));
    if (!kept) return;
    const answer = await post(kept, (sent) => change(kept.id, { sent }));
    change(kept.id, { sent: undefined });
    if (answer === 'away') return;
    if (answer === 'kept') {
      await readAgain(`animals/${kept.animalId}/photographs`, 'photographs');
      await dropPicture(kept.id);
    } else {
      await (await shelves()).put('pictures', { ...kept, refused: answer.refused });
      change(kept.id, answer);
    }
  }
}

/** Sends one picture. `away`: there was no answer, or none about the picture; it is tried again later. */
function post(
  kept: KeptPicture,
  onSent: (share: number) => void,
): Promise<'kept' | 'away' | { readonly refused: string }> {
  const query = new URLSearchParams({ id: kept.id, takenOn: kept.takenOn, ...(kept.note ? { note: kept.note } : {}) });
  return new Promise((resolve) => {
    // The fetch of browsers cannot tell how much of a body has gone out.
    const request = new XMLHttpRequest();
    request.open('POST', `/api/v1/animals/${kept.animalId}/photographs?${query}`);
    request.setRequestHeader('content-type', 'image/jpeg');
    request.upload.onprogress = ({ loaded, total }) => onSent(total > 0 ? loaded / total : 0);
    request.onerror = () => resolve('away');
    request.onload = () => {
      const { status } = request;
      if (status < 300) resolve('kept');
      else if (status >= 500 || status === 401 || status === 429) resolve('away');
      else resolve({ refused: detailOf(request.responseText) });
    };
    request.send(kept.bytes);
  });
}

function detailOf(text: string): string {
  try {
    return (JSON.parse(text) as { detail?: string }).detail || say('web.error.refused');
  } catch {
    return say('web.error.refused');
  }
}

/** Pictures of one animal that wait on this device, oldest first. */
export function useWaitingPictures(animalId: string): readonly Waiting[] {
  return useSyncExternalStore(
    (listener) => {
      listeners.add(listener);
      void open();
      return () => listeners.delete(listener);
    },
    () => waiting,
  ).filter((one) => one.animalId === animalId);
}
