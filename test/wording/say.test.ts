import { describe, expect, it } from 'vitest';
import { english as first } from '../../src/wording/en/first.ts';
import { english } from '../../src/wording/en/index.ts';
import { canSay, type MessageKey, message, say, spokenIn } from '../../src/wording/say.ts';

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

  it('says the temperatures written out in its sentences in the unit of the reader, and leaves what stands in values', () => {
    const american = { temperatureUnit: 'F', lengthUnit: 'in' } as const;
    const told = (key: MessageKey, values?: Record<string, string | number>) =>
      spokenIn(american, () => say(key, values));
    expect(told('winter.do.frost.1')).toBe('Carry the whole box to a place at 41 to 46 °F.');
    expect(told('winter.do.frost.when')).toBe('At or near 32 °F, or falling fast.');
    expect(told('winter.do.too-warm.when')).toBe('Over 46 °F for half a day, or over 50 °F.');
    expect(told('web.section.wall', { thickness: 40, material: 'polystyrene', holes: 'at 5 °C' })).toBe(
      '1.57 in polystyrene, at 5 °C',
    );
    // Every length of a row of them is turned, or none; a sentence that asks for millimetres keeps them.
    expect(told('tortoise.condition.beyondCurve', { from: 101.6, to: 254 })).toContain('from 4 to 10 in;');
    expect(told('tortoise.condition.beyondCurve', { from: 'short', to: 254 })).toContain('from short to 254 mm;');
    expect(told('heat.check.tooThick', { value: 2540, most: 1000 })).toContain('of 2540 mm');
    const damp = { humidity: '90\u00a0%', times: '0.4', dew: '\u22122.5\u00a0°C' };
    expect(told('air.humidity.damp', damp)).toContain('colder than 27.5\u00a0°F');
    expect(say('winter.do.frost.1')).toBe('Carry the whole box to a place at 5 to 8 °C.');
    expect(() => spokenIn(american, () => say('web.nonsense' as MessageKey))).toThrow(RangeError);
    expect(say('winter.do.frost.when')).toBe('At or near 0 °C, or falling fast.');
  });

  it('leaves no temperature in °C to a reader of °F, but where the unit itself is the matter', () => {
    const left = Object.keys(all).filter((key) =>
      /\d[ \u00a0]°C/.test(
        spokenIn({ temperatureUnit: 'F', lengthUnit: 'in' }, () =>
          say(key.replace(/_(one|other)$/, '') as MessageKey, { count: key.endsWith('_one') ? 1 : 2 }),
        ),
      ),
    );
    expect(left).toEqual([]);
    expect(Object.values(all).filter((text) => /\d[ \u00a0]°C/.test(text)).length).toBeGreaterThan(15);
  });

  it('holds the words of the first screen within the whole', () => {
    for (const [key, text] of Object.entries(first)) expect(all[key], key).toBe(text);
  });
});
