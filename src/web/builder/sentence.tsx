import { type ReactNode, useState } from 'react';
import { say } from '../../wording/say.ts';
import { sayWith } from '../parts/text.tsx';
import { type Build, inRefrigerator } from './build.ts';
import { type SentenceProps, useMovables } from './movables.ts';
import { MovedValue, ValueEditor } from './moved-value.tsx';

/** The build told in two sentences whose underlined values move; one of them may be open beneath. */
export function Sentence({ build, places, onChange }: SentenceProps) {
  const [open, setOpen] = useState<string>();
  const [typed, setTyped] = useState<string>();
  const movables = useMovables({ build, places, onChange });
  const value = (id: keyof typeof movables) => {
    const movable = movables[id];
    return (
      <MovedValue
        of={movable}
        open={open === movable.id}
        onOpen={(text) => {
          setTyped(text);
          setOpen(open === movable.id && text === undefined ? undefined : movable.id);
        }}
      />
    );
  };
  const opened = Object.values(movables).find((movable) => movable.id === open);
  const editor = opened ? (
    <ValueEditor of={opened} typed={typed} onTyped={setTyped} onClose={() => setOpen(undefined)} />
  ) : null;
  const cold = inRefrigerator(build);
  const first = (cold ? firstWhenCold : firstInWeather).includes(open ?? '');
  return (
    <>
      <p id="moved-help" className="unseen">
        {say('web.builder.help')}
      </p>
      <p className="sentence">{cold ? <ColdFirst value={value} /> : <WeatherFirst value={value} build={build} />}</p>
      {first ? editor : null}
      <p className="sentence-more">{cold ? <ColdMore value={value} /> : <WeatherMore value={value} />}</p>
      {first ? null : editor}
      <p className="small soft no-print">{say('web.builder.hint')}</p>
    </>
  );
}

/** Values of the first sentence: their editor opens beneath it. */
const firstInWeather = ['wallMm', 'wallMaterial', 'bottles', 'fill', 'place', 'facing', 'from', 'to'];
const firstWhenCold = [
  'place',
  'innerMaterial',
  'innerLengthMm',
  'innerWidthMm',
  'innerHeightMm',
  'beddingMm',
  'bedding',
  'from',
  'to',
];

interface Told {
  readonly value: (id: keyof ReturnType<typeof useMovables>) => ReactNode;
}

function WeatherFirst({ value, build }: Told & { readonly build: Build }) {
  return sayWith('web.builder.sentence', {
    wall: value('wallMm'),
    material: value('wallMaterial'),
    water: value('bottles'),
    fill: value('fill'),
    place: build.placeId
      ? value('place')
      : sayWith('web.builder.placeFacing', { place: value('place'), facing: value('facing') }),
    from: value('from'),
    to: value('to'),
  });
}

function WeatherMore({ value }: Told) {
  return sayWith('web.builder.more', {
    fillMm: value('fillMm'),
    inner: value('innerMaterial'),
    length: value('innerLengthMm'),
    width: value('innerWidthMm'),
    height: value('innerHeightMm'),
    beddingMm: value('beddingMm'),
    bedding: value('bedding'),
    holes: value('holes'),
    hole: value('holeMm'),
    lid: value('lidFit'),
    animal: value('animalG'),
    probe: value('probeAt'),
  });
}

function ColdFirst({ value }: Told) {
  return sayWith('web.builder.sentence.cold', {
    place: value('place'),
    inner: value('innerMaterial'),
    length: value('innerLengthMm'),
    width: value('innerWidthMm'),
    height: value('innerHeightMm'),
    beddingMm: value('beddingMm'),
    bedding: value('bedding'),
    from: value('from'),
    to: value('to'),
  });
}

function ColdMore({ value }: Told) {
  return sayWith('web.builder.more.cold', {
    size: value('size'),
    fan: value('fan'),
    on: value('onAt'),
    off: value('offAt'),
    shelf: value('shelf'),
    coldWater: value('coldBottles'),
    doors: value('doors'),
    kitchen: value('kitchen'),
    kitchenSummer: value('kitchenSummer'),
    kitchenSwing: value('kitchenSwing'),
    holes: value('holes'),
    hole: value('holeMm'),
    lid: value('lidFit'),
    animal: value('animalG'),
    probe: value('probeAt'),
  });
}
