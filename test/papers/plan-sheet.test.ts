import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { describe, expect, it } from 'vitest';
import { planSheet } from '../../src/papers/plan-sheet.ts';
import { say } from '../../src/wording/say.ts';
import { adult, planned } from '../winter/plan-cases.ts';

interface Node {
  readonly role?: string;
  readonly children?: readonly Node[];
}
const roles = (node: Node): string[] => [node.role ?? '', ...(node.children ?? []).flatMap(roles)];
const squeeze = (text: string) => text.replace(/\s+/g, '');

describe('the plan sheet', () => {
  const plan = planned({ ...adult, sleepDay: '2026-11-28' });
  const view = { animalName: 'Želva the Elder', plan, revision: 2, madeAtMs: Date.parse('2026-09-20T18:05:00Z') };

  it('reads back letter for letter: every day, task and stretch, with its headings and tables in the structure', async () => {
    const file = await getDocument({ data: new Uint8Array(await planSheet(view)), verbosity: 0 }).promise;
    let text = '';
    const found: string[] = [];
    for (let number = 1; number <= file.numPages; number++) {
      const page = await file.getPage(number);
      text += (await page.getTextContent()).items.map((item) => ('str' in item ? item.str : '')).join('');
      found.push(...roles((await page.getStructTree()) as Node));
    }
    text = squeeze(text);
    expect(text).toContain(squeeze('Želva the Elder: plan for the winter 2026'));
    for (const task of plan.tasks) expect(text).toContain(squeeze(`${task.day}${say(task.say)}`));
    for (const stage of plan.stages) expect(text).toContain(squeeze(`${stage.fromDay}${stage.toDay}`));
    expect(text).toContain('notveterinaryadvice');
    expect(text).not.toContain('\u0000');
    expect(found).toEqual(expect.arrayContaining(['Document', 'H1', 'H2', 'P', 'Table', 'TR', 'TH', 'TD']));
    expect(found.filter((role) => role === 'TR').length).toBeGreaterThanOrEqual(plan.tasks.length + plan.stages.length);
    const { info } = (await file.getMetadata()) as { info: { Title?: string } };
    expect(info.Title).toBe('Želva the Elder: plan for the winter 2026');
    expect(await file.getMarkInfo()).toMatchObject({ Marked: true });
  });

  it('is the same file for the same plan', async () => {
    expect((await planSheet(view)).equals(await planSheet(view))).toBe(true);
  });

  it('refuses a name it has no letters for, and says which', async () => {
    expect(() => planSheet({ ...view, animalName: '亀' })).toThrow(/letter "亀"/);
  });
});
