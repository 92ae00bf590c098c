import { describe, expect, it } from 'vitest';
import { importFile } from '../../../src/intake/csv/import.ts';
import type { ImportChoices } from '../../../src/schema/import.ts';
import { bytesOf, shapes } from './shapes.ts';

const nowMs = Date.parse('2027-02-01T12:00:00Z');

describe('files of readings in the conventions of many regions', () => {
  it('are at least sixty', () => expect(shapes.length).toBeGreaterThanOrEqual(60));

  it.each(shapes.map((shape) => [shape.name, shape] as const))('%s', async (_, shape) => {
    const bytes = bytesOf(shape);
    const result = await importFile(
      async function* () {
        // Small pieces, so that characters, lines and quotes are cut everywhere.
        for (let at = 0; at < bytes.length; at += 37) yield bytes.subarray(at, at + 37);
      },
      { zone: shape.zone ?? 'UTC', nowMs, probeName: 'Logger', choices: (shape.choices ?? {}) as ImportChoices },
    );
    const { preview } = result;
    expect(preview.questions.map((question) => question.choice)).toEqual(shape.asks ?? []);
    expect({ ready: preview.ready, rejected: preview.rejected }).toEqual({
      ready: shape.ready,
      rejected: shape.rejected ?? 0,
    });
    if (shape.first) {
      const first = preview.readings[0];
      expect(first?.at).toBe(shape.first[0]);
      expect(first?.tempC).toBeCloseTo(shape.first[1], 3);
    }
    if (shape.probes) expect(result.probes.map((probe) => probe.probe)).toEqual(shape.probes);
    if (shape.order) expect(preview.detected.dateOrder).toBe(shape.order);
    if (shape.unit) expect(preview.detected.unit).toBe(shape.unit);
    for (const probe of result.probes)
      for (let at = 1; at < probe.atMs.length; at += 1) expect(probe.atMs[at]!).toBeGreaterThan(probe.atMs[at - 1]!);
  });
});
