import { describe, expect, it } from 'vitest';
import { diaryKindSchema } from '../../src/schema/diary.ts';
import { WATCH_RULES } from '../../src/winter/watch-rules.ts';
import { normalBeside, WHAT_IS_NORMAL } from '../../src/winter/what-is-normal.ts';
import { WHAT_TO_DO, whatToDo } from '../../src/winter/what-to-do.ts';
import { say } from '../../src/wording/say.ts';

const words = (text: string) => text.split(/\s+/).length;

describe('what to do now', () => {
  it.each(WHAT_TO_DO.map((page) => page.id))('%s is read in twenty seconds and ends with whom to call', (id) => {
    const page = whatToDo(id);
    const text = [page.title, ...page.steps, page.call].map((key) => say(key)).join(' ');
    // 240 words a minute, a plain reader's pace.
    expect(words(text)).toBeLessThanOrEqual(80);
    expect(say(page.call)).toMatch(/[Cc]all/);
    expect(page.cautions.length).toBeGreaterThan(0);
    for (const key of [page.when, ...page.cautions]) expect(say(key).length).toBeGreaterThan(10);
  });

  it('has every page once, and every rule that names a page finds it', () => {
    expect(new Set(WHAT_TO_DO.map((page) => page.id)).size).toBe(WHAT_TO_DO.length);
    for (const rule of WATCH_RULES) if (rule.page) expect(whatToDo(rule.page).id).toBe(rule.page);
    for (const rule of WATCH_RULES) if (rule.level === 'act-now') expect(rule.page).not.toBeNull();
  });

  it('never says safe, and says that a frozen animal is not to be put on heat', () => {
    for (const page of WHAT_TO_DO)
      for (const key of [page.title, page.when, ...page.steps, page.call, ...page.cautions])
        expect(say(key)).not.toMatch(/\bsafe/i);
    expect(
      whatToDo('frost')
        .steps.map((key) => say(key))
        .join(' '),
    ).toMatch(/never on heat/);
  });
});

describe('what is normal', () => {
  it('stands beside entries that exist, each with what is not normal and a page for it', () => {
    const kinds = new Set<string>([...diaryKindSchema.options, 'weigh-in', 'temperature', 'examination']);
    for (const one of WHAT_IS_NORMAL) {
      for (const beside of one.beside) expect(kinds).toContain(beside);
      expect(say(one.normal)).not.toBe(say(one.notNormal));
      expect(whatToDo(one.page)).toBeDefined();
    }
  });

  it('is offered beside the weigh-in of a sleeping animal, not of a waking one', () => {
    expect(normalBeside('weigh-in', 'asleep').map((one) => one.id)).toEqual(['grams', 'gain']);
    expect(normalBeside('weigh-in', 'waking')).toEqual([]);
  });
});
