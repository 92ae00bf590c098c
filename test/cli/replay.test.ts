import { describe, expect, it } from 'vitest';
import { stillwinter, stillwinterJson } from './stillwinter.ts';

const startMs = Date.parse('2025-12-01T00:00:00Z');
const at = (hours: number) => new Date(startMs + hours * 3_600_000).toISOString();

/** Five days at 5 °C by the hour with a frost of six hours in the third night; weighed at both ends. */
const winter = {
  from: at(0),
  startMassG: 1240,
  expectedIntervalS: 3600,
  readings: Array.from({ length: 121 }, (_, h) => ({ at: at(h), tempC: h >= 60 && h < 66 ? -0.5 : 5 })),
  weighIns: [
    { at: at(0), massG: 1240 },
    { at: at(120), massG: 1238 },
  ],
  diary: [],
};

describe('stillwinter replay', () => {
  it('says the frost at the reading that showed it, and when it was over', async () => {
    const { code, json } = await stillwinterJson(['replay', '-'], JSON.stringify(winter));
    expect(code).toBe(0);
    const { lines, counts } = json as {
      lines: { at: string; ruleId?: string; kind: string; say: string }[];
      counts: Record<string, number>;
    };
    const frost = lines.filter((line) => line.ruleId === 'frost');
    expect(frost.map((line) => line.kind)).toEqual(['begins', 'ends']);
    expect(Date.parse(frost[0]!.at)).toBe(startMs + 60 * 3_600_000);
    expect(counts['act-now']).toBeGreaterThanOrEqual(1);
    for (const line of lines) expect(line.say.length).toBeGreaterThan(10);
  });

  it('prints the same in words', async () => {
    const ran = await stillwinter(['replay', '-'], JSON.stringify(winter));
    expect(ran.stdout).toContain('act now');
    expect(ran.stdout).toContain('2025-12-03 12:00');
  });

  it('readings out of order are refused with their place', async () => {
    const readings = [winter.readings[1], winter.readings[0]];
    const { code, json } = await stillwinterJson(['replay', '-'], JSON.stringify({ ...winter, readings }));
    expect(code).toBe(1);
    expect(json).toMatchObject({ errors: [{ where: 'readings[1].at' }] });
  });
});
