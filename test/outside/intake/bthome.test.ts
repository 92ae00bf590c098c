import { describe, expect, it } from 'vitest';
import { BthomeError, bthomeServiceData, decodeBthome } from '../../../src/intake/bthome/decode.ts';
import { Repeats } from '../../../src/intake/bthome/repeats.ts';

// Byte strings of the open standard's format page and its reference parser's tests (BTHome v2, read 2026-02).
const hex = (text: string) => Buffer.from(text.replaceAll(' ', ''), 'hex');
const examples: [string, [string, number][]][] = [
  [
    '40 02CA09 03BF13',
    [
      ['temperatureC', 25.06],
      ['humidity', 0.5055],
    ],
  ],
  [
    '40 0009 015D 025D09 03B718',
    [
      ['packet', 9],
      ['batteryShare', 0.93],
      ['temperatureC', 23.97],
      ['humidity', 0.6327],
    ],
  ],
  ['40 451101', [['temperatureC', 27.3]]],
  ['40 57EA', [['temperatureC', -22]]],
  ['40 58EA', [['temperatureC', -7.7]]],
  [
    '40 002E 0164 1E01 2E34 451601',
    [
      ['packet', 46],
      ['batteryShare', 1],
      ['humidity', 0.52],
      ['temperatureC', 27.8],
    ],
  ],
  ['40 0C020C', [['voltageV', 3.074]]],
  [
    '40 00A7 0C780B 1000',
    [
      ['packet', 167],
      ['voltageV', 2.936],
    ],
  ],
  [
    '40 02CA09 02CF09',
    [
      ['temperatureC', 25.06],
      ['temperatureC', 25.11],
    ],
  ],
  ['44 505D396164', [['atS', Date.parse('2023-05-14T19:41:17Z') / 1000]]],
  ['40 FECA09', []],
  ['40 015D FE5D09 03B718', [['batteryShare', 0.93]]],
  [
    '40 03BF13 02CA09',
    [
      ['humidity', 0.5055],
      ['temperatureC', 25.06],
    ],
  ],
  ['40 02CA09 03BF', [['temperatureC', 25.06]]],
];

describe('BTHome v2 against the examples of the open standard', () => {
  it.each(examples)('%s', (bytes, expected) => {
    const frame = decodeBthome(hex(bytes));
    expect(frame.values.map(({ meaning, value }) => [meaning, value])).toEqual(expected);
    expect(frame.outOfOrder).toBe(bytes === '40 03BF13 02CA09');
    expect(frame.irregular).toBe(bytes.startsWith('44'));
  });

  it('reads the address and refuses another version', () => {
    expect(decodeBthome(hex('42 B2188D38C1A4 04138A01')).mac).toBe('A4:C1:38:8D:18:B2');
    expect(() => decodeBthome(hex('E1 02000C0404138A01'))).toThrow(BthomeError);
  });

  it('finds the service data in a whole advertisement', () => {
    const service = bthomeServiceData(hex('020106 0B094449592D73656E736F72 0A16D2FC4002C40903BF13'));
    expect(decodeBthome(service ?? new Uint8Array()).values).toEqual([
      { meaning: 'temperatureC', value: 25 },
      { meaning: 'humidity', value: 0.5055 },
    ]);
  });

  it('decrypts the published frame, and refuses it with one bit changed or without encryption', () => {
    const secret = { key: hex('231d39c1d7cc1ab1aee224cd096db932'), mac: '54:48:E6:8F:80:A5' };
    const frame = decodeBthome(hex('41 A47266C95F73 00112233 78237214'), secret);
    expect(frame.values).toEqual([
      { meaning: 'temperatureC', value: 25.06 },
      { meaning: 'humidity', value: 0.5055 },
    ]);
    expect(() => decodeBthome(hex('41 A57266C95F73 00112233 78237214'), secret)).toThrow(/does not decrypt/);
    expect(() => decodeBthome(hex('40 02CA09'), secret)).toThrow(/not encrypted/);
    expect(() => decodeBthome(hex('41 A47266C95F73 00112233 78237214'))).toThrow(/no key/);
  });

  /** When the second of two frames of one sender counts as heard, the first having come at 0. */
  const second = (rising: boolean, first: number, number: number, atMs: number) => {
    const repeats = new Repeats();
    repeats.firstHeardMs('box', { number: first, rising }, 0);
    return repeats.firstHeardMs('box', { number, rising }, atMs);
  };

  it.each([
    ['the same', 9, 9, 1000, 0],
    ['the next, over the end of the count', 255, 0, 1000, 1000],
    ['63 ahead', 9, 72, 1000, 1000],
    ['64 ahead, which is one that was left behind', 9, 73, 1000, 0],
    ['the one before', 9, 8, 1000, 0],
    ['the same within four seconds', 9, 9, 4000, 0],
    ['the same after that', 9, 9, 4001, 4001],
  ])('takes a packet id that is %s as the reference parser does', (_, first, number, atMs, heard) => {
    expect(second(false, first, number, atMs)).toBe(heard);
  });

  it.each([
    ['rises', 5000, 5001, 5],
    ['is the same, however late: the broker sent it again', 5000, 5000, 0],
    ['falls: an old frame played back', 5000, 4999, undefined],
    ['falls to near nothing: a new battery', 5000, 3, 5],
    ['falls to the edge of that', 5000, 99, 5],
    ['falls to just above it', 5000, 100, undefined],
  ])('takes the counter of an encrypted frame that %s', (_, first, number, heard) => {
    expect(second(true, first, number, heard === 0 ? 86_400_000 : 5)).toBe(heard);
  });
});
