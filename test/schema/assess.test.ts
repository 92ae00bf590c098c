import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { assessInputSchema, assessOutput, assessOutputSchema, readAssessInput } from '../../src/schema/assess.ts';
import { assess } from '../../src/tortoise/assess.ts';

const TODAY = '2026-09-20';
const example = (assessInputSchema.meta()!.examples as unknown[])[0] as Record<string, unknown>;
const problemsWith = (change: Record<string, unknown>) => {
  const read = readAssessInput({ ...example, ...change }, TODAY);
  return read.ok ? [] : read.problems.map(({ where, what }) => `${where}: ${what}`);
};

describe('input of an assessment', () => {
  it('its own example may go down, and the answer fits its schema', () => {
    const read = readAssessInput(example, TODAY);
    if (!read.ok) throw new Error(JSON.stringify(read.problems));
    const answer = assessOutput(assess(read.input));
    expect(answer.verdict).toBe('may-go-down');
    expect(assessOutputSchema.parse(answer)).toEqual(answer);
  });

  it('needs only species, sex, mass, length, an age, examination and history', () => {
    const least = {
      species: 'Testudo hermanni',
      sex: 'male',
      massG: 900,
      sclMm: 165,
      ageYears: 9,
      examination: {},
      history: {},
    };
    const read = readAssessInput(least, TODAY);
    expect(read.ok && assess(read.input).verdict).toBe('wait');
    expect(read.ok && read.input).toMatchObject({ onDay: TODAY, moment: 'deciding', lengthAdvice: 'uk-joint-2016' });
    for (const field of Object.keys(least)) {
      const { [field as keyof typeof least]: _, ...without } = least;
      const missing = readAssessInput(without, TODAY);
      expect(missing.ok, field).toBe(false);
      expect(!missing.ok && missing.problems[0]?.where).toBe(field);
    }
  });

  it('takes an unknown species, which stays awake', () => {
    const read = readAssessInput({ ...example, species: 'unknown' }, TODAY);
    expect(read.ok && assess(read.input).verdict).toBe('stay-awake');
  });

  it.each<[string, Record<string, unknown>, string]>([
    [
      'a misspelt species',
      { species: 'Testudo hermani' },
      'species: There is no tortoise "Testudo hermani" in the species table. Did you mean Testudo hermanni?',
    ],
    ['a species nobody knows', { species: 'Turtle' }, 'species: There is no tortoise "Turtle"'],
    ['0 g', { massG: 0 }, 'massG: The mass is 0.0'],
    ['9 kg at 6 cm', { massG: 9000, sclMm: 60 }, 'sclMm: No tortoise of 60'],
    ['inches', { sclMm: 7.2 }, 'sclMm: The length 7.2 looks like inches'],
    ['no age', { ageYears: undefined }, 'ageYears: The age is missing'],
    ['a birth date ahead', { birthDate: '2026-09-21' }, 'birthDate: 2026-09-21 lies after 2026-09-20'],
    ['an arrival ahead', { history: { acquiredOn: '2027-01-01' } }, 'history.acquiredOn: 2027-01-01 lies after'],
    ['a day that does not exist', { birthDate: '2020-02-30' }, 'birthDate: '],
    [
      'a finding that is not in the list',
      { examination: { eyes: 'ok' } },
      'examination.eyes: Choose one of: clear, sunken',
    ],
    ['an unknown part', { examination: { ears: 'clear' } }, 'examination.ears: '],
    [
      'an earlier weighing of 0 g',
      { history: { measurements: [{ day: '2025-09-01', massG: 0, sclMm: 180 }] } },
      'history.measurements[0].massG: The mass is 0.0',
    ],
    [
      'an illness that ends before it begins',
      { history: { events: [{ kind: 'illness', fromDay: '2026-05-02', toDay: '2026-05-01' }] } },
      'history.events[0].toDay: ',
    ],
  ])('%s: says where, what and what to do', (_, change, words) => {
    const found = problemsWith(change).map((line) => line.replaceAll('\u00a0', ' '));
    expect(found).toHaveLength(1);
    expect(found[0]).toContain(words);
  });

  it.each([[null], [5], ['text'], [[]], [{}]])('%j is refused, never thrown on', (value) => {
    const read = readAssessInput(value, TODAY);
    expect(read.ok).toBe(false);
  });

  it('has a JSON Schema that names its fields', () => {
    const schema = z.toJSONSchema(assessInputSchema, { io: 'input' }).$defs!.AssessInput!;
    expect(schema.required).toEqual(['species', 'sex', 'massG', 'sclMm', 'examination', 'history']);
    expect(JSON.stringify(schema)).toContain('Straight carapace length');
  });
});
