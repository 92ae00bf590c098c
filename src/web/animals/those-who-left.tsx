import { useState } from 'react';
import type { Animal } from '../../schema/animal.ts';
import { say } from '../../wording/say.ts';
import { hasLeft, thoseHere } from './whereabouts.ts';

/** The animals that are here; with the button, those that died or left after them. */
export function useThoseHere(all: readonly Animal[]): {
  readonly shown: readonly Animal[];
  readonly button: React.ReactNode;
} {
  const [open, setOpen] = useState(false);
  const here = thoseHere(all);
  const left = all.filter(hasLeft);
  return {
    shown: open ? [...here, ...left] : here,
    button:
      left.length === 0 ? null : (
        <button type="button" className="button" data-kind="quiet" aria-expanded={open} onClick={() => setOpen(!open)}>
          {open ? say('web.left.hide') : say('web.left.show', { count: left.length })}
        </button>
      ),
  };
}
