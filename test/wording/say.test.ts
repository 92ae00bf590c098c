import { describe, expect, it } from 'vitest';
import { english as first } from '../../src/wording/en/first.ts';
import { english } from '../../src/wording/en/index.ts';
import { canSay, type MessageKey, message, say } from '../../src/wording/say.ts';

const all: Readonly<Record<string, string>> = english;

describe('the catalogue', () => {
  it('puts values in their places and leaves text as it is, signs of other languages and all', () => {
    expect(say('web.round.lastMass', { mass: '412\u00a0g', day: '<3\u00a0May> {{day}} $t(web.save)' })).toBe(
      'Last 412\u00a0g on <3\u00a0May> {{day}} $t(web.save).',
    );
    expect(say(message('web.round.notANumber', { text: '{{text}}' }))).toContain('“{{text}}” is not a number');
  });

  it('chooses between one and many by the count', () => {
    const left = (count: number) => say('web.undelivered.title', { count });
    expect(left(1)).toBe('A message has reached nobody');
    expect([0, 2, 21].map(left)).toEqual([0, 2, 21].map((count) => `${count} messages have not arrived`));
  });

  it('throws where there are no words, an inherited name included', () => {
    for (const key of ['web.nonsense', 'constructor', 'web.undelivered.title']) {
      expect(() => say(key as MessageKey)).toThrow(RangeError);
      expect(canSay({ key })).toBe(false);
    }
    expect(canSay({ key: 'web.undelivered.title', values: { count: 2 } })).toBe(true);
  });

  it('has every plural in both forms, and nothing twice', () => {
    const keys = Object.keys(all);
    for (const key of keys.filter((one) => one.endsWith('_one')))
      expect(all[key.replace(/_one$/, '_other')], key).toBeDefined();
    for (const key of keys.filter((one) => one.endsWith('_other')))
      expect(all[key.replace(/_other$/, '_one')], key).toBeDefined();
  });

  it('holds the words of the first screen within the whole', () => {
    for (const [key, text] of Object.entries(first)) expect(all[key], key).toBe(text);
  });
});
