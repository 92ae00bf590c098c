import iconv from 'iconv-lite';
import { describe, expect, it } from 'vitest';
import { importFile } from '../../src/intake/csv/import.ts';

const NOW_MS = Date.parse('2026-12-24T12:00:00Z');
const BAD = Buffer.from([0x92]);

/** A file of a logger: a heading, hourly readings, and a remark beside each. */
const rows = (heading: string, count: number, remark: (row: number) => string) =>
  [
    heading,
    ...Array.from({ length: count }, (_, row) => `${time(row)};${(4 + (row % 10) / 10).toFixed(1)};${remark(row)}`),
  ].join('\n');
const time = (row: number) => new Date(Date.parse('2026-10-01T00:00:00Z') + row * 60_000).toISOString().slice(0, 19);
const read = (bytes: Buffer, choices = {}) =>
  importFile(
    async function* () {
      yield bytes;
    },
    { zone: 'UTC', nowMs: NOW_MS, probeName: 'probe', choices },
  );
/** The same bytes with a bad one put in place of a sign. */
const spoilt = (text: string, sign: string) => {
  const bytes = Buffer.from(text);
  const at = bytes.indexOf(sign);
  return Buffer.concat([bytes.subarray(0, at), BAD, bytes.subarray(at + sign.length)]);
};

describe('a file with a bad byte', () => {
  it('stays UTF-8 where the rest is, the byte is replaced, and its line is named', async () => {
    const text = rows('Time;Box Höhle (°C);Remark', 50, (row) => (row === 20 ? 'Tür # auf' : ''));
    const { preview } = await read(spoilt(text, '#'));
    expect(preview.detected).toMatchObject({ encoding: 'utf-8', encodingBy: 'mostly-utf-8' });
    expect([preview.ready, preview.detected.columns[1]!.name]).toEqual([50, 'Box Höhle (°C)']);
    expect(preview.notes).toEqual([{ line: 22, text: expect.stringContaining('Tür \ufffd auf') }]);
  });

  it('refuses a row whose number is spoilt by it, and keeps the others', async () => {
    const text = rows('Time;Box °C;Remark', 50, (row) => (row === 20 ? 'a' : '')).replace(';4.0;a', ';4#0;a');
    const { preview } = await read(spoilt(text, '#'));
    expect([preview.detected.encoding, preview.ready, preview.rejected]).toEqual(['utf-8', 49, 1]);
    expect(preview.rejections[0]!.line).toBe(22);
  });

  it('stays UTF-8 when the bad byte lies far below a sound beginning', async () => {
    const text = rows('Time;Box °C;Remark', 20_000, (row) => (row === 19_000 ? '#' : ''));
    const { preview } = await read(spoilt(text, '#'));
    expect([preview.detected.encoding, preview.ready]).toEqual(['utf-8', 20_000]);
    expect(preview.notes).toEqual([{ line: 19_002, text: expect.any(String) }]);
  });

  it('is a legacy page where nothing but ASCII speaks for UTF-8, above or far below', async () => {
    const near = iconv.encode(
      rows('Time;Box °C;Remark', 50, () => ''),
      'windows-1252',
    );
    expect((await read(near)).preview.detected).toMatchObject({ encoding: 'windows-1252', encodingBy: 'degree-sign' });
    const far = iconv.encode(
      rows('Time;Box C;Remark', 20_000, (row) => (row === 19_000 ? 'Tür' : '')),
      'windows-1252',
    );
    const { preview } = await read(far);
    expect([preview.detected.encoding, preview.ready, preview.notes]).toEqual(['windows-1252', 20_000, []]);
  });

  it.each([
    ['windows-1252', 'Température (°C)', 'porte fermée à clé'],
    ['windows-1250', 'Teplota (°C)', 'dveře zavřené'],
    ['windows-1251', 'Температура', 'дверь закрыта'],
    ['shift_jis', '温度', '扉を閉めた'],
    ['gb18030', '温度', '门关上了'],
    ['big5', '溫度', '門關上了'],
  ])('is no reason to take %s for UTF-8', async (page, heading, remark) => {
    const bytes = iconv.encode(
      rows(`Time;${heading};Remark`, 50, () => remark),
      page,
    );
    const { preview } = await read(bytes);
    expect(preview.detected.encoding).not.toBe('utf-8');
    expect(preview.ready).toBe(50);
  });
});
