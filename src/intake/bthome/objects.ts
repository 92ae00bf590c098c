/**
 * Objects of BTHome v2, an open format for wireless sensors (format page of the open standard; values read 2026-02).
 * Little-endian. Only what a keeper's box can use has a `meaning`; the rest is listed so that decoding can step over it.
 */
export type BthomeMeaning =
  | 'temperatureC'
  | 'humidity'
  | 'batteryShare'
  | 'batteryLow'
  | 'voltageV'
  | 'massKg'
  | 'packet'
  | 'atS';

export interface BthomeObject {
  readonly bytes: number;
  readonly signed: boolean;
  readonly factor: number;
  readonly meaning?: BthomeMeaning;
}

const of = (bytes: number, signed: boolean, factor: number, meaning?: BthomeMeaning): BthomeObject =>
  meaning ? { bytes, signed, factor, meaning } : { bytes, signed, factor };
const flag = of(1, false, 1);

export const BTHOME_OBJECTS: ReadonlyMap<number, BthomeObject> = new Map([
  [0x00, of(1, false, 1, 'packet')],
  [0x01, of(1, false, 0.01, 'batteryShare')],
  [0x02, of(2, true, 0.01, 'temperatureC')],
  [0x03, of(2, false, 0.0001, 'humidity')],
  [0x04, of(3, false, 0.01)],
  [0x06, of(2, false, 0.01, 'massKg')],
  [0x07, of(2, false, 0.00453592, 'massKg')],
  [0x08, of(2, true, 0.01)],
  [0x0c, of(2, false, 0.001, 'voltageV')],
  [0x12, of(2, false, 1)],
  [0x14, of(2, false, 0.01)],
  [0x2e, of(1, false, 0.01, 'humidity')],
  [0x2f, of(1, false, 1)],
  [0x45, of(2, true, 0.1, 'temperatureC')],
  [0x4a, of(2, false, 0.1, 'voltageV')],
  [0x50, of(4, false, 1, 'atS')],
  [0x57, of(1, true, 1, 'temperatureC')],
  [0x58, of(1, true, 0.35, 'temperatureC')],
  [0x0f, flag],
  [0x10, flag],
  [0x11, flag],
  [0x15, of(1, false, 1, 'batteryLow')],
  [0x18, flag],
  [0x1a, flag],
  [0x1d, flag],
  [0x1e, flag],
  [0x20, flag],
  [0x26, flag],
  [0x2d, flag],
]);

/** Text (0x53) and raw bytes (0x54) carry their length in their first byte. */
export const BTHOME_WITH_LENGTH: ReadonlySet<number> = new Set([0x53, 0x54]);
