import { addDays, dayFromNumber, dayNumber } from '../../measure/day.ts';
import { say } from '../../wording/say.ts';
import { useFigures } from '../data/group.ts';
import { sayDay } from '../parts/dates.ts';
import {
  atPlace,
  type Build,
  beddings,
  facings,
  fills,
  holeDiameters,
  placeKinds,
  probePlaces,
  refrigeratorSizes,
  wallMaterials,
} from './build.ts';
import type { Movable } from './moved-value.tsx';
import type { SavedPlace } from './saved-places.ts';
import { useTheirUnits } from './their-units.ts';
import { wordFor } from './words.ts';

export interface SentenceProps {
  readonly build: Build;
  readonly places: readonly SavedPlace[];
  readonly onChange: (part: Partial<Build>) => void;
}

interface NumberOf {
  readonly id: string;
  readonly label: string;
  readonly at: number;
  readonly low: number;
  readonly high: number;
  readonly step: number;
  readonly unit: string;
  readonly set: (to: number) => void;
  readonly text?: string;
}

export const number = (of: NumberOf): Movable => ({
  ...of,
  text: of.text ?? `${of.at}\u00a0${of.unit}`,
  pageStep: of.step * 4,
  move: (to) => of.set(Math.round(to)),
});

export function words<V>(
  id: string,
  label: string,
  options: readonly V[],
  at: V,
  word: (option: V) => string,
  set: (option: V) => void,
): Movable {
  const index = Math.max(0, options.indexOf(at));
  return {
    id,
    label,
    text: word(at),
    at: index,
    low: 0,
    high: options.length - 1,
    step: 1,
    pageStep: 3,
    move: (to) => set(options[Math.round(to)] as V),
    words: options.map(word),
    pictures: options.map(String),
  };
}

