import { useState } from 'react';
import type { PlaceDescription } from '../../heat/description.ts';
import { say } from '../../wording/say.ts';
import { sayWith } from '../parts/text.tsx';
import type { Build } from './build.ts';
import { useMovables } from './movables.ts';
import { type Movable, MovedValue, ValueEditor } from './moved-value.tsx';
import { movedPlace } from './place-build.ts';
import { useBuildingMovables } from './place-movables.ts';

interface PlaceSentenceProps {
  readonly place: Exclude<PlaceDescription, { kind: 'readings' }>;
  /** The same place as the builder's sentence tells it. */
  readonly build: Build;
  readonly onChange: (place: PlaceDescription) => void;
}

/** A place told in sentences whose underlined values move. */
export function PlaceSentence({ place, build, onChange }: PlaceSentenceProps) {
  const [open, setOpen] = useState<string>();
  const [typed, setTyped] = useState<string>();
  const building = place.kind === 'building' ? place : undefined;
  const shared = useMovables({ build, places: [], onChange: (part) => onChange(movedPlace(place, build, part)) });
  const own = useBuildingMovables(building, (part) => building && onChange({ ...building, ...part }));
  const movables: Readonly<Record<string, Movable>> = { ...shared, ...own };
  const told = (names: readonly string[]) =>
    Object.fromEntries(
      names.map((name) => {
        const movable = movables[name];
        return [
          name,
          movable ? (
            <MovedValue
              key={movable.id}
              of={movable}
              open={open === movable.id}
              onOpen={(text) => {
                setTyped(text);
                setOpen(open === movable.id && text === undefined ? undefined : movable.id);
              }}
            />
          ) : null,
        ];
      }),
    );
  const has = (name: string) => movables[name] !== undefined;
  const first = building
    ? ['place', 'facing', 'lengthM', 'widthM', 'heightM']
    : ['place', 'size', 'fan', 'onAt', 'offAt'];
  const opened = Object.values(movables).find((movable) => movable.id === open);
  const editor = opened ? (
    <ValueEditor of={opened} typed={typed} onTyped={setTyped} onClose={() => setOpen(undefined)} />
  ) : null;
  const isFirst = first.some((name) => movables[name]?.id === open);
  return (
    <>
      <p id="moved-help" className="unseen">
        {say('web.builder.help')}
      </p>
      <p className="sentence">{sayWith(building ? 'web.place.first' : 'web.place.first.cold', told(first))}</p>
      {isFirst ? editor : null}
      <p className="sentence-more">
        {building ? (
          <>
            {sayWith(
              has('outside') ? 'web.place.walls' : 'web.place.wallsInGround',
              told(['wallMm', 'wallStuff', 'wallsLining', 'outside']),
            )}{' '}
            {has('wallsLiningStuff') ? (
              <>{sayWith('web.place.liningIs', { stuff: told(['wallsLiningStuff']).wallsLiningStuff })} </>
            ) : null}
            {has('roofLining') ? <>{sayWith('web.place.roof', told(['roofLining']))} </> : null}
            {has('roofLiningStuff') ? (
              <>{sayWith('web.place.liningIs', { stuff: told(['roofLiningStuff']).roofLiningStuff })} </>
            ) : null}
            {sayWith(has('glazing') ? 'web.place.light' : 'web.place.dark', told(['glass', 'glazing']))}{' '}
            {sayWith('web.place.more', told(['air', 'contents', 'sun']))}{' '}
            {has('depthM') ? <>{sayWith('web.place.depth', told(['depthM']))} </> : null}
            {has('neighbour') ? sayWith('web.place.house', told(['neighbour'])) : null}
          </>
        ) : (
          sayWith(
            'web.place.more.cold',
            told(['shelf', 'coldBottles', 'doors', 'kitchen', 'kitchenSummer', 'kitchenSwing']),
          )
        )}
      </p>
      {isFirst ? null : editor}
      <p className="small soft no-print">{say('web.place.hint')}</p>
    </>
  );
}
