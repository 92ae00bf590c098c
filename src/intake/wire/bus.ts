import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { readWireFile, type WireReading } from './frame.ts';

/** Families of thermometers the kernel's driver knows (Linux kernel documentation, w1_therm). */
const FAMILIES = /^(10|22|28|3b|42)-[0-9a-f]{12}$/i;

const WIRE_FOLDER = '/sys/bus/w1/devices';

export interface WireProbe {
  /** Name of the device folder: family and 48-bit number. */
  readonly serial: string;
  readonly reading: WireReading;
}

/** The thermometers on the bus, by their serial; an unreadable or missing folder gives none. */
async function listWireProbes(folder: string = WIRE_FOLDER): Promise<string[]> {
  try {
    return (await readdir(folder)).filter((name) => FAMILIES.test(name)).sort();
  } catch {
    return [];
  }
}

/**
 * Reads every thermometer, one after the other: each read starts a conversion of up to 750 ms, and two at once on one bus disturb each other.
 * A probe that was unplugged between listing and reading counts as an empty read.
 */
export async function readWireProbes(folder: string = WIRE_FOLDER): Promise<WireProbe[]> {
  const probes: WireProbe[] = [];
  for (const serial of await listWireProbes(folder)) {
    const text = await readFile(join(folder, serial, 'w1_slave'), 'utf8').catch(() => '');
    probes.push({ serial, reading: readWireFile(text) });
  }
  return probes;
}