/** Every value of a build that moves, by name. */
export function useMovables({ build, places, onChange }: SentenceProps) {
  const { today, mass, length, temperature, difference, temperatureUnit } = useFigures();
  const theirs = useTheirUnits();
  const mm = (id: keyof Build & `${string}Mm`, label: Movable['label'], low: number, high: number, step: number) =>
    theirs.mm({ id, label, at: build[id] as number, low, high, step, set: (to) => onChange({ [id]: to }) });
  const day = (id: 'fromDay' | 'toDay', label: string, name: string): Movable => {
    const middle = dayNumber(build[id]);
    return {
      id: name,
      label,
      text: sayDay(build[id], today),
      at: middle,
      low: middle - 200,
      high: middle + 200,
      step: 1,
      pageStep: 7,
      move: (to) => moveDay(id, dayFromNumber(Math.round(to))),
      day: { value: build[id], set: (to) => moveDay(id, to) },
    };
  };
  const moveDay = (id: 'fromDay' | 'toDay', to: string) => {
    const fromDay = id === 'fromDay' ? to : build.fromDay;
    const toDay = id === 'toDay' ? to : build.toDay;
    // A sleep lasts at least a week here and at most 180 days: the other end gives way.
    const nights = dayNumber(toDay) - dayNumber(fromDay);
    if (nights >= 7 && nights <= 180) onChange({ fromDay, toDay });
    else if (id === 'fromDay') onChange({ fromDay, toDay: addDays(fromDay, Math.max(7, Math.min(180, nights))) });
    else onChange({ toDay, fromDay: addDays(toDay, -Math.max(7, Math.min(180, nights))) });
  };
  const fahrenheit = temperatureUnit === '°F';
  const perKelvin = fahrenheit ? 9 / 5 : 1;
  const degrees = (
    id: string,
    label: string,
    atC: number,
    [lowC, highC]: readonly [number, number],
    set: (toC: number) => void,
  ): Movable => {
    const shown = (tempC: number) => (fahrenheit ? Math.round((tempC * 9) / 5 + 32) : tempC);
    return {
      id,
      label,
      text: temperature(atC),
      at: shown(atC),
      low: shown(lowC),
      high: shown(highC),
      step: fahrenheit ? 1 : 0.5,
      pageStep: fahrenheit ? 4 : 2,
      unit: temperatureUnit,
      move: (to) => set(fahrenheit ? ((to - 32) * 5) / 9 : Math.round(to * 2) / 2),
    };
  };
  const cold = build.refrigerator;
  // A saved refrigerator whose values move is another one.
  const setCold = (part: Partial<Build['refrigerator']>) =>
    onChange({ placeId: undefined, refrigerator: { ...cold, ...part } });
  const placeOptions = [...places.map((one) => one.id), ...placeKinds];
  const placeWord = (option: string) =>
    places.find((one) => one.id === option)?.name ?? wordFor.place(option as Build['preset']);
  return {
    wallMm: mm('wallMm', say('web.builder.wall'), 5, 150, 5),
    wallMaterial: words(
      'wallMaterial',
      say('web.builder.material'),
      wallMaterials,
      build.wallMaterial,
      wordFor.material,
      (wallMaterial) => onChange({ wallMaterial }),
    ),
    bottles: number({
      id: 'bottles',
      label: say('web.builder.water'),
      at: build.bottles,
      low: 0,
      high: 20,
      step: 1,
      unit: say('web.builder.bottles'),
      text:
        build.bottles === 0
          ? say('web.builder.noWater')
          : say('web.builder.waterText', { count: build.bottles * 1.5, litres: build.bottles * 1.5 }),
      set: (bottles) => onChange({ bottles }),
    }),
    fill: words('fill', say('web.builder.fill'), fills, build.fill, wordFor.fill, (fill) => onChange({ fill })),
    fillMm: mm('fillMm', say('web.builder.fillMm'), 10, 250, 10),
    place: words(
      'place',
      say('web.builder.place'),
      placeOptions,
      build.placeId ?? build.preset,
      placeWord,
      (option) => {
        const saved = places.find((one) => one.id === option);
        onChange(saved ? atPlace(saved, build) : { placeId: undefined, preset: option as Build['preset'] });
      },
    ),
    facing: words(
      'facing',
      say('web.builder.facing'),
      facings,
      facings.find((deg) => deg === build.facingDeg) ?? 0,
      wordFor.facing,
      (facingDeg) => onChange({ facingDeg }),
    ),
    from: day('fromDay', say('web.builder.from'), 'from'),
    to: day('toDay', say('web.builder.to'), 'to'),
    innerMaterial: words(
      'innerMaterial',
      say('web.builder.inner'),
      ['cardboard', 'plywood', 'plastic'] as const,
      build.innerMaterial,
      wordFor.inner,
      (innerMaterial) => onChange({ innerMaterial }),
    ),
    innerLengthMm: mm('innerLengthMm', say('web.builder.length'), 120, 700, 10),
    innerWidthMm: mm('innerWidthMm', say('web.builder.width'), 100, 500, 10),
    innerHeightMm: mm('innerHeightMm', say('web.builder.height'), 80, 400, 10),
    bedding: words('bedding', say('web.builder.bedding'), beddings, build.bedding, wordFor.bedding, (bedding) =>
      onChange({ bedding }),
    ),
    beddingMm: mm('beddingMm', say('web.builder.beddingMm'), 0, 200, 10),
    holes: number({
      id: 'holes',
      label: say('web.builder.holes'),
      at: build.holes,
      low: 0,
      high: 40,
      step: 1,
      unit: '',
      text: say('web.builder.holesText', { count: build.holes }),
      set: (holes) => onChange({ holes }),
    }),
    holeMm: words(
      'holeMm',
      say('web.builder.hole'),
      holeDiameters,
      holeDiameters.find((one) => one === build.holeMm) ?? 8,
      (diameterMm) => length(diameterMm),
      (holeMm) => onChange({ holeMm }),
    ),
    lidFit: words('lidFit', say('web.builder.lid'), ['tight', 'loose'] as const, build.lidFit, wordFor.lid, (lidFit) =>
      onChange({ lidFit }),
    ),
    probeAt: words('probeAt', say('web.builder.probe'), probePlaces, build.probeAt, wordFor.probe, (probeAt) =>
      onChange({ probeAt }),
    ),
    size: words('size', say('web.builder.size'), refrigeratorSizes, cold.preset, wordFor.refrigerator, (preset) =>
      setCold({ preset }),
    ),
    fan: words('fan', say('web.builder.fan'), [false, true] as const, cold.fan, wordFor.fan, (fan) => setCold({ fan })),
    // The compressor stops colder than it starts: the other end gives way.
    onAt: degrees('onAt', say('web.builder.on'), cold.onAtC, [1, 15], (onAtC) =>
      setCold({ onAtC, offAtC: Math.min(cold.offAtC, onAtC - 0.5) }),
    ),
    offAt: degrees('offAt', say('web.builder.off'), cold.offAtC, [0, 14], (offAtC) =>
      setCold({ offAtC, onAtC: Math.max(cold.onAtC, offAtC + 0.5) }),
    ),
    shelf: words('shelf', say('web.builder.shelf'), ['upper', 'lower'] as const, cold.shelf, wordFor.shelf, (shelf) =>
      setCold({ shelf }),
    ),
    coldBottles: number({
      id: 'coldBottles',
      label: say('web.builder.coldWater'),
      at: build.coldBottles,
      low: 0,
      high: 20,
      step: 1,
      unit: say('web.builder.bottles'),
      text:
        build.coldBottles === 0
          ? say('web.builder.noWater')
          : say('web.builder.waterText', { count: build.coldBottles * 1.5, litres: build.coldBottles * 1.5 }),
      set: (coldBottles) => onChange({ placeId: undefined, coldBottles }),
    }),
    doors: number({
      id: 'doors',
      label: say('web.builder.doors'),
      at: build.doorsPerDay,
      low: 0,
      high: 40,
      step: 1,
      unit: '',
      text: say('web.builder.doorsText', { count: build.doorsPerDay }),
      set: (doorsPerDay) => onChange({ placeId: undefined, doorsPerDay }),
    }),
    kitchen: degrees('kitchen', say('web.builder.kitchen'), build.kitchenC, [-5, 35], (kitchenC) =>
      onChange({ placeId: undefined, kitchenC }),
    ),
    kitchenSummer: degrees(
      'kitchenSummer',
      say('web.builder.kitchenSummer'),
      build.kitchenSummerC,
      [-5, 40],
      (kitchenSummerC) => onChange({ placeId: undefined, kitchenSummerC }),
    ),
    kitchenSwing: {
      id: 'kitchenSwing',
      label: say('web.builder.kitchenSwing'),
      text: difference(build.kitchenSwingK),
      at: Math.round(build.kitchenSwingK * perKelvin),
      low: 0,
      high: Math.round(12 * perKelvin),
      step: 1,
      pageStep: 3,
      unit: temperatureUnit,
      move: (to: number) => onChange({ placeId: undefined, kitchenSwingK: to / perKelvin }),
    },
    animalG: theirs.grams({
      id: 'animalG',
      label: say('web.builder.animal'),
      at: build.animalG,
      low: 20,
      high: 5000,
      step: 50,
      text: mass(build.animalG),
      set: (animalG) => onChange({ animalG }),
    }),
  };
}
