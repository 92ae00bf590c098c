import { describe, expect, it } from 'vitest';
import { simulateExactSchema } from '../../src/schema/simulate.ts';
import { stillwinter, stillwinterJson } from './stillwinter.ts';

const example = (simulateExactSchema.meta()!.examples as unknown[])[0] as Record<string, unknown>;

describe('stillwinter simulate --exact', () => {
  it('runs a refrigerator by its exact physics: the cycle of one capacity by its closed form', async () => {
    // C dT/dt = UA (Ta - T) - P: T falls and rises towards Ta - P/UA and Ta as one exponential each.
    const [ua, c, watts, room, on, off] = [1.5, 60_000, 90, 20, 6, 4];
    const input = {
      nodes: [{ name: 'cabinet', heatCapacityJK: c }],
      links: [{ from: 'room', to: 'cabinet', conductanceWK: ua }],
      compressor: { node: 'cabinet', coolingW: watts },
      thermostat: { node: 'cabinet', onAtC: on, offAtC: off },
      room: { stepS: 3600, temperatureC: [room] },
      initialC: on,
      spanS: 86_400,
      sampleS: 60,
      watches: [{ node: 'cabinet', limitC: 5, rising: false }],
    };
    const { code, json } = await stillwinterJson(['simulate', '--exact', '-'], JSON.stringify(input));
    expect(code).toBe(0);
    const { events, watchedAtS } = json as { events: { kind: string; atS: number }[]; watchedAtS: number[] };
    const tau = c / ua;
    const cools = tau * Math.log((on - (room - watts / ua)) / (off - (room - watts / ua)));
    const warms = tau * Math.log((room - off) / (room - on));
    const off1 = events.find((event) => event.kind === 'off')!;
    const on2 = events.find((event) => event.kind === 'on' && event.atS > off1.atS)!;
    expect(off1.atS).toBeCloseTo(cools, 2);
    expect(on2.atS - off1.atS).toBeCloseTo(warms, 2);
    expect(watchedAtS[0]).toBeCloseTo(tau * Math.log((on - (room - watts / ua)) / (5 - (room - watts / ua))), 2);
    const told = await stillwinter(['simulate', '--exact', '-'], JSON.stringify(input));
    expect(told.stdout).toMatch(/cabinet passes 5\.0\s°C after 0\.2/);
    const wrong = await stillwinter(
      ['simulate', '--exact', '-'],
      JSON.stringify({ ...input, links: [{ from: 'room', to: 'oven', conductanceWK: 1 }] }),
    );
    expect(wrong.code).toBe(1);
    expect(wrong.stderr).toContain('oven');
  });

  it('answers with a temperature for each sample and the summary', async () => {
    const { code, json } = await stillwinterJson(['simulate', '--exact', '-'], JSON.stringify(example));
    expect(code).toBe(0);
    const { insideC, summary } = json as {
      insideC: number[];
      summary: { under: { limitC: number }[]; over: object[] };
    };
    expect(insideC).toHaveLength(3);
    expect(insideC[0]).toBeCloseTo(5, 9);
    expect(summary.under.map((each) => each.limitC)).toEqual([3, 2, 0]);
    expect(summary.over).toHaveLength(2);
  });

  it('warms towards the outside temperature as one lump through a bare resistance does', async () => {
    // No layer: C dT/dt = (T_outside - T) / R, R = 0.26 m2K/W over 0.8 m2, C = 5 kg of water.
    const hours = 48;
    const { json } = await stillwinterJson(
      ['simulate', '--exact', '-'],
      JSON.stringify({
        ...example,
        shell: { areaM2: 0.8, layers: [], outsideResistanceM2KW: 0.13, insideResistanceM2KW: 0.13 },
        outside: { stepS: 3600, temperatureC: Array.from({ length: hours + 1 }, () => 10) },
      }),
    );
    const { insideC } = json as { insideC: number[] };
    const tau = (5 * 4190 * 0.26) / 0.8;
    for (const h of [1, 6, 24, 48]) expect(insideC[h]).toBeCloseTo(10 - 5 * Math.exp((-h * 3600) / tau), 6);
  });

  it('prints words without --json', async () => {
    const ran = await stillwinter(['simulate', '--exact', '-'], JSON.stringify(example));
    expect(ran.code).toBe(0);
    expect(ran.stdout).toContain('W/(m²K)');
  });

  it('a wall of no thickness is refused with its place', async () => {
    const shell = {
      ...(example.shell as object),
      layers: [{ conductivityWmK: 0.035, densityKgM3: 20, specificHeatJkgK: 1450, thicknessM: 0 }],
    };
    const { code, json } = await stillwinterJson(['simulate', '--exact', '-'], JSON.stringify({ ...example, shell }));
    expect(code).toBe(1);
    expect(json).toMatchObject({ errors: [{ where: 'shell.layers[0].thicknessM' }] });
  });
});
