import { describe, expect, it } from 'vitest';
import type { BoxDescription, BuildingPlace, RefrigeratorPlace } from '../../src/heat/description.ts';
import { buildPlace } from '../../src/heat/place.ts';
import { placePresets } from '../../src/heat/place-presets.ts';
import { atPlace, type Build, buildFrom, firstBuild, savedBox } from '../../src/web/builder/build.ts';
import { glassM2, movedPlace, toldLayers, withLining, withMain } from '../../src/web/builder/place-build.ts';

const first = firstBuild('2026-12-01', '2027-02-16');

describe('walls as a sentence tells them', () => {
  const brick = { material: 'brick', thicknessMm: 102.5 } as const;
  const foam = { material: 'polystyrene', thicknessMm: 50 } as const;
  const cavityWall = [brick, { material: 'cavity', thicknessMm: 200 }, foam] as const;

  it('are what is thickest of them, with insulation on the inner side as their lining', () => {
    expect(toldLayers([brick])).toEqual({ main: 0, lining: undefined });
    expect(toldLayers(cavityWall)).toEqual({ main: 0, lining: foam });
    // Insulation alone is no lining of anything.
    expect(toldLayers([foam])).toEqual({ main: 0, lining: undefined });
  });

  it('are lined, lined anew and not lined again, and keep their other layers', () => {
    expect(withLining([brick], 40)).toEqual([brick, { material: 'polystyrene', thicknessMm: 40 }]);
    expect(withLining(cavityWall, 80)).toEqual([...cavityWall.slice(0, 2), { ...foam, thicknessMm: 80 }]);
    expect(withLining(cavityWall, 80, 'mineral-wool').at(-1)).toEqual({ material: 'mineral-wool', thicknessMm: 80 });
    expect(withLining(cavityWall, 0)).toEqual(cavityWall.slice(0, 2));
  });

  it('keep measured values while the material stays, and not when it changes', () => {
    const measured = [{ ...brick, exact: { conductivityWmK: 0.6 } }];
    expect(withMain(measured, { thicknessMm: 215 })).toEqual([
      { material: 'brick', thicknessMm: 215, exact: { conductivityWmK: 0.6 } },
    ]);
    expect(withMain(measured, { material: 'stone' })).toEqual([{ material: 'stone', thicknessMm: 102.5 }]);
  });
});

describe('a saved place whose values move', () => {
  const place: BuildingPlace = {
    kind: 'building',
    preset: 'timber-shed',
    facingDeg: 90,
    airChangesPerHour: 2,
    tuning: { lossFactor: 1.2 },
  };
  const build: Build = { ...first, preset: 'timber-shed', facingDeg: 90 };

  it('keeps all that did not move, what a dry run taught too', () => {
    expect(movedPlace(place, build, { facingDeg: 180 })).toEqual({ ...place, facingDeg: 180 });
    expect(movedPlace(place, build, { wallMm: 60 })).toBe(place);
  });

  it('begins anew when it becomes another kind', () => {
    expect(movedPlace(place, build, { preset: 'cellar' })).toEqual({
      kind: 'building',
      preset: 'cellar',
      facingDeg: 90,
    });
    expect(movedPlace(place, build, { preset: 'refrigerator' })).toMatchObject({ kind: 'refrigerator' });
  });

  it('is a refrigerator whose measured values go with another size, and with no other change', () => {
    const fridge: RefrigeratorPlace = {
      kind: 'refrigerator',
      refrigerator: { preset: 'tall', fan: false, onAtC: 6, offAtC: 4, shelf: 'lower', ballastL: 4, lossWK: 1.1 },
      kitchenC: 17,
      doorsPerDay: 1,
    };
    const told = { ...first, ...atPlace({ id: 'x', description: fridge }, first) };
    const fan = movedPlace(fridge, told, { placeId: undefined, refrigerator: { ...told.refrigerator, fan: true } });
    expect(fan).toEqual({ ...fridge, refrigerator: { ...fridge.refrigerator, fan: true } });
    const size = movedPlace(fridge, told, { refrigerator: { ...told.refrigerator, preset: 'table-top' } });
    expect(size).toMatchObject({ refrigerator: { preset: 'table-top', ballastL: 4 } });
    expect(size).not.toHaveProperty('refrigerator.lossWK');
    expect(movedPlace(fridge, told, { coldBottles: 4 })).toMatchObject({ refrigerator: { ballastL: 6 }, kitchenC: 17 });
    expect(movedPlace(fridge, told, { kitchenC: 15 })).toEqual({ ...fridge, kitchenC: 15 });
  });

  it.each(Object.keys(placePresets) as (keyof typeof placePresets)[])(
    'tells as much glass of a usual %s as the heat rooms reckon with',
    (preset) => {
      const usual: BuildingPlace = { kind: 'building', preset };
      const area = glassM2(usual);
      // Said in so many words, the place is the same place.
      const said: BuildingPlace = { ...usual, glazing: { kind: placePresets[preset].glazing, areaM2: area } };
      expect(JSON.stringify(buildPlace(said, 5).network)).toBe(JSON.stringify(buildPlace(usual, 5).network));
    },
  );
});

describe('a saved box whose sentence moves', () => {
  const before: BoxDescription = {
    shells: [
      {
        insideLengthMm: 500,
        insideWidthMm: 400,
        insideHeightMm: 350,
        walls: [{ material: 'polystyrene', thicknessMm: 40 }],
        lid: [{ material: 'polystyrene', thicknessMm: 60 }],
        fill: 'straw',
      },
      {
        insideLengthMm: 301,
        insideWidthMm: 221,
        insideHeightMm: 191,
        walls: [{ material: 'cardboard', thicknessMm: 4 }],
      },
    ],
    ballast: [{ bottles: 5, litresEach: 1 }],
    stands: 'raised',
    tuning: { lossFactor: 0.9 },
  };
  const from = buildFrom(before, first) as Build;

  it('is what it was, to the millimetre, when nothing moved', () => {
    expect(savedBox(before, from, from)).toEqual({ ...before, animal: { massG: 900 }, probe: { at: 'beside-animal' } });
  });

  it('changes in the part that moved alone; what a dry run taught goes when the shells change', () => {
    const drier = savedBox(before, from, { ...from, beddingMm: 90 });
    expect(drier).toMatchObject({
      shells: before.shells,
      ballast: before.ballast,
      tuning: before.tuning,
      stands: 'raised',
    });
    expect(drier.bedding?.depthMm).toBe(90);
    const thicker = savedBox(before, from, { ...from, wallMm: 60 });
    expect(thicker.shells[0]).toMatchObject({
      walls: [{ material: 'polystyrene', thicknessMm: 60 }],
      lid: before.shells[0]?.lid,
    });
    expect(thicker).not.toHaveProperty('tuning');
    expect(thicker).toMatchObject({ ballast: before.ballast, stands: 'raised' });
  });
});
