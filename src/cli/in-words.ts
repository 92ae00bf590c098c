import type { Source } from '../measure/source.ts';
import { sourceLine } from '../schema/assess.ts';
import { type Message, say } from '../wording/say.ts';

function isMessage(value: object): value is Message {
  const keys = Object.keys(value);
  return 'key' in value && typeof value.key === 'string' && keys.every((key) => key === 'key' || key === 'values');
}

const isSource = (value: object): value is Source => 'cite' in value && 'status' in value;

/** A result of the knowledge as JSON for people: every message in words, every source in one line, the rest as it is. */
export function inWords(value: unknown): unknown {
  if (typeof value !== 'object' || value === null) return value;
  if (Array.isArray(value)) return value.map(inWords);
  if (isMessage(value)) return say(value);
  if (isSource(value)) return sourceLine(value);
  return Object.fromEntries(Object.entries(value).map(([key, each]) => [key, inWords(each)]));
}
