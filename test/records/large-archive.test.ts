import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import startOptions from '../../bin/start-options.json' with { type: 'json' };

const READINGS = 1_000_000;

it('an archive of a million readings goes out and in without being held whole: bounded in memory', () => {
  const folder = mkdtempSync(join(tmpdir(), 'stillwinter-'));
  onTestFinished(() => rmSync(folder, { recursive: true }));
  const script = join(import.meta.dirname, '..', 'support', 'archive-process.ts');
  const archive = join(folder, 'all.zip');
  const run = (what: string, data: string, options: readonly string[], ...more: string[]) => {
    const said = execFileSync(process.execPath, [...options, script, what, join(folder, data), archive, ...more]);
    return JSON.parse(String(said)) as { readings: number; mostBytes: number };
  };
  run('store', 'first', [], String(READINGS));
  const out = run('export', 'first', startOptions.export);
  const taken = run('take', 'second', startOptions['take-in']);
  expect([out.readings, taken.readings]).toEqual([READINGS, READINGS]);
  // 250 MB is the aim on an idle machine (measured: 220 and 205, held whole it was 795 and 297); on a shared one the collector comes later.
  expect(out.mostBytes).toBeLessThan(280e6);
  expect(taken.mostBytes).toBeLessThan(270e6);
}, 120_000);
