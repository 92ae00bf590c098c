import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays } from '../../src/measure/day.ts';
import { assess } from '../../src/tortoise/assess.ts';
import { verdictOf } from '../../src/tortoise/gates.ts';
import { SPECIES } from '../../src/tortoise/species-table.ts';
import type { AssessInput, GateName, GateState, HealthEvent, Verdict } from '../../src/tortoise/types.ts';
import { say } from '../../src/wording/say.ts';
import { animal, clearFindings, type goodHistory, withHistory } from './sample.ts';

const DAY = '2026-09-20';
const stateOf = (input: AssessInput, name: GateName) => assess(input).gates.find((gate) => gate.name === name)?.state;
const event = (kind: HealthEvent['kind'], fromDay: string, toDay?: string): HealthEvent => ({
  kind,
  fromDay,
  ...(toDay === undefined ? {} : { toDay }),
});
const goingDown = (change: Partial<typeof goodHistory> = {}, rest: Partial<AssessInput> = {}) =>
  withHistory(
    { gutCleared: true, lastBathOn: addDays(DAY, -1), startMassG: 1240, ...change },
    { moment: 'going-down', ...rest },
  );

describe('fitness gates', () => {
  it('a healthy grown animal of whom everything is known may go down', () => {
    const found = assess(animal());
    expect(found.verdict).toBe('may-go-down');
    expect(found.gates.every((gate) => gate.state === 'passes')).toBe(true);
  });

  const cases: [string, AssessInput, GateName, GateState, Verdict][] = [
    ['a tropical kind', animal({ species: 'Stigmochelys pardalis' }), 'species', 'fails', 'stay-awake'],
    ['an unknown kind', animal({ species: 'unknown' }), 'species', 'fails', 'stay-awake'],
    ['a hybrid', animal({ species: 'hybrid' }), 'species', 'fails', 'stay-awake'],
    [
      'a lowland form not yet confirmed',
      animal({ species: 'Testudo graeca graeca', sclMm: 160, massG: 840 }),
      'species',
      'borderline',
      'wait',
    ],
    [
      'a lowland form confirmed',
      withHistory({ formConfirmed: true }, { species: 'Testudo graeca graeca', sclMm: 160, massG: 840 }),
      'species',
      'passes',
      'may-go-down',
    ],
    ['a first winter by the UK advice', animal({ ageYears: 0.9, massG: 100, sclMm: 76 }), 'age', 'fails', 'stay-awake'],
    [
      'a first winter by common practice',
      animal({ ageYears: 0.9, massG: 100, sclMm: 76, lengthAdvice: 'common-practice' }),
      'age',
      'passes',
      'may-go-down',
    ],
    [
      'a second winter by the UK advice',
      animal({ ageYears: 1, massG: 100, sclMm: 76 }),
      'age',
      'passes',
      'may-go-down',
    ],
    ['measurements that ask', animal({ massG: 700 }), 'measurements', 'borderline', 'stay-awake'],
    ['a poor appetite', withHistory({ appetiteNormal: false }), 'appetite', 'fails', 'stay-awake'],
    ['an appetite nobody told of', withHistory({ appetiteNormal: undefined }), 'appetite', 'not-yet-known', 'wait'],
    ['weight lost in summer', withHistory({ weightNormal: false }), 'summer-weight', 'fails', 'stay-awake'],
    ['weight nobody told of', withHistory({ weightNormal: undefined }), 'summer-weight', 'not-yet-known', 'wait'],
    ['ill within twelve months', withHistory({ illness: true }), 'illness', 'fails', 'stay-awake'],
    [
      'ill, then cleared by a vet',
      withHistory({ illness: true, vetClearance: true }),
      'illness',
      'passes',
      'may-go-down',
    ],
    ['illness nobody told of', withHistory({ illness: undefined }), 'illness', 'not-yet-known', 'wait'],
    [
      'illness that ended 364 days ago',
      withHistory({ events: [event('illness', '2025-09-01', addDays(DAY, -364))] }),
      'illness',
      'fails',
      'stay-awake',
    ],
    [
      'illness that ended 365 days ago',
      withHistory({ events: [event('illness', '2025-09-01', addDays(DAY, -365))] }),
      'illness',
      'passes',
      'may-go-down',
    ],
    [
      'cleared on the last day of the illness',
      withHistory({ events: [event('illness', '2026-03-01', '2026-04-01'), event('vet-clearance', '2026-04-01')] }),
      'illness',
      'passes',
      'may-go-down',
    ],
    [
      'cleared the day before it ended',
      withHistory({ events: [event('illness', '2026-03-01', '2026-04-01'), event('vet-clearance', '2026-03-31')] }),
      'illness',
      'fails',
      'stay-awake',
    ],
    [
      'still ill, whatever the vet said',
      withHistory({ vetClearance: true, events: [event('illness', '2026-09-01')] }),
      'illness',
      'fails',
      'stay-awake',
    ],
    ['treated within twelve months', withHistory({ treatment: true }), 'treatment', 'fails', 'stay-awake'],
    [
      'treated, then cleared',
      withHistory({ treatment: true, vetClearance: true }),
      'treatment',
      'passes',
      'may-go-down',
    ],
    [
      'under treatment today',
      withHistory({ events: [event('treatment', '2026-09-01', DAY)] }),
      'treatment',
      'fails',
      'stay-awake',
    ],
    ['came 364 days ago', withHistory({ acquiredOn: addDays(DAY, -364) }), 'new-arrival', 'fails', 'stay-awake'],
    ['came 365 days ago', withHistory({ acquiredOn: addDays(DAY, -365) }), 'new-arrival', 'passes', 'may-go-down'],
    [
      'came lately, cleared by a vet',
      withHistory({ acquiredOn: '2026-05-01', events: [event('vet-clearance', '2026-08-01')] }),
      'new-arrival',
      'passes',
      'may-go-down',
    ],
    [
      'cleared by a vet before it came',
      withHistory({ acquiredOn: '2026-05-01', events: [event('vet-clearance', '2026-04-01')] }),
      'new-arrival',
      'fails',
      'stay-awake',
    ],
    ['arrival nobody told of', withHistory({ acquiredOn: undefined }), 'new-arrival', 'not-yet-known', 'wait'],
    ['parasites not looked for', withHistory({ parasitesChecked: undefined }), 'parasites', 'not-yet-known', 'wait'],
    [
      'parasites checked 364 days ago',
      withHistory({ parasitesChecked: undefined, events: [event('parasite-check', addDays(DAY, -364))] }),
      'parasites',
      'passes',
      'may-go-down',
    ],
    [
      'parasites checked 365 days ago',
      withHistory({ parasitesChecked: undefined, events: [event('parasite-check', addDays(DAY, -365))] }),
      'parasites',
      'not-yet-known',
      'wait',
    ],
    ['carrying eggs', withHistory({ carryingEggs: true }), 'eggs', 'fails', 'stay-awake'],
    ['eggs on record, not laid', withHistory({ events: [event('eggs', '2026-08-20')] }), 'eggs', 'fails', 'stay-awake'],
    [
      'eggs on record, laid',
      withHistory({ events: [event('eggs', '2026-08-20', '2026-09-01')] }),
      'eggs',
      'passes',
      'may-go-down',
    ],
    ['a female nobody felt for eggs', withHistory({ carryingEggs: undefined }), 'eggs', 'not-yet-known', 'wait'],
    [
      'an animal of unknown sex nobody felt for eggs',
      withHistory({ carryingEggs: undefined }, { sex: 'unknown' }),
      'eggs',
      'not-yet-known',
      'wait',
    ],
    ['a male', withHistory({ carryingEggs: undefined }, { sex: 'male' }), 'eggs', 'passes', 'may-go-down'],
    ['short of water', withHistory({ hydrated: false }), 'hydration', 'borderline', 'wait'],
    ['water nobody told of', withHistory({ hydrated: undefined }), 'hydration', 'not-yet-known', 'wait'],
    ['50 years old, no vet', animal({ ageYears: 50 }), 'vet-check', 'not-yet-known', 'wait'],
    [
      '50 years old, seen by a vet',
      withHistory({ vetCheck: true }, { ageYears: 50 }),
      'vet-check',
      'passes',
      'may-go-down',
    ],
    ['49 years old, no vet', animal({ ageYears: 49 }), 'vet-check', 'passes', 'may-go-down'],
    [
      'a doubtful answer, no vet',
      animal({ examination: { ...clearFindings, nose: 'blocked' } }),
      'vet-check',
      'not-yet-known',
      'wait',
    ],
    ['heavy, no vet', animal({ massG: 1650 }), 'condition', 'borderline', 'wait'],
    [
      'heavy, and a vet has looked',
      withHistory({ vetCheck: true }, { massG: 1650 }),
      'condition',
      'passes',
      'may-go-down',
    ],
    ['too light', animal({ massG: 930 }), 'condition', 'fails', 'stay-awake'],
    ['gut not cleared', goingDown({ gutCleared: false }), 'gut-cleared', 'borderline', 'wait'],
    ['gut nobody looked at', goingDown({ gutCleared: undefined }), 'gut-cleared', 'not-yet-known', 'wait'],
    ['everything done', goingDown(), 'gut-cleared', 'passes', 'may-go-down'],
    ['bathed today', goingDown({ lastBathOn: DAY }), 'last-bath', 'borderline', 'wait'],
    ['bathed yesterday', goingDown(), 'last-bath', 'passes', 'may-go-down'],
    ['bathed 8 days ago', goingDown({ lastBathOn: addDays(DAY, -8) }), 'last-bath', 'passes', 'may-go-down'],
    ['bathed 9 days ago', goingDown({ lastBathOn: addDays(DAY, -9) }), 'last-bath', 'borderline', 'wait'],
    ['bath not entered', goingDown({ lastBathOn: undefined }), 'last-bath', 'not-yet-known', 'wait'],
    ['not weighed on the day', goingDown({ startMassG: undefined }), 'start-mass', 'not-yet-known', 'wait'],
    ['start mass 9 % off', goingDown({ startMassG: 1240 * 1.09 }), 'start-mass', 'passes', 'may-go-down'],
    ['start mass 11 % off', goingDown({ startMassG: 1240 * 1.11 }), 'start-mass', 'borderline', 'wait'],
  ];
  it.each(cases)('%s', (_, input, name, state, verdict) => {
    expect(stateOf(input, name)).toBe(state);
    expect(assess(input).verdict).toBe(verdict);
  });

  it('what only the last weeks can tell does not count when deciding', () => {
    const names = assess(animal()).gates.map((gate) => gate.name);
    for (const name of ['gut-cleared', 'last-bath', 'start-mass']) expect(names).not.toContain(name);
    expect(assess(goingDown()).gates.map((gate) => gate.name)).toEqual([
      ...names,
      'gut-cleared',
      'last-bath',
      'start-mass',
    ]);
  });

  it('an event that lies ahead does not count yet', () => {
    expect(assess(withHistory({ events: [event('illness', '2026-10-01', '2026-10-05')] })).verdict).toBe('may-go-down');
  });

  it('nothing known is a wait, not a yes', () => {
    const found = assess(animal({ examination: {}, history: {} }));
    expect(found.verdict).toBe('wait');
    expect(found.gates.filter((gate) => gate.state === 'not-yet-known').length).toBeGreaterThan(10);
  });

  it('a kind that never sleeps stays awake however fit it is and whatever else is said', () => {
    const never = SPECIES.filter((row) => row.hibernation === 'never' || row.hibernation === 'unidentified');
    fc.assert(
      fc.property(
        fc.constantFrom(...never),
        fc.constantFrom('deciding' as const, 'going-down' as const),
        fc.constantFrom('uk-joint-2016' as const, 'german-chamber' as const, 'common-practice' as const),
        fc.boolean(),
        ({ name }, moment, lengthAdvice, vetClearance) => {
          const found = assess(
            goingDown({ vetClearance, formConfirmed: true }, { species: name, moment, lengthAdvice }),
          );
          expect(found.verdict).toBe('stay-awake');
          expect(found.length).toMatchObject({ suggestedDays: 0, ceilingDays: 0 });
        },
      ),
    );
  });

  it('the verdict is the worst gate, and no further finding ever makes it better', () => {
    const rank: Record<Verdict, number> = { 'may-go-down': 2, wait: 1, 'stay-awake': 0 };
    const state = fc.constantFrom<GateState>('passes', 'fails', 'borderline', 'not-yet-known');
    fc.assert(
      fc.property(fc.array(state, { minLength: 1 }), state, (states, more) => {
        const before = verdictOf(states.map((each) => ({ state: each })));
        const after = verdictOf([...states, more].map((each) => ({ state: each })));
        expect(rank[after]).toBeLessThanOrEqual(rank[before]);
        expect(before === 'may-go-down').toBe(states.every((each) => each === 'passes'));
        expect(before === 'stay-awake').toBe(states.includes('fails'));
      }),
    );
  });

  it('every gate of every case gives a reason in words and a source', () => {
    for (const [name, input] of cases)
      for (const gate of assess(input).gates) {
        expect(say(gate.reason), name).toMatch(/^[A-Z1-9“].*[.]$/s);
        expect(say(gate.reason), name).not.toMatch(/\{\{|undefined|NaN/);
        expect(say(`tortoise.gate.name.${gate.name}`).length).toBeGreaterThan(2);
        expect(gate.source.cite.length, `${name} ${gate.name}`).toBeGreaterThan(5);
      }
  });

  it('refuses a species that is not in the table', () => {
    expect(() => assess(animal({ species: 'Testudo hermani' }))).toThrow(RangeError);
  });
});
