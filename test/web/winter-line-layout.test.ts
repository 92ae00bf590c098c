import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays, daysBetween } from '../../src/measure/day.ts';
import {
  type Layout,
  layOut,
  type MeasureText,
  type PlacedText,
  type WinterLineFacts,
} from '../../src/web/winter-line/layout.ts';

/** Wide letters: a real font is narrower. */
const measure: MeasureText = (text, style) => text.length * (style === 'stage' ? 7.2 : 7.6);

const names = ['feeding-up', 'winding-down', 'fast', 'asleep', 'waking', 'recovering', 'back-to-full'] as const;

function facts(lengths: readonly number[], more: Partial<WinterLineFacts> = {}): WinterLineFacts {
  let from = '2026-08-20';
  const stages = names.map((name, index) => {
    const toDay = addDays(from, (lengths[index] ?? 1) - 1);
    const stage = { name, fromDay: from, toDay, label: name.replaceAll('-', ' ') };
    from = addDays(toDay, 1);
    return stage;
  });
  return {
    stages,
    weighIns: [],
    temperatures: [],
    temperature: (tempC) => `${tempC} °C`,
    expected: [],
    band: { lowC: 3, highC: 8, lowLabel: '3 °C', highLabel: '8 °C' },
    notices: [],
    monthName: (day) => `M${day.slice(5, 7)}`,
    ...more,
  };
}

const left = (text: PlacedText) => (text.anchor === 'end' ? text.x - text.width : text.x);
const right = (text: PlacedText) => left(text) + text.width;
const touch = (a: PlacedText, b: PlacedText) =>
  Math.abs(a.y - b.y) < 13 && left(a) < right(b) - 0.5 && left(b) < right(a) - 0.5;

function allTexts(at: Layout): PlacedText[] {
  return [
    ...at.stages.map((stage) => stage.label),
    ...at.masses,
    ...(at.today ? [at.today] : []),
    ...at.notices,
    ...(at.ribbon ? [at.ribbon.lowLabel, at.ribbon.highLabel] : []),
    ...at.months.flatMap((month) => (month.label ? [month.label] : [])),
  ];
}

const winters = fc.record({
  lengths: fc.tuple(
    fc.integer({ min: 1, max: 90 }),
    fc.integer({ min: 5, max: 40 }),
    fc.integer({ min: 5, max: 35 }),
    fc.integer({ min: 5, max: 91 }),
    fc.integer({ min: 1, max: 2 }),
    fc.integer({ min: 3, max: 40 }),
    fc.integer({ min: 5, max: 90 }),
  ),
  width: fc.integer({ min: 324, max: 1080 }),
  today: fc.integer({ min: 0, max: 300 }),
  weighIns: fc.array(fc.tuple(fc.integer({ min: 0, max: 300 }), fc.integer({ min: 20, max: 3000 })), { maxLength: 20 }),
  notices: fc.array(fc.tuple(fc.integer({ min: 0, max: 300 }), fc.boolean()), { maxLength: 8 }),
});

describe('the winter line keeps every word readable', () => {
  it('clips no label and lays none on another, at any width of phone or laptop', () => {
    fc.assert(
      fc.property(winters, ({ lengths, width, today, weighIns, notices }) => {
        const from = '2026-08-20';
        const at = layOut(
          facts(lengths, {
            today: { day: addDays(from, today), label: 'today, night 42 of 77' },
            weighIns: weighIns
              .map(([day, massG]) => ({ day: addDays(from, day), massG, label: `${massG} g` }))
              .sort((a, b) => daysBetween(b.day, a.day)),
            notices: notices.map(([day, actNow]) => ({
              day: addDays(from, day),
              label: '1.6 °C for 40 minutes',
              actNow,
            })),
          }),
          width,
          measure,
        );
        const texts = allTexts(at);
        for (const text of texts) {
          expect(left(text)).toBeGreaterThanOrEqual(0);
          expect(right(text)).toBeLessThanOrEqual(width + 0.5);
          expect(text.y).toBeGreaterThan(8);
          expect(text.y).toBeLessThan(at.height);
        }
        for (let i = 0; i < texts.length; i++)
          for (let j = i + 1; j < texts.length; j++)
            expect(
              touch(texts[i] as PlacedText, texts[j] as PlacedText),
              `${texts[i]?.text} on ${texts[j]?.text}`,
            ).toBe(false);
      }),
      { numRuns: 300 },
    );
  });

  it('gives a waking of one day a box that can be seen', () => {
    const at = layOut(facts([60, 21, 26, 77, 1, 25, 60]), 324, measure);
    const waking = at.stages.find((stage) => stage.name === 'waking');
    expect((waking?.x1 ?? 0) - (waking?.x0 ?? 0)).toBeGreaterThanOrEqual(9);
  });

  it('draws a heavier weigh-in as a taller tick', () => {
    const at = layOut(
      facts([60, 21, 26, 77, 1, 25, 60], {
        weighIns: [
          { day: '2026-09-01', massG: 780, label: '780 g' },
          { day: '2026-10-01', massG: 812, label: '812 g' },
        ],
      }),
      1000,
      measure,
    );
    expect(at.ticks[1]?.top).toBeLessThan(at.ticks[0]?.top ?? 0);
  });

  it('flags what asks to act now before anything newer, and says how much it left out', () => {
    const day = '2026-12-20';
    const at = layOut(
      facts([60, 21, 26, 77, 1, 25, 60], {
        notices: [
          { day, label: 'frost', actNow: true },
          ...[1, 2, 3, 4].map((later) => ({ day: addDays(day, later), label: `warm ${later}`, actNow: false })),
        ],
      }),
      340,
      measure,
    );
    expect(at.notices.map((notice) => notice.text)).toContain('frost');
    expect(at.noticesLeftOut).toBe(3);
  });
});
