/**
 * What a thermometer on the Linux kernel's 1-wire bus says in its `w1_slave` file: two lines with the nine bytes of the scratchpad,
 * the checksum's verdict, and thousandths of a degree (Linux kernel documentation, w1_therm).
 */
export type WireReading =
  | { readonly kind: 'reading'; readonly tempC: number }
  | { readonly kind: 'none'; readonly why: WireFault };

type WireFault =
  | 'empty'
  | 'checksum'
  | 'unreadable'
  | 'bus-held-low'
  | 'bus-open'
  | 'power-on-value'
  | 'too-little-power'
  | 'out-of-range';

const none = (why: WireFault): WireReading => ({ kind: 'none', why });

/** CRC-8 of Dallas/Maxim: polynomial x^8 + x^5 + x^4 + 1, reflected (0x8C), initial value 0. */
export function crc8(bytes: Uint8Array): number {
  let crc = 0;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit += 1) crc = crc & 1 ? (crc >> 1) ^ 0x8c : crc >> 1;
  }
  return crc;
}

/**
 * Reads the text of a `w1_slave` file. A failed read is an empty file, not an error; bytes that are all zero pass the checksum and mean a wire held low;
 * byte 6 = 0x0C with 85 °C or 127.94 °C is the value a chip shows before it has measured.
 */
export function readWireFile(text: string): WireReading {
  if (text.trim() === '') return none('empty');
  const match = /^((?:[0-9a-f]{2} ){9}): crc=([0-9a-f]{2}) (YES|NO)/im.exec(text);
  const thousandths = /\bt=(-?\d{1,6})\s*$/m.exec(text);
  if (!match || !thousandths) return none('unreadable');
  const bytes = Uint8Array.from((match[1] ?? '').trim().split(' '), (hex) => Number.parseInt(hex, 16));
  if (bytes.every((byte) => byte === 0xff)) return none('bus-open');
  if (bytes.every((byte) => byte === 0)) return none('bus-held-low');
  if (match[3]?.toUpperCase() !== 'YES' || crc8(bytes.subarray(0, 8)) !== bytes[8]) return none('checksum');
  const value = Number(thousandths[1]);
  if (bytes[6] === 0x0c && value === 85_000) return none('power-on-value');
  if (bytes[6] === 0x0c && value === 127_937) return none('too-little-power');
  const tempC = value / 1000;
  return tempC >= -55 && tempC <= 125 ? { kind: 'reading', tempC } : none('out-of-range');
}
