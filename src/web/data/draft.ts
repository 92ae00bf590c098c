import { useCallback, useState } from 'react';

/** Form values kept on this device while they are typed, so that a reload or a wrong turn loses nothing. */
export function useDraft<T extends object>(name: string, initial: T): [T, (change: Partial<T>) => void, () => void] {
  const key = `draft:${name}`;
  const [values, setValues] = useState<T>(() => {
    try {
      const kept = localStorage.getItem(key);
      return kept ? { ...initial, ...(JSON.parse(kept) as Partial<T>) } : initial;
    } catch {
      return initial;
    }
  });
  const change = useCallback(
    (part: Partial<T>) =>
      setValues((before) => {
        const next = { ...before, ...part };
        try {
          localStorage.setItem(key, JSON.stringify(next));
        } catch {
          // A full or forbidden store only costs the draft.
        }
        return next;
      }),
    [key],
  );
  const done = useCallback(() => {
    localStorage.removeItem(key);
    setValues(initial);
  }, [key, initial]);
  return [values, change, done];
}
