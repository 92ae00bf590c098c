import type { BthomeKey } from './decode.ts';

/**
 * Reads the keys of thermometers that encrypt: a line each, `NAME KEY` or `NAME KEY ADDRESS`, the key as 32 hexadecimal digits, the
 * address as `54:48:E6:8F:80:A5`; empty lines and those that begin with `#` are left out.
 *
 * @throws RangeError naming the line and what is wrong with it, never the key
 */
export function readBthomeKeys(text: string): Map<string, BthomeKey> {
  const keys = new Map<string, BthomeKey>();
  for (const [index, line] of text.split(/\r?\n/).entries()) {
    if (/^\s*(#|$)/.test(line)) continue;
    const [name = '', key = '', mac, ...more] = line.trim().split(/\s+/);
    const wrong = (what: string) => new RangeError(`line ${index + 1}: ${what}`);
    if (!/^[0-9a-f]{32}$/i.test(key)) throw wrong('the key of a thermometer is 32 hexadecimal digits after its name');
    if (mac !== undefined && !/^([0-9a-f]{2}:){5}[0-9a-f]{2}$/i.test(mac))
      throw wrong('the address of a thermometer looks like 54:48:E6:8F:80:A5');
    if (more.length > 0) throw wrong('a name, a key and an address are all that a line holds');
    if (keys.has(name)) throw wrong('this name has a key already');
    keys.set(name, { key: Buffer.from(key, 'hex'), ...(mac === undefined ? {} : { mac }) });
  }
  return keys;
}
