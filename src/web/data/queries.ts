import { QueryClient, queryOptions, useQuery } from '@tanstack/react-query';
import { type ReaderUnits, speakIn } from '../../wording/say.ts';
import { ask, Unreachable } from './client.ts';
import { shelves } from './store.ts';

export const queryClient = new QueryClient({
  defaultOptions: {
    // The browser's own idea of being online is wrong in a shed with a network and no server: always ask, then fall back.
    queries: { networkMode: 'always', retry: false, staleTime: 15_000, refetchOnWindowFocus: true },
  },
});

/** Answers read without network, by path, with the instant they were given. */
const remembered = new Map<string, number>();

async function askOrRemember<T>(path: string): Promise<T> {
  const answer = await askedOrRemembered<T>(path);
  // Sentences are said in the units of the group from before anything of it is drawn.
  if (path === 'group') speakIn(answer as ReaderUnits);
  return answer;
}

async function askedOrRemembered<T>(path: string): Promise<T> {
  try {
    const answer = await ask<T>(path);
    remembered.delete(path);
    void shelves()
      .then((db) => db.put('answers', { path, atMs: Date.now(), answer }))
      .catch(() => undefined);
    return answer;
  } catch (problem) {
    if (!(problem instanceof Unreachable)) throw problem;
    const kept = await shelves()
      .then((db) => db.get('answers', path))
      .catch(() => undefined);
    if (!kept) throw problem;
    remembered.set(path, kept.atMs);
    return kept.answer as T;
  }
}

/** When the answer now shown for `path` was given, if it had to be read from this device; otherwise undefined. */
export function rememberedSinceMs(path: string): number | undefined {
  return remembered.get(path);
}

export function reading<T>(path: string) {
  return queryOptions({ queryKey: path.split(/[/?]/), queryFn: () => askOrRemember<T>(path) });
}

export function useAnswer<T>(path: string, wanted = true) {
  return useQuery({ ...reading<T>(path), enabled: wanted });
}

/** Reads again everything under these first words of a path. */
export function readAgain(...starts: readonly string[]): Promise<unknown> {
  return Promise.all(starts.map((start) => queryClient.invalidateQueries({ queryKey: start.split('/') })));
}

/** Forgets every answer kept on this device: when a person signs out. */
export async function forgetAnswers(): Promise<void> {
  queryClient.clear();
  await (await shelves()).clear('answers');
}
