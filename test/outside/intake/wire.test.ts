import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { readWireProbes } from '../../../src/intake/wire/bus.ts';
import { crc8, readWireFile } from '../../../src/intake/wire/frame.ts';

// Frames after the Linux kernel's w1_therm documentation and driver source; checksums by the Dallas/Maxim CRC-8.
const file = (bytes: string, thousandths: number, verdict = 'YES') =>
  `${bytes} : crc=${bytes.slice(-2)} ${verdict}\n${bytes} t=${thousandths}\n`;

describe('thermometers of the kernel’s 1-wire bus', () => {
  it.each([
    ['50 00 4b 46 7f ff 10 10 74', 5000, 5],
    ['4f 00 4b 46 7f ff 01 10 f2', 4937, 4.937],
    ['00 00 4b 46 7f ff 10 10 69', 0, 0],
    ['f8 ff 4b 46 7f ff 08 10 f8', -500, -0.5],
    ['5e ff 4b 46 7f ff 02 10 b6', -10125, -10.125],
  ])('%s is %d thousandths', (bytes, thousandths, tempC) => {
    expect(readWireFile(file(bytes, thousandths))).toEqual({ kind: 'reading', tempC });
    expect(crc8(Uint8Array.from(bytes.split(' ').slice(0, 8), (hex) => Number.parseInt(hex, 16)))).toBe(
      Number.parseInt(bytes.slice(-2), 16),
    );
  });

  it.each([
    ['', 'empty'],
    [file('50 05 4b 46 7f ff 0c 10 1c', 85000), 'power-on-value'],
    [file('ff 07 4b 46 7f ff 0c 10 a6', 127937), 'too-little-power'],
    [file('00 00 00 00 00 00 00 00 00', 0), 'bus-held-low'],
    [file('ff ff ff ff ff ff ff ff ff', -62, 'NO'), 'bus-open'],
    [file('50 00 4b 46 7f ff 10 10 75', 5000, 'NO'), 'checksum'],
    [file('50 00 4b 46 7f ff 10 10 75', 5000, 'YES'), 'checksum'],
    ['hello', 'unreadable'],
  ])('%j is no reading: %s', (text, why) => expect(readWireFile(text)).toEqual({ kind: 'none', why }));

  describe('a bus of files', () => {
    let folder: string;
    beforeEach(async () => {
      folder = await mkdtemp(join(tmpdir(), 'bus-'));
    });
    afterEach(() => rm(folder, { recursive: true }));

    it('reads each probe, and takes one that vanished for a failed read', async () => {
      for (const [serial, text] of [
        ['28-0000057a1c2b', file('50 00 4b 46 7f ff 10 10 74', 5000)],
        ['28-0000057a1c2c', ''],
      ] as const) {
        await mkdir(join(folder, serial));
        await writeFile(join(folder, serial, 'w1_slave'), text);
      }
      await mkdir(join(folder, '28-0000057a1c2d'));
      await mkdir(join(folder, 'w1_bus_master1'));
      expect(await readWireProbes(folder)).toEqual([
        { serial: '28-0000057a1c2b', reading: { kind: 'reading', tempC: 5 } },
        { serial: '28-0000057a1c2c', reading: { kind: 'none', why: 'empty' } },
        { serial: '28-0000057a1c2d', reading: { kind: 'none', why: 'empty' } },
      ]);
    });

    it('finds no probes where there is no bus', async () =>
      expect(await readWireProbes(join(folder, 'absent'))).toEqual([]));
  });
});
