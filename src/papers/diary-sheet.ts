import { say } from '../wording/say.ts';
import { plainDay, shortDay } from './days.ts';
import type { DiaryView } from './diary-view.ts';
import { type Cell, Sheet, TICK } from './sheet.ts';
import { SOFT } from './type.ts';

/** Least room to write a line by hand, points. */
const LEAST_ROW = 24;
const MOST_ROW = 44;

/** The sheet for the wall of the shed: one ruled line a week, with the date and the weight expected. */
export function diarySheet(view: DiaryView): Promise<Buffer> {
  const title = say(view.asleep ? 'papers.diary.title' : 'papers.diary.titleAwake', {
    animal: view.animalName,
    winter: view.winter,
  });
  const sheet = new Sheet({ title, madeAtMs: view.madeAtMs, margin: 36, foot: title });
  sheet.heading(title, 1);
  sheet.paragraph([view.species, view.box].filter(Boolean).join(' · '), { colour: SOFT });
  if (view.asleep)
    sheet.paragraph(
      view.startMass
        ? say('papers.diary.limits', { start: view.startMass, plan: view.planLimit!, end: view.endLimit! })
        : say('papers.diary.limitsOpen'),
      { face: 'bold' },
    );
  sheet.paragraph(say(view.asleep ? 'papers.diary.how' : 'papers.diary.howAwake'), { size: 9.5 });
  const degrees = view.temperatureUnit === 'F' ? '°F' : '°C';
  const rows = view.lines;
  const room = sheet.bottom - sheet.y - (view.asleep ? 92 : 40);
  const rowHeight = Math.min(MOST_ROW, Math.max(LEAST_ROW, room / rows.length - 3));
  if (view.asleep)
    sheet.table(
      [
        say('papers.column.day'),
        say('papers.diary.expected'),
        say('papers.diary.weight', { unit: view.massUnit }),
        say('papers.diary.coldest', { unit: degrees }),
        say('papers.diary.warmest', { unit: degrees }),
        say('papers.diary.lid'),
        say('papers.diary.foot'),
        say('papers.diary.urine'),
        say('papers.diary.seen'),
      ],
      rows.map(({ day, expected, weighed }): Cell[] => [
        shortDay(day),
        expected ?? '',
        weighed ?? '',
        '',
        '',
        TICK,
        TICK,
        '',
        '',
      ]),
      [2.8, 3.6, 2.6, 2.1, 2.1, 1.5, 1.7, 1.7, 6.5],
      { rowHeight, ruled: true, size: 9 },
    );
  else
    sheet.table(
      [
        say('papers.column.day'),
        say('papers.diary.weight', { unit: view.massUnit }),
        say('papers.diary.ate'),
        say('papers.diary.drank'),
        say('papers.diary.bath'),
        say('papers.diary.seen'),
      ],
      rows.map(({ day, weighed }): Cell[] => [plainDay(day), weighed ?? '', TICK, TICK, TICK, '']),
      [3.4, 3, 1.6, 1.8, 1.6, 11],
      { rowHeight, ruled: true, size: 9 },
    );
  if (view.asleep) {
    if (rows.some((row) => row.expected)) sheet.paragraph(say('papers.diary.expectedHow'), { size: 8.5, colour: SOFT });
    sheet.paragraph(say('papers.diary.actNow'), { size: 9.5 });
  }
  sheet.paragraph(`${say('winter.caution.hands')} ${say('winter.caution.notVet')}`, { size: 8.5, colour: SOFT });
  return sheet.finish();
}
