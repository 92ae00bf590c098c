import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readPlanInput } from '../../src/schema/plan-input.ts';
import { assess } from '../../src/tortoise/assess.ts';
import { SPECIES } from '../../src/tortoise/species-table.ts';
import { makePlan } from '../../src/winter/plan.ts';
import { stillwinter, stillwinterJson } from './stillwinter.ts';

const file = 'docs/examples/plan-adult.json';
const adult = JSON.parse(readFileSync(file, 'utf8')) as {
  animal: Record<string, unknown>;
  plan: Record<string, unknown>;
};
const change = (animal: object, plan: object = {}) =>
  JSON.stringify({ animal: { ...adult.animal, ...animal }, plan: { ...adult.plan, ...plan } });

interface Planned {
  outcome: string;
  verdict: string;
  plan?: { kind: string; sleepDay: string; wakeDay: string; tasks: { day: string; say: string; source: string }[] };
  instead?: { kind: string; sleepDay?: string };
  reasons?: { say: string }[];
}

describe('stillwinter plan', () => {
  it('prints a dated plan in words', async () => {
    const ran = await stillwinter(['plan', file]);
    expect(ran).toMatchObject({ code: 0, stderr: '' });
    expect(ran.stdout).toContain('Asleep from 2026-11-28, woken on 2027-02-20: 84 nights.');
    expect(ran.stdout).toContain('Give the last food today');
    expect(ran.stdout).toContain('This is not veterinary advice');
  });

  it('prints it as JSON with every sentence in words and a source on each task', async () => {
    const { code, json } = await stillwinterJson(['plan', '-'], change({}));
    const { outcome, plan } = json as Planned;
    expect(code).toBe(0);
    expect(outcome).toBe('planned');
    expect(plan?.sleepDay).toBe('2026-11-28');
    for (const task of plan?.tasks ?? []) {
      expect(task.say).toMatch(/^[A-Z]/);
      expect(task.source.length).toBeGreaterThan(5);
    }
  });

  it.each(['Stigmochelys pardalis', 'unknown'])(
    '%s: no plan to sleep, the winter awake instead, exit 1',
    async (species) => {
      const { code, json } = await stillwinterJson(['plan', '-'], change({ species }, { sleepDays: 30 }));
      const answer = json as Planned;
      expect(code).toBe(1);
      expect(answer).toMatchObject({ outcome: 'refused', verdict: 'stay-awake', instead: { kind: 'awake' } });
      expect(answer.plan).toBeUndefined();
      expect(answer.instead?.sleepDay).toBeUndefined();
      expect(answer.reasons?.length).toBeGreaterThan(0);
    },
  );

  it('no wish and no length gives a kind that never sleeps a plan to sleep', () => {
    for (const { name, hibernation } of SPECIES)
      for (const wish of ['sleep', 'first-cooling', 'awake'])
        for (const lengthAdvice of ['uk-joint-2016', 'common-practice']) {
          if (hibernation === 'hibernates' || hibernation === 'identify-first') continue;
          const input = JSON.parse(change({ species: name, lengthAdvice }, { wish, sleepDays: 10 })) as unknown;
          const read = readPlanInput(input, '2026-09-20');
          if (!read.ok) throw new Error(JSON.stringify(read.problems));
          const outcome = makePlan(read.request, assess(read.animal), { today: '2026-09-20' });
          const plan = outcome.outcome === 'planned' ? outcome.plan : outcome.instead;
          expect(plan?.kind, name).toBe('awake');
          expect(plan?.sleepDay, name).toBeUndefined();
        }
  });

  it.each([
    ['a misspelt species', change({ species: 'Testudo hermani' }), 'animal.species'],
    ['a sleeping day that is past', change({}, { sleepDay: '2026-09-19' }), 'plan.sleepDay'],
    ['a birth date ahead', change({ birthDate: '2030-01-01' }), 'animal.birthDate'],
    ['a latitude beyond the pole', change({}, { latitudeDeg: 91 }), 'plan.latitudeDeg'],
  ])('%s: refused with its place', async (_, input, where) => {
    const { code, json } = await stillwinterJson(['plan', '-'], input);
    expect(code).toBe(1);
    expect((json as { errors: { where: string }[] }).errors[0]?.where).toBe(where);
  });
});
