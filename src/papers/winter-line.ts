import { type Day, daysBetween } from '../measure/day.ts';
import type { Stage, StageName, WinterPlan } from '../winter/plan-types.ts';
import { say } from '../wording/say.ts';
import { plainDay, shortDay } from './days.ts';
import type { Sheet } from './sheet.ts';
import { INK, SOFT } from './type.ts';

type Stroke = 'solid' | 'falling' | 'dotted' | 'double' | 'open' | 'rising';

/** Each stage is told by its position, its number and its stroke; no colour is needed. */
const STROKES: Record<StageName, Stroke> = {
  'feeding-up': 'solid',
  'winding-down': 'falling',
  fast: 'dotted',
  asleep: 'double',
  waking: 'open',
  recovering: 'rising',
  'back-to-full': 'solid',
  cooling: 'double',
  awake: 'solid',
};
const HEIGHT = 9;

/** The winter line of a plan across the page: its stretches numbered as in the list below it. */
export function drawWinterLine(sheet: Sheet, plan: WinterPlan): void {
  const { left, width } = sheet;
  const top = sheet.y + 4;
  const total = daysBetween(plan.fromDay, plan.toDay) + 1;
  const at = (day: Day) => left + (daysBetween(plan.fromDay, day) / total) * width;
  const edge = (stage: Stage) => [at(stage.fromDay), at(stage.toDay) + width / total] as const;
  const alt = plan.stages.map((stage) =>
    say('papers.line.stage', {
      stage: say(`papers.stage.${stage.name}`),
      from: plainDay(stage.fromDay),
      to: plainDay(stage.toDay),
    }),
  );
  sheet.figure(say('papers.line.alt', { stages: alt.join('; ') }), { x: left, y: top }, (doc) => {
    for (const stage of plan.stages) {
      const [x1, x2] = edge(stage);
      stroke(doc, STROKES[stage.name], x1, x2, top + 14);
    }
  });
  plan.stages.forEach((stage, i) => {
    const [x1, x2] = edge(stage);
    sheet.textAt('P', String(i + 1), { face: 'bold', size: 8 }, { x: (x1 + x2) / 2 - 2.4, y: top, width: 20 });
  });
  const named = [plan.fromDay, plan.sleepDay, plan.wakeDay].filter((day) => day !== undefined);
  for (const day of named)
    sheet.textAt('P', shortDay(day), { face: 'text', size: 8, colour: SOFT }, { x: at(day), y: top + 27, width: 70 });
  sheet.textAt(
    'P',
    shortDay(plan.toDay),
    { face: 'text', size: 8, colour: SOFT },
    { x: left + width - 44, y: top + 27, width: 60 },
  );
  sheet.gap(46);
}

function stroke(doc: PDFKit.PDFDocument, kind: Stroke, x1: number, x2: number, y: number): void {
  const end = x2 - 1;
  doc.save();
  doc.lineWidth(0.8).strokeColor(INK).fillColor(INK);
  if (kind === 'solid') doc.rect(x1, y, end - x1, HEIGHT).fill();
  else if (kind === 'open') doc.rect(x1 + 0.4, y, Math.max(1, end - x1 - 0.8), HEIGHT).stroke();
  else if (kind === 'double') {
    for (const dy of [2, HEIGHT - 2]) doc.moveTo(x1, y + dy).lineTo(end, y + dy);
    doc.stroke();
  } else if (kind === 'dotted') {
    for (let x = x1 + 2; x < end; x += 4.5) doc.circle(x, y + HEIGHT / 2, 1.1).fill();
  } else {
    const falling = kind === 'falling';
    const small = HEIGHT / 3;
    const [h1, h2] = falling ? [HEIGHT, small] : [small, HEIGHT];
    doc.polygon(
      [x1, y + (HEIGHT - h1) / 2],
      [end, y + (HEIGHT - h2) / 2],
      [end, y + (HEIGHT + h2) / 2],
      [x1, y + (HEIGHT + h1) / 2],
    );
    doc.clip();
    for (let x = x1 - HEIGHT; x < end + HEIGHT; x += 3.5)
      doc.moveTo(falling ? x : x + HEIGHT, y).lineTo(falling ? x + HEIGHT : x, y + HEIGHT);
    doc.stroke();
  }
  doc.restore();
}
