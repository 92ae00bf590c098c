import { WHAT_IS_NORMAL } from '../winter/what-is-normal.ts';
import { WHAT_TO_DO, whatToDo } from '../winter/what-to-do.ts';
import { say } from '../wording/say.ts';
import { type Piece, Sheet } from './sheet.ts';
import { SOFT, type Style } from './type.ts';

/** Two pages for the workshop: what is normal with what is not, and what to do now. */
export function handout(madeAtMs: number): Promise<Buffer> {
  const title = say('papers.handout.title');
  const sheet = new Sheet({ title, madeAtMs, margin: 40, foot: title });
  sheet.heading(title, 1);
  sheet.paragraph(say('papers.handout.lead'));
  for (const when of ['asleep', 'waking'] as const) {
    sheet.heading(say(`papers.handout.${when}`));
    sheet.table(
      [say('papers.handout.normal'), say('papers.handout.notNormal'), say('papers.handout.then')],
      WHAT_IS_NORMAL.filter((row) => row.when === when).map((row) => [
        say(row.normal),
        say(row.notNormal),
        say(whatToDo(row.page).title),
      ]),
      [9, 8, 4],
      { size: 10.3 },
    );
  }
  sheet.heading(say('papers.handout.numbers'));
  sheet.table(
    [],
    [say('papers.label.tutor'), say('papers.label.vet')].map((who) => [who, '']),
    [5, 15],
    { rowHeight: 24, size: 10.3 },
  );
  const cautions = new Set(WHAT_TO_DO.flatMap((page) => page.cautions));
  sheet.paragraph([...cautions].map((caution) => say(caution)).join(' '), { size: 9.5 });
  sheet.paragraph(say('papers.handout.caution'), { size: 9.5 });

  sheet.newPage();
  sheet.heading(say('papers.handout.now'), 2);
  sheet.paragraph(say('papers.handout.nowLead'), { size: 9 });
  const body: Style = { face: 'text', size: 8.8 };
  sheet.columns(
    WHAT_TO_DO.map((page): Piece[] => [
      { kind: 'H3', text: say(page.title), style: { face: 'display', size: 11 } },
      { kind: 'P', text: say(page.when), style: { ...body, colour: SOFT } },
      ...page.steps.map((step, i): Piece => ({ kind: 'LI', text: say(step), label: `${i + 1}.`, style: body })),
      { kind: 'P', text: say(page.call), style: { face: 'bold', size: 8.8 } },
    ]),
    2,
  );
  return sheet.finish();
}
