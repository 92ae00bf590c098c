import { describe, expect, it } from 'vitest';
import type { BuildingPlace } from '../../../src/heat/description.ts';
import { findModes, steadyGain } from '../../../src/heat/modes.ts';
import { buildPlace } from '../../../src/heat/place.ts';
import { placePresets } from '../../../src/heat/place-presets.ts';
import { airHeatCapacityJm3K } from '../../../src/heat/surfaces.ts';

/** The factor b of a place: the share of its steady temperature that does not come from its heated neighbour. The norm counts the ground with outdoors. */
function reductionFactor(place: BuildingPlace): number {
  const model = buildPlace(place, 5);
  return 1 - steadyGain(findModes(model.network), model.nodes.air, model.inputs.neighbour);
}
const bare = (preset: BuildingPlace['preset'], more: Partial<BuildingPlace> = {}): BuildingPlace => ({
  kind: 'building',
  preset,
  glazing: { kind: 'double', areaM2: 0 },
  ...more,
});

describe('temperature reduction factor of unheated spaces (EN 12831, German annex, as quoted in an open heat-loss repository)', () => {
  // 0.4 for one outside wall, 0.5 to 0.6 for two (without and with a door), 0.8 for three.
  it.each([
    [1, 0.4],
    [2, 0.55],
    [3, 0.8],
  ])('an unheated room with %i outside walls lies near b = %f', (outsideWalls, b) => {
    expect(Math.abs(reductionFactor(bare('unheated-room', { outsideWalls })) - b)).toBeLessThan(0.08);
  });
  it('more outside walls draw the room nearer to outdoors', () => {
    const shares = [1, 2, 3, 4].map((outsideWalls) => reductionFactor(bare('unheated-room', { outsideWalls })));
    expect(shares).toEqual([...shares].sort((a, b) => a - b));
  });
  it('a well ventilated roof space over an insulated ceiling is outdoors, b = 1, within the 0.9 K of the heat balance at 20 and 0 °C', () => {
    // The roof-space resistance of ISO 6946 (from memory) puts it 0.7 to 0.9 K above outdoors.
    const above = 20 * (1 - reductionFactor(bare('roof-space')));
    expect(above).toBeGreaterThan(0);
    expect(above).toBeLessThan(0.95);
  });
});

describe('air of unheated spaces', () => {
  it('holds 0.361 Wh/(m3 K) at 0 °C, 0.355 at 5 °C, 0.336 at 20 °C (own arithmetic on dry air at 101,325 Pa)', () => {
    expect(airHeatCapacityJm3K(0) / 3600).toBeCloseTo(0.361, 3);
    expect(airHeatCapacityJm3K(5) / 3600).toBeCloseTo(0.355, 3);
    expect(airHeatCapacityJm3K(20) / 3600).toBeCloseTo(0.336, 3);
  });
  // EN ISO 13789 (from memory): 0.1 sealed, 0.5 sealed joints, 1 small vents, 3 some open joints, 10 many open joints or large vents.
  it.each([
    ['cellar', 0.1, 0.5],
    ['brick-outbuilding', 0.5, 3],
    ['timber-shed', 1, 10],
    ['roof-space', 3, 10],
  ] as const)('%s starts inside the %f to %f changes an hour of EN ISO 13789', (preset, low, high) => {
    const { airChangesPerHour, airChangesRange } = placePresets[preset];
    expect(airChangesRange).toEqual([low, high]);
    expect(airChangesPerHour).toBeGreaterThanOrEqual(low);
    expect(airChangesPerHour).toBeLessThanOrEqual(high);
  });
});
