import { describe, expect, it } from 'vitest';
import { stillwinter, stillwinterJson } from './stillwinter.ts';

describe('stillwinter called wrongly or for help', () => {
  it.each([
    ['no command', []],
    ['an unknown command', ['hibernate']],
    ['a missing file', ['assess']],
    ['an unknown option', ['assess', '-', '--fast']],
    ['an unknown schema', ['schema', 'castle']],
    ['a port that is none', ['serve', '--port', 'x']],
  ])('%s: exit 2, nothing on standard output', async (_, args) => {
    const ran = await stillwinter(args);
    expect(ran.code).toBe(2);
    expect(ran.stdout).toBe('');
    expect(ran.stderr.length).toBeGreaterThan(20);
  });

  it('with --json a usage error is one JSON document too', async () => {
    const { code, json } = await stillwinterJson(['hibernate']);
    expect(code).toBe(2);
    expect(json).toMatchObject({ title: 'That is not how the command is called', errors: [] });
  });

  it('help ends well and lists the commands', async () => {
    const ran = await stillwinter(['--help']);
    expect(ran.code).toBe(0);
    for (const name of ['assess', 'simulate', 'schema', 'serve', 'demo']) expect(ran.stdout).toContain(name);
  });

  it('a file that is not there: exit 1 and its name', async () => {
    const ran = await stillwinter(['assess', 'no/such.json']);
    expect(ran).toMatchObject({ code: 1, stdout: '' });
    expect(ran.stderr).toContain('no/such.json: There is no such file');
  });

  it('a folder in place of a file: exit 1', async () => {
    expect((await stillwinter(['assess', 'src'])).code).toBe(1);
  });
});

describe('stillwinter schema', () => {
  it('lists its names, and prints each as a JSON Schema with its fields at the top', async () => {
    const { json } = await stillwinterJson(['schema']);
    const names = json as string[];
    expect(names).toContain('assess');
    await Promise.all(
      names.map(async (name) => {
        const { code, json: schema } = await stillwinterJson(['schema', name]);
        expect(code).toBe(0);
        expect(schema).toMatchObject({ $schema: expect.stringContaining('2020-12'), type: 'object' });
        expect(Object.keys((schema as { properties: object }).properties).length).toBeGreaterThan(1);
      }),
    );
  });
});
