import { useState } from 'react';
import type { Photograph } from '../../schema/photograph.ts';
import { say } from '../../wording/say.ts';
import { sayDayYear } from '../parts/dates.ts';
import { Pick } from '../parts/field.tsx';
import { captionOf, pictureOf } from './picture.ts';

/** Two photographs beside each other, the oldest and the newest to begin with: a shell changes slowly. */
export function Compare({ list, name }: { readonly list: readonly Photograph[]; readonly name: string }) {
  const [open, setOpen] = useState(false);
  const [earlier, setEarlier] = useState<string>();
  const [later, setLater] = useState<string>();
  const find = (id: string | undefined) => list.find((one) => one.id === id);
  const pair = [find(earlier) ?? list.at(-1)!, find(later) ?? list[0]!] as const;
  const options = list.map((one) => ({
    value: one.id,
    label: [one.takenOn ? sayDayYear(one.takenOn) : say('web.photo.noDay'), one.note].filter(Boolean).join(': '),
  }));
  return (
    <details className="why plain-why" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{say('web.photo.compare')}</summary>
      {open ? (
        <div className="photo-pair">
          {pair.map((one, index) => (
            <figure key={index === 0 ? 'earlier' : 'later'}>
              <Pick
                label={say(index === 0 ? 'web.photo.earlier' : 'web.photo.later')}
                value={one.id}
                onChange={index === 0 ? setEarlier : setLater}
                options={options}
              />
              <img src={pictureOf(one, 'whole')} alt={captionOf(one, name)} className="photo" />
            </figure>
          ))}
        </div>
      ) : null}
    </details>
  );
}
