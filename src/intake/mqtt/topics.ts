import { Buffer } from 'node:buffer';
import { fahrenheitToCelsius, kelvinToCelsius } from '../../measure/units.ts';
import { BthomeError, bthomeServiceData, decodeBthome } from '../bthome/decode.ts';
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
}

export interface MqttReading {
  readonly probe: string;
  readonly atMs: number;
  readonly tempC: number;
  readonly humidity?: number;
  /** Charge left in the battery, percent. */
  readonly batteryPercent?: number;
}

/** What one message turned out to be. */
export type MqttOutcome =
  | { readonly kind: 'reading'; readonly reading: MqttReading }
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
  if (shape.payload === 'bthome') return readBthome(probe, text, arrivedMs);
  if (shape.payload === 'number') return finish(shape, probe, text, {}, arrivedMs);
  let body: unknown;
  try {
    body = JSON.parse(text);
  } catch {
    return refused('the message is not JSON');
  }
  const value = at(body, shape.payload);
  if (typeof value !== 'number' && typeof value !== 'string')
    return refused(`the message has no value at ${shape.payload}`);
  return finish(
    shape,
    probe,
    String(value),
    {
      time: shape.timePath ? at(body, shape.timePath) : undefined,
      humidity: shape.humidityPath ? at(body, shape.humidityPath) : undefined,
      battery: shape.batteryPath ? at(body, shape.batteryPath) : undefined,
    },
    arrivedMs,
  );
}

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
  if (Number.isNaN(atMs)) return refused(`“${String(time).slice(0, 40)}” is not a time`);
  const humid =
    typeof humidity === 'number' && humidity >= 0 && humidity <= 100
      ? humidity > 1
        ? humidity / 100
        : humidity
      : undefined;
  const charged = typeof battery === 'number' && battery >= 0 && battery <= 100;
  return {
    kind: 'reading',
    reading: {
      probe,
      atMs,
      tempC: Math.round(tempC * 1e4) / 1e4,
      ...(humid === undefined ? {} : { humidity: humid }),
      ...(charged ? { batteryPercent: battery } : {}),
    },
  };
}

function readBthome(probe: string, text: string, arrivedMs: number): MqttOutcome {
  if (!/^([0-9a-f]{2})+$/i.test(text)) return refused('the message is not hexadecimal');
  const bytes = Buffer.from(text, 'hex');
  try {
    const frame = decodeBthome(bthomeServiceData(bytes) ?? bytes);
    const first = (meaning: string) => frame.values.find((one) => one.meaning === meaning)?.value;
    const tempC = first('temperatureC');
    if (tempC === undefined) return refused('the frame holds no temperature');
    const [humidity, batteryShare, atS] = [first('humidity'), first('batteryShare'), first('atS')];
    return {
      kind: 'reading',
      reading: {
        probe,
        atMs: atS === undefined ? arrivedMs : atS * 1000,
        tempC,
        ...(humidity === undefined ? {} : { humidity: Math.min(1, humidity) }),
        ...(batteryShare === undefined ? {} : { batteryPercent: Math.min(100, Math.round(batteryShare * 100)) }),
      },
    };
  } catch (error) {
    if (error instanceof BthomeError) return refused(error.message);
    throw error;
  }
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
