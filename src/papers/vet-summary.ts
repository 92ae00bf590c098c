import { say } from '../wording/say.ts';
import { drawPortrait } from './portrait.ts';
import { Sheet } from './sheet.ts';
import { SOFT } from './type.ts';
import type { VetView } from './vet-view.ts';

/** Side of the square that the photograph goes into, points. */
const PORTRAIT = 62;
/** How many lines of each list are shown, from the shortest page to the fullest. */
const CUTS = [1, 2, 3, 4, 5, 7, 9, 12, 16, 24];

/**
 * One animal's history on one page for the vet. When the records are longer than the page the oldest lines of the lists are left out, and
 * each list says how many. Never more than one page.
 */
export function vetSummary(view: VetView): Promise<Buffer> {
  const fits = (cut: number, letters = Number.POSITIVE_INFINITY): Sheet | undefined => {
    const sheet = drawn(view, cut, letters);
    return sheet.pages === 1 ? sheet : undefined;
  };
  // Longer lists never need less room, so the fullest page that fits is found by halving.
  let best: Sheet | undefined;
  let [low, high] = [0, CUTS.length - 1];
  while (low <= high) {
    const middle = Math.floor((low + high) / 2);
    const sheet = fits(CUTS[middle]!);
    if (sheet) {
      best = sheet;
      low = middle + 1;
    } else high = middle - 1;
  }
  // Very long notes: each line is cut, and says so.
  for (const letters of [160, 90, 50]) best ??= fits(1, letters);
  if (!best) throw new RangeError('a vet summary is one page');
  return best.finish();
}

function drawn(view: VetView, cut: number, letters: number): Sheet {
  const title = say('papers.vet.title', { animal: view.animalName });
  const sheet = new Sheet({
    title,
    madeAtMs: view.madeAtMs,
    margin: 36,
    foot: say('papers.vet.foot', { day: view.onDay }),
  });
  const short = (text: string) => (text.length > letters ? `${text.slice(0, letters).trimEnd()} …` : text);
  const body = { size: 9 };
  const top = sheet.y;
  const right = sheet.left + sheet.width;
  const pictured = view.portrait ? drawPortrait(sheet, view.portrait, right, top, PORTRAIT) + 8 : 0;
  const beside = { x: sheet.left, width: sheet.width - pictured };
  sheet.y += sheet.textAt('H1', title, { face: 'display', size: 20 }, { ...beside, y: sheet.y }) + 4;
  sheet.y += sheet.textAt('P', view.species, { face: 'text', size: 10.5 }, { ...beside, y: sheet.y }) + 3;
  if (view.portrait) sheet.y = Math.max(sheet.y, top + PORTRAIT + 4);
  sheet.facts(
    view.identity.map(([label, value]) => [label, short(value)] as const),
    2,
    9,
  );
  const list = (heading: string, items: readonly string[]): void => {
    sheet.heading(heading, 2, 12);
    if (items.length === 0) {
      sheet.paragraph(say('papers.vet.none'), { ...body, colour: SOFT });
      return;
    }
    sheet.list(items.slice(0, cut).map(short), body);
    const left = items.length - cut;
    if (left > 0) sheet.paragraph(say('papers.vet.more', { count: left }), { size: 8.5, colour: SOFT });
  };

  sheet.heading(say('papers.vet.mayItSleep'), 2, 12);
  sheet.paragraph(view.verdict, { ...body, face: 'bold' });
  if (view.openGates.length > 0) sheet.list(view.openGates.slice(0, Math.max(4, cut)).map(short), body);
  if (view.passedGates) sheet.paragraph(view.passedGates, body);
  if (view.condition) sheet.paragraph(view.condition, body);

  sheet.heading(say('papers.vet.weights'), 2, 30);
  if (view.weights.length === 0) sheet.paragraph(say('papers.vet.none'), { ...body, colour: SOFT });
  else
    sheet.table(
      [
        say('papers.column.day'),
        say('papers.vet.occasion'),
        say('papers.vet.mass'),
        say('papers.vet.change'),
        say('papers.vet.length'),
        say('papers.vet.note'),
      ],
      view.weights.slice(0, cut).map((row) => row.map(short)),
      [3, 4, 3, 3, 3, 6],
      { size: 8.8 },
    );
  if (view.weights.length > cut)
    sheet.paragraph(say('papers.vet.more', { count: view.weights.length - cut }), { size: 8.5, colour: SOFT });

  sheet.heading(say('papers.vet.winter'), 2, 12);
  sheet.paragraph(view.winter.join(' '), body);
  list(say('papers.vet.temperatures'), view.temperatures);
  list(say('papers.vet.notices'), view.notices);
  list(say('papers.vet.health'), view.health);
  list(say('papers.vet.examinations'), view.examinations);
  list(say('papers.vet.diary'), view.diary);
  sheet.paragraph(say('papers.vet.caution'), { size: 8.5, colour: SOFT });
  return sheet;
}
