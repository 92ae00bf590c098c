import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { assessOutputSchema } from '../../src/schema/assess.ts';
import { stillwinter, stillwinterJson } from './stillwinter.ts';

const file = 'docs/examples/assess-adult.json';
const adult = JSON.parse(readFileSync(file, 'utf8')) as Record<string, unknown>;
const withChange = (change: Record<string, unknown>) => JSON.stringify({ ...adult, ...change });

describe('stillwinter assess', () => {
  it('reads a file and says yes in words', async () => {
    const ran = await stillwinter(['assess', file]);
    expect(ran).toMatchObject({ code: 0, stderr: '' });
    expect(ran.stdout).toContain('Verdict: may go down');
    expect(ran.stdout).toContain('84 days suggested, never more than 91');
    expect(ran.stdout).toContain('This is not veterinary advice');
  });

  it('reads standard input and answers with one JSON document', async () => {
    const { code, stderr, json } = await stillwinterJson(['assess', '-'], withChange({}));
    expect(code).toBe(0);
    expect(stderr).toBe('');
    const answer = assessOutputSchema.parse(json);
    expect(answer).toMatchObject({ verdict: 'may-go-down', length: { suggested: 84, ceiling: 91 } });
    for (const gate of answer.gates) expect(gate.reason && gate.source && gate.name).toBeTruthy();
  });

  it.each([
    ['Stigmochelys pardalis', 'stay-awake'],
    ['unknown', 'stay-awake'],
    ['Testudo graeca graeca', 'wait'],
  ])('%s: the answer is no, exit 1', async (species, verdict) => {
    const { code, json } = await stillwinterJson(['assess', '-'], withChange({ species }));
    expect(code).toBe(1);
    expect(json).toMatchObject({ verdict });
  });

  it('asks for more gates when going down', async () => {
    const { code, json } = await stillwinterJson(['assess', '-'], withChange({ moment: 'going-down' }));
    expect(code).toBe(1);
    expect(json).toMatchObject({ verdict: 'wait' });
    expect(JSON.stringify(json)).toContain('gut-cleared');
  });

  it.each([
    ['a misspelt species', withChange({ species: 'Testudo hermani' }), 'species'],
    ['inches', withChange({ sclMm: 7.2 }), 'sclMm'],
    ['no mass', withChange({ massG: undefined }), 'massG'],
    ['text that is not JSON', '{"species": ', 'standard input'],
    ['nothing at all', '', 'standard input'],
  ])('%s: exit 1 and problem details', async (_, input, where) => {
    const { code, json, stderr } = await stillwinterJson(['assess', '-'], input);
    expect(code).toBe(1);
    const problem = json as { title: string; detail: string; errors: { where: string; what: string }[] };
    expect(problem.title).toBeTruthy();
    expect(problem.detail).toBeTruthy();
    expect(problem.errors[0]?.where).toContain(where);
    expect(problem.errors[0]?.what.length).toBeGreaterThan(15);
    expect(stderr).toContain(problem.title);
  });
});
