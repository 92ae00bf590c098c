import { describe, expect, it } from 'vitest';
import { schemaCommand } from '../../src/cli/schema.ts';
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
  it('prints the JSON Schema of an input with its fields at the top', async () => {
    const { code, json } = await stillwinterJson(['schema', 'assess']);
    expect(code).toBe(0);
    expect(json).toMatchObject({ type: 'object', properties: { massG: { type: 'number' } } });
  });

  it('knows a schema for each name it lists', async () => {
    const names = (await schemaCommand(undefined)).json as string[];
    expect(names).toEqual(
      expect.arrayContaining(['assess', 'plan', 'simulate', 'simulate-exact', 'calibrate', 'replay']),
    );
    for (const name of names) {
      const { json } = await schemaCommand(name);
      const schema = json as { $schema: string; properties?: object; oneOf?: object[]; anyOf?: object[] };
      expect(schema.$schema, name).toContain('2020-12');
      expect(Object.keys(schema.properties ?? schema.oneOf ?? schema.anyOf ?? {}).length, name).toBeGreaterThan(1);
    }
  });
});
