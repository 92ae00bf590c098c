import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openDatabase } from '../../src/records/database.ts';
import { importPreviewSchema, savedImportSchema } from '../../src/schema/import.ts';
import { smallGroup } from '../records/given.ts';
import { stillwinter, stillwinterJson } from './stillwinter.ts';

const file = [
  'Time;Box;Outdoors',
  '2025-12-01 00:00;4,8;1,2',
  '2025-12-01 01:00;4,7;1,0',
  '2025-12-01 02:00;4,6;0,8',
].join('\n');

describe('stillwinter import', () => {
  let folder: string;
  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'stillwinter-'));
    const database = await openDatabase({ dataFolder: folder });
    await smallGroup(database);
    await database.close();
  });
  afterAll(() => rmSync(folder, { recursive: true }));

  it('saves the readings of a file, each once, and says to which probes', async () => {
    const saved = await stillwinterJson(['import', '-', '--data', folder], file);
    expect(saved.code).toBe(0);
    expect(savedImportSchema.parse(saved.json)).toMatchObject({ stored: 6, alreadyThere: 0 });
    const again = await stillwinter(['import', '-', '--data', folder], file);
    expect(again.stdout).toMatch(/^0 readings saved; 6 were there already/);
  });

  it('saves nothing while the file leaves something open; the answers can be given', async () => {
    const ambiguous = 'Date,Temp\n03/04/2025 01:00,51.1\n03/04/2025 02:00,51.0\n';
    const asked = await stillwinterJson(['import', '-', '--data', folder], ambiguous);
    expect(asked.code).toBe(1);
    expect((asked.json as { errors: { where: string }[] }).errors.map((one) => one.where)).toContain('dateOrder');
    const args = ['import', '-', '--data', folder, '--date-order', 'dmy', '--unit', 'F', '--probe', 'Lid'];
    const told = savedImportSchema.parse((await stillwinterJson(args, ambiguous)).json);
    expect(told).toMatchObject({ stored: 2, probes: [{ name: 'Lid', made: true }] });
  });

  it('says what to do with an export of Stillwinter', async () => {
    const ran = await stillwinter(['import', '-', '--data', folder], 'PK\u0003\u0004 and so on');
    expect(ran.code).toBe(1);
    expect(ran.stderr).toContain('stillwinter take-in');
  });
});

describe('stillwinter import --preview', () => {
  it('tells what was detected, the counts, and the first readings as UTC instants and °C', async () => {
    const { code, json } = await stillwinterJson(['import', '-', '--preview', '--zone', 'Europe/Berlin'], file);
    expect(code).toBe(0);
    const preview = importPreviewSchema.parse(json);
    expect(preview).toMatchObject({ ready: 6, rejected: 0, questions: [] });
    expect(preview.detected).toMatchObject({ delimiter: ';', timeZone: 'Europe/Berlin', unit: 'C' });
    expect(preview.readings[0]).toMatchObject({ probe: 'Box', tempC: 4.8 });
    expect(Date.parse(preview.readings[0]!.at)).toBe(Date.parse('2025-11-30T23:00:00Z'));
  });

  it('asks what the file leaves open, with the answer to give', async () => {
    const ambiguous = 'Date,Temp C\n03/04/2025 01:00,5.1\n';
    const ran = await stillwinter(['import', '-', '--preview', '--zone', 'Europe/London'], ambiguous);
    expect(ran.code).toBe(0);
    expect(ran.stdout).toContain(`--choices '{"dateOrder": "dmy"}'`);
    const told = await stillwinterJson(
      ['import', '-', '--preview', '--zone', 'Europe/London', '--choices', '{"dateOrder": "mdy"}'],
      ambiguous,
    );
    expect(importPreviewSchema.parse(told.json).readings[0]?.at).toContain('2025-03-04');
  });

  it('a file that is no table is refused, saying what it is', async () => {
    const { code, json } = await stillwinterJson(['import', '-', '--preview'], '%PDF-1.7 nothing of use');
    expect(code).toBe(1);
    expect(JSON.stringify(json)).toMatch(/PDF/);
  });

  it.each([
    ['a zone that is none', ['--zone', 'Europe/Nowhere']],
    ['choices that are not JSON', ['--choices', '{dmy']],
  ])('%s: exit 2', async (_, args) => {
    expect((await stillwinter(['import', '-', '--preview', ...args], file)).code).toBe(2);
  });
});
