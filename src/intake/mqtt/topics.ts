import { Buffer } from 'node:buffer';
import { fahrenheitToCelsius, kelvinToCelsius } from '../../measure/units.ts';
import { BthomeError, type BthomeKey, bthomeServiceData, decodeBthome } from '../bthome/decode.ts';
import type { SentNumber } from '../bthome/repeats.ts';
import { readValue } from '../csv/values.ts';

/** How messages of a broker are understood. Both templates are the keeper's to set. */
export interface MqttShape {
  /** Topic with `{probe}` where the name of the probe stands, for example `shed/{probe}/temperature`. */
  readonly topic: string;
  /**
   * `number`: the payload is the temperature. `bthome`: hexadecimal BTHome v2 service data. Otherwise a path into a JSON payload,
   * for example `$.readings.tempC`; `$.time` and the like name the time by `timePath`.
   */
  readonly payload: string;
  /** Path of the time in a JSON payload: ISO 8601 or Unix time. Without it the arrival counts. */
  readonly timePath?: string;
  /** Path of the relative humidity: 0 to 1, or percent. */
  readonly humidityPath?: string;
  /** Path of the charge left in the battery, percent. */
  readonly batteryPath?: string;
  readonly unit?: 'C' | 'F';
  /** Keys of thermometers that encrypt what they send, by the name in the topic. */
  readonly keys?: ReadonlyMap<string, BthomeKey>;
}

export interface MqttReading {
  readonly probe: string;
  readonly atMs: number;
  /** Left out where the message speaks of the battery alone. */
  readonly tempC?: number;
  readonly humidity?: number;
  /** Charge left in the battery, percent. */
  readonly batteryPercent?: number;
  /** Whether the thermometer says itself that its battery is low. */
  readonly batteryLow?: boolean;
}

/** What one message turned out to be. */
export type MqttOutcome =
  | { readonly kind: 'reading'; readonly reading: MqttReading; readonly sent?: SentNumber }
  | { readonly kind: 'refused'; readonly why: string };

const MOST_BYTES = 8192;

/** The subscription that catches every probe of a topic template. */
export function subscriptionOf(topic: string): string {
  return topic.replace('{probe}', '+');
}

/** The probe a topic names; `undefined` when the topic does not fit the template. */
function probeOf(template: string, topic: string): string | undefined {
  const [before = '', after = ''] = template.split('{probe}');
  if (!topic.startsWith(before) || !topic.endsWith(after) || topic.length <= before.length + after.length)
    return undefined;
  const probe = topic.slice(before.length, topic.length - after.length);
  return probe.includes('/') || probe.length > 80 ? undefined : probe;
}

const refused = (why: string): MqttOutcome => ({ kind: 'refused', why });

/** Reads one message. Nothing in it is trusted: size, shape, numbers and times are checked, and a fault value is no reading. */
export function readMessage(shape: MqttShape, topic: string, payload: Uint8Array, arrivedMs: number): MqttOutcome {
  const probe = probeOf(shape.topic, topic);
  if (probe === undefined) return refused('the topic names no probe');
  if (payload.length > MOST_BYTES) return refused('the message is longer than 8,192 bytes');
  const text = Buffer.from(payload).toString('utf8').trim();
  if (shape.payload === 'bthome') return readBthome(shape, probe, text, arrivedMs);
  if (shape.payload === 'number') return finish(shape, probe, text, {}, arrivedMs);
  let body: unknown;
  try {
    body = JSON.parse(text);
  } catch {
    return refused('the message is not JSON');
  }
  const value = at(body, shape.payload);
  const beside = {
    time: shape.timePath ? at(body, shape.timePath) : undefined,
    humidity: shape.humidityPath ? at(body, shape.humidityPath) : undefined,
    battery: shape.batteryPath ? at(body, shape.batteryPath) : undefined,
  };
  if (value === undefined && isCharge(beside.battery)) {
    const atMs = beside.time === undefined ? arrivedMs : timeOf(beside.time);
    if (Number.isNaN(atMs)) return notATime(beside.time);
    return { kind: 'reading', reading: { probe, atMs, batteryPercent: beside.battery } };
  }
  if (typeof value !== 'number' && typeof value !== 'string')
    return refused(`the message has no value at ${shape.payload}`);
  return finish(shape, probe, String(value), beside, arrivedMs);
}

