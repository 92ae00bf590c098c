import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type ImportedFile, importFile } from '../../src/intake/csv/import.ts';
import { NotATableError } from '../../src/intake/csv/read-table.ts';
import type { ImportChoices } from '../../src/schema/import.ts';
import { say } from '../../src/wording/say.ts';
import { NOW_MS } from '../records/given.ts';
import { FILES } from './malformed-files.ts';

const DAY = 86_400_000;

const read = (bytes: Uint8Array, choices: ImportChoices = {}): Promise<ImportedFile | NotATableError> =>
  importFile(
    async function* () {
      yield bytes;
    },
    { zone: 'Europe/London', nowMs: NOW_MS, probeName: 'Box', choices },
  ).catch((error: unknown) => {
    if (error instanceof NotATableError) return error;
    throw error;
  });

describe('a malformed file', () => {
  it.each(FILES.map((file) => [file.name, file] as const))('%s', async (_, { bytes, becomes, choices }) => {
    const from = performance.now();
    const result = await read(bytes, choices);
    expect(performance.now() - from).toBeLessThan(3000);
    if (result instanceof NotATableError) {
      expect({ refused: result.problem.key.replace('intake.file.', '') }).toEqual(becomes);
      expect(say(result.problem)).toMatch(/^\S.*[.]$/);
      return;
    }
    const { preview, rejections } = result;
    expect({
      ready: preview.ready,
      rejected: preview.rejected,
      because: [...new Set(rejections.map((one) => one.reason.key.replace('intake.row.', '')))],
      asks: preview.questions.map((one) => one.choice),
      probes: preview.detected.probes.map((one) => one.name),
    }).toEqual({
      rejected: 0,
      because: [],
      asks: [],
      probes: 'ready' in becomes && becomes.ready === 0 ? [] : ['Box'],
      ...becomes,
    });
    for (const one of preview.rejections) expect(one.line).toBeGreaterThan(1);
  });

  it('a cell that names another unit than its column is converted, never taken at its digits', async () => {
    const file = FILES.find((one) => one.name === 'units mixed in one column')!;
    const result = (await read(file.bytes)) as ImportedFile;
    expect([...result.probes[0]!.tempC].map((tempC) => Math.round(tempC * 10) / 10)).toEqual([4.8, 4.8, 4.9, 4.9]);
  });

  it('a fault value is one only at its own size: −12.7 °C and 8.5 °C in tenths are readings', async () => {
    const text = 'Time;T\n2026-12-01 00:00;-127\n2026-12-01 01:00;85\n2026-12-01 02:00;9999\n';
    const tenths = (await read(new TextEncoder().encode(text), { unit: 'tenths-C' })) as ImportedFile;
    expect([[...tenths.probes[0]!.tempC], [...tenths.probes[0]!.suspect]]).toEqual([
      [-12.7, 8.5],
      [0, 0],
    ]);
    const whole = (await read(new TextEncoder().encode(text), { unit: 'C' })) as ImportedFile;
    expect([[...whole.probes[0]!.tempC], [...whole.probes[0]!.suspect]]).toEqual([[85], [1]]);
  });
});

/** What may be handed on, whatever the bytes were. */
function holds(result: ImportedFile | NotATableError): void {
  if (result instanceof NotATableError) return;
  for (const { atMs, tempC, suspect } of result.probes) {
    let before = Number.NEGATIVE_INFINITY;
    for (const [at, instant] of atMs.entries()) {
      // A day of grace for the zone of a clock; the power-on value is kept to be seen, marked as not trusted.
      if (!(instant > before && instant <= NOW_MS + DAY)) throw new Error(`the instant ${instant} behind ${before}`);
      const value = tempC[at]!;
      if (!(value >= -55 && value <= 60) && !(value === 85 && suspect[at] === 1)) throw new Error(`${value} °C`);
      before = instant;
    }
  }
  for (const { fromMs, toMs, maxC, minC } of result.spans) {
    if (!(fromMs < toMs && toMs <= NOW_MS + 2 * DAY && minC <= maxC && minC >= -55 && maxC <= 60))
      throw new Error(`the span ${fromMs} to ${toMs}, ${minC} to ${maxC} °C`);
  }
}

const GOOD = FILES.filter((file) => 'ready' in file.becomes && file.bytes.length < 3000 && !file.choices).map(
  (file) => file.bytes,
);
const piece = fc.oneof(
  fc.constantFrom(
    '\n',
    '\r',
    ';',
    ',',
    '\t',
    ' ',
    '"',
    '°',
    '-',
    '.',
    ':',
    '/',
    'F',
    'K',
    'e99',
    '\u0000',
    '9999',
    '85',
    '31',
  ),
  fc.string({ maxLength: 6 }),
  fc.integer().map(String),
);
const change = fc.record({ at: fc.double({ min: 0, max: 1, noNaN: true }), cut: fc.nat(12), piece });

describe('whatever bytes a file holds', () => {
  it('random bytes are refused with a message or read as true readings, never anything else', async () => {
    await fc.assert(
      fc.asyncProperty(fc.uint8Array({ maxLength: 2000 }), async (bytes) => holds(await read(bytes))),
      { numRuns: 300 },
    );
  });

  it('so are good files with parts cut out, put in and written over', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.constantFrom(...GOOD),
        fc.array(change, { minLength: 1, maxLength: 12 }),
        fc.boolean(),
        async (good, changes, inBytes) => {
          let bytes: Buffer = Buffer.from(good);
          for (const { at, cut, piece: put } of changes) {
            const place = Math.floor(at * bytes.length);
            const middle = inBytes ? Buffer.from(put, 'latin1') : Buffer.from(put);
            bytes = Buffer.concat([bytes.subarray(0, place), middle, bytes.subarray(place + cut)]);
          }
          holds(await read(bytes));
        },
      ),
      { numRuns: 600 },
    );
  });
});
