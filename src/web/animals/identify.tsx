import { useState } from 'react';
import { identify } from '../../tortoise/key.ts';
import { CHARACTERS, type Character, type Seen } from '../../tortoise/key-table.ts';
import { type MessageKey, say } from '../../wording/say.ts';
import { Choice } from '../parts/field.tsx';
import { SourceLine, Why } from '../parts/text.tsx';
import { englishName } from './about.ts';

const characters = Object.keys(CHARACTERS) as Character[];
const MOST_TOLD = 6;

/** The key on characters a keeper can see: what remains possible, and what would separate it. */
export function Identify({ onCertain }: { readonly onCertain: (taxon: string) => void }) {
  const [seen, setSeen] = useState<Seen>({});
  const found = identify(seen);
  const looked = characters.filter((character) => seen[character] !== undefined);
  // The most telling questions come first; those answered stay where they can be changed.
  const order = [...looked, ...found.separating, ...characters].filter(
    (character, index, all) => all.indexOf(character) === index,
  );
  return (
    <div>
      <div role="status" className="note">
        {looked.length === 0 ? <p>{say('web.key.begin')}</p> : null}
        {found.reasons.map((reason) => (
          <p key={reason.key}>{say(reason)}</p>
        ))}
        {looked.length > 0 ? (
          <p>
            {say('web.key.possible', {
              list: found.possible
                .slice(0, MOST_TOLD)
                .map((one) => one.taxon)
                .join(', '),
            })}
            {found.possible.length > MOST_TOLD
              ? ` ${say('web.key.more', { count: found.possible.length - MOST_TOLD })}`
              : ''}
          </p>
        ) : null}
        {found.certain && englishName(found.certain) ? (
          <button type="button" className="button" onClick={() => onCertain(found.certain as string)}>
            {say('web.key.take', { taxon: found.certain })}
          </button>
        ) : null}
        {looked.length > 0 ? (
          <Why>
            {found.possible.slice(0, MOST_TOLD).map((one) => (
              <div key={one.taxon}>
                <p>
                  <em>{one.taxon}</em>: {Math.round(one.share * 100)} %
                </p>
                <SourceLine source={one.source} />
              </div>
            ))}
          </Why>
        ) : null}
      </div>
      {order.map((character) => (
        <Choice
          key={character}
          label={say(`tortoise.key.ask.${character}`)}
          value={seen[character] ?? ''}
          onChange={(answer) => setSeen({ ...seen, [character]: answer === '' ? undefined : answer })}
          options={[
            ...CHARACTERS[character].map((answer) => ({
              value: answer as string,
              label: say(`tortoise.key.answer.${character}.${answer}` as MessageKey),
            })),
            { value: '', label: say('web.exam.notLooked') },
          ]}
        />
      ))}
    </div>
  );
}