const isCharge = (value: unknown): value is number => typeof value === 'number' && value >= 0 && value <= 100;
const notATime = (time: unknown): MqttOutcome => refused(`“${String(time).slice(0, 40)}” is not a time`);

function finish(
  shape: MqttShape,
  probe: string,
  text: string,
  { time, humidity, battery }: { readonly time?: unknown; readonly humidity?: unknown; readonly battery?: unknown },
  arrivedMs: number,
): MqttOutcome {
  const value = readValue(text);
  if (value.kind !== 'value') return refused(`“${text.slice(0, 40)}” is not a temperature`);
  const unit = value.unit ?? shape.unit ?? 'C';
  const tempC =
    unit === 'F' ? fahrenheitToCelsius(value.value) : unit === 'K' ? kelvinToCelsius(value.value) : value.value;
  const atMs = time === undefined ? arrivedMs : timeOf(time);
  if (Number.isNaN(atMs)) return notATime(time);
  const humid =
    typeof humidity === 'number' && humidity >= 0 && humidity <= 100
      ? humidity > 1
        ? humidity / 100
        : humidity
      : undefined;
  return {
    kind: 'reading',
    reading: {
      probe,
      atMs,
      tempC: Math.round(tempC * 1e4) / 1e4,
      ...(humid === undefined ? {} : { humidity: humid }),
      ...(isCharge(battery) ? { batteryPercent: battery } : {}),
    },
  };
}

function readBthome(shape: MqttShape, probe: string, text: string, arrivedMs: number): MqttOutcome {
  if (!/^([0-9a-f]{2})+$/i.test(text)) return refused('the message is not hexadecimal');
  const bytes = Buffer.from(text, 'hex');
  try {
    const frame = decodeBthome(bthomeServiceData(bytes) ?? bytes, shape.keys?.get(probe));
    const first = (meaning: string) => frame.values.find((one) => one.meaning === meaning)?.value;
    const tempC = first('temperatureC');
    const [humidity, atS, packet] = [first('humidity'), first('atS'), first('packet')];
    const battery = batteryIn(first('batteryShare'), first('batteryLow'));
    if (tempC === undefined && !battery)
      return refused('the frame holds neither a temperature nor a word of its battery');
    const number = frame.counter ?? packet;
    return {
      kind: 'reading',
      reading: {
        probe,
        atMs: atS === undefined ? arrivedMs : atS * 1000,
        ...(tempC === undefined
          ? {}
          : { tempC, ...(humidity === undefined ? {} : { humidity: Math.min(1, humidity) }) }),
        ...battery,
      },
      ...(number === undefined || atS !== undefined ? {} : { sent: { number, rising: frame.counter !== undefined } }),
    };
  } catch (error) {
    if (error instanceof BthomeError) return refused(error.message);
    throw error;
  }
}

function batteryIn(share: number | undefined, low: number | undefined) {
  if (share === undefined && low === undefined) return undefined;
  return {
    ...(share === undefined ? {} : { batteryPercent: Math.min(100, Math.round(share * 100)) }),
    ...(low === undefined ? {} : { batteryLow: low === 1 }),
  };
}

function timeOf(value: unknown): number {
  if (typeof value === 'number') return value > 1e11 ? value : value * 1000;
  if (typeof value !== 'string') return Number.NaN;
  if (/^\d{10}(\d{3})?$/.test(value)) return timeOf(Number(value));
  // A time without a zone says nothing about the instant.
  return /(?:Z|[+-]\d{2}:?\d{2})$/i.test(value) ? Date.parse(value) : Number.NaN;
}

/** Follows a path such as `$.readings[0].tempC`. Only own properties are followed. */
function at(body: unknown, path: string): unknown {
  let found: unknown = body;
  for (const step of path
    .replace(/^\$\.?/, '')
    .split(/\.|\[|\]\.?/)
    .filter((part) => part !== '')) {
    if (typeof found !== 'object' || found === null || !Object.hasOwn(found, step)) return undefined;
    found = (found as Record<string, unknown>)[step];
  }
  return found;
}
