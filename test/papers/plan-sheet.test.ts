import { describe, expect, it } from 'vitest';
import { shortDay } from '../../src/papers/days.ts';
import { planSheet } from '../../src/papers/plan-sheet.ts';
import { say } from '../../src/wording/say.ts';
import { adult, planned } from '../winter/plan-cases.ts';
import { readBack, squeeze } from './read-back.ts';

describe('the plan sheet', () => {
  const plan = planned({ ...adult, sleepDay: '2026-11-28' });
  const view = {
    animalName: 'Želva the Elder',
    species: 'Hermann’s tortoise, Testudo hermanni',
    plan,
    revision: 2,
    madeAtMs: Date.parse('2026-09-20T18:05:00Z'),
  };

  it('reads back letter for letter, in at most three pages, with headings, tables and lists in the structure', async () => {
    const read = await readBack(await planSheet(view));
    expect(read.pages).toBeLessThanOrEqual(3);
    expect(read.text).toContain(squeeze('Želva the Elder: plan for the winter 2026'));
    expect(read.text).toContain('notveterinaryadvice');
    expect(read.text).not.toContain('\u0000');
    expect(read.text).not.toContain('[?]');
    expect(read.roles).toEqual(
      expect.arrayContaining([
        'Document',
        'H1',
        'H2',
        'P',
        'Table',
        'TR',
        'TH',
        'TD',
        'L',
        'LI',
        'Lbl',
        'LBody',
        'Figure',
      ]),
    );
    expect(read.title).toBe('Želva the Elder: plan for the winter 2026');
    expect(read.marked).toBe(true);
  });

  it('names every thing to do once in its stretch, and the day of each that is done once', async () => {
    const { text } = await readBack(await planSheet(view));
    for (const task of plan.tasks) {
      expect(text).toContain(squeeze(say(task.say)));
      const once = plan.tasks.filter((one) => say(one.say) === say(task.say)).length === 1;
      if (once && (task.untilDay ?? task.day) === task.day)
        expect(text).toContain(squeeze(`${shortDay(task.day)} ${say(task.say)}`));
    }
    const putDown = plan.tasks.find((task) => task.key === 'put-down')!;
    expect(text).toContain(squeeze(`Sat 28 Nov ${say(putDown.say)}`));
  });

  it('numbers its sources and lists each once at the end', async () => {
    const { text } = await readBack(await planSheet(view));
    const cites = [...new Set([...plan.tasks, ...plan.notes].map(({ source }) => source.cite))];
    const list = text.slice(text.lastIndexOf('Sources[1]'));
    for (const cite of cites) {
      expect(list.split(squeeze(`]${cite}`)).length).toBeGreaterThanOrEqual(2);
      expect(list).toMatch(/\[\d+\]/);
    }
  });

  it('draws the winter line with the stretches in words for those who do not see it', async () => {
    const [alt] = (await readBack(await planSheet(view))).alts;
    for (const stage of plan.stages) expect(alt).toContain(say(`papers.stage.${stage.name}`));
  });

  it('is the same file for the same plan, byte for byte', async () => {
    expect((await planSheet(view)).equals(await planSheet(view))).toBe(true);
  });

  it('prints names in other European scripts, and shows a letter it has no type for as [?] with a word on it', async () => {
    const greek = await readBack(await planSheet({ ...view, animalName: 'Χελώνα Żółwik Черепаха' }));
    expect(greek.text).toContain(squeeze('Χελώνα Żółwik Черепаха: plan'));
    expect(greek.text).not.toContain('[?]');
    const beyond = await readBack(await planSheet({ ...view, animalName: '亀 🐢' }));
    expect(beyond.text).toContain(squeeze('[?] [?]: plan'));
    expect(beyond.text).toContain(squeeze(say('papers.unprintable')));
    expect(beyond.text).not.toContain('\u0000');
  });
});
