import QRCode from 'qrcode';
import { say } from '../wording/say.ts';
import type { LabelView } from './label-view.ts';
import { drawPortrait } from './portrait.ts';
import { Sheet } from './sheet.ts';
import { SOFT } from './type.ts';

export type LabelSize = 'A6' | 'A5';
/** A5 is A6 enlarged by the square root of two, so the label is drawn once. */
const SCALE: Record<LabelSize, number> = { A6: 1, A5: Math.SQRT2 };

/** The label on the lid of a box: who sleeps in it, from when to when, the limits in grams, whom to call, and a square that opens its page. */
export function boxLabel(view: LabelView, size: LabelSize = 'A6'): Promise<Buffer> {
  const k = SCALE[size];
  const title = say('papers.label.title', { animal: view.animalName, winter: view.winter });
  const sheet = new Sheet({ title, madeAtMs: view.madeAtMs, size, landscape: true, margin: 18 * k });
  const { left, width } = sheet;
  const qr = 74 * k;
  const square = left + width - qr;
  // A stranger who opens the wrong lid sees at once that it is another animal.
  const pictured = view.portrait ? drawPortrait(sheet, view.portrait, square - 4 * k, sheet.y, qr) + 4 * k : 0;
  const nameWidth = width - qr - pictured - 12 * k;
  // A long name is set smaller rather than cut.
  const nameSize =
    (view.animalName.length > (view.portrait ? 9 : 14) ? (view.animalName.length > 26 ? 13 : 18) : 26) * k;
  let y = sheet.y;
  y += sheet.textAt('H1', view.animalName, { face: 'display', size: nameSize }, { x: left, y, width: nameWidth });
  y += sheet.textAt('P', view.species, { face: 'text', size: 9 * k }, { x: left, y, width: nameWidth });
  if (view.box)
    sheet.textAt('P', view.box, { face: 'text', size: 9 * k, colour: SOFT }, { x: left, y, width: nameWidth });
  sheet.figure(
    say('papers.label.square', { animal: view.animalName, address: view.address }),
    { x: square, y: sheet.y },
    (doc, x, top) => drawSquare(doc, view.address, x, top, qr),
  );

  const factsTop = sheet.y + qr + 8 * k;
  sheet.rule(left, factsTop, width, 0.9);
  const column = width / 3;
  const facts = [
    [say('papers.label.start'), view.startMass],
    [say('papers.label.asleep'), view.sleepDay],
    [say('papers.label.wake'), view.wakeDay],
  ] as const;
  facts.forEach(([label, value], i) => {
    const x = left + i * column;
    sheet.textAt(
      'P',
      label,
      { face: 'text', size: 8 * k, colour: SOFT },
      { x, y: factsTop + 5 * k, width: column - 6 },
    );
    const at = { x, y: factsTop + 15 * k, width: column - 4 };
    if (value) sheet.textAt('P', value, { face: 'display', size: (i === 0 ? 15 : 12.5) * k }, at);
    else sheet.rule(x, factsTop + 34 * k, column - 12 * k);
  });

  y = factsTop + 42 * k;
  sheet.rule(left, y, width);
  y += 5 * k;
  const say9 = (text: string, bold = false): void => {
    y += sheet.textAt('P', text, { face: bold ? 'bold' : 'text', size: 9 * k }, { x: left, y, width }) + 1.5 * k;
  };
  say9(say('papers.label.band', { aim: view.aim, low: view.bandLow, high: view.bandHigh }));
  if (view.planLimit && view.endLimit) {
    say9(say('papers.label.limits', { plan: view.planLimit, end: view.endLimit }), true);
  } else say9(say('papers.label.limitsOpen'), true);
  say9(say('papers.label.actNow', { frost: view.frostLimit }));

  const callTop = y + 3 * k;
  sheet.rule(left, callTop, width);
  const calls = [
    [say('papers.label.keeper'), view.keeper],
    [say('papers.label.tutor'), view.tutor],
    [say('papers.label.vet'), undefined],
  ] as const;
  y = callTop + 5 * k;
  // The lines to write on share what is left of the label.
  const step = Math.min(32 * k, (sheet.bottom - y) / calls.length);
  for (const [label, name] of calls) {
    const text = name ? say('papers.label.call', { who: label, name }) : label;
    sheet.textAt('P', text, { face: 'text', size: 9 * k }, { x: left, y, width: width * 0.5 });
    sheet.rule(left + width * 0.5, y + 11 * k, width * 0.5);
    y += step;
  }
  return sheet.finish();
}

/** The QR code of an address (ISO/IEC 18004, level M), as filled squares with its quiet zone inside `size`. */
function drawSquare(doc: PDFKit.PDFDocument, address: string, x: number, y: number, size: number): void {
  const { modules } = QRCode.create(address, { errorCorrectionLevel: 'M' });
  const quiet = 4;
  const step = size / (modules.size + 2 * quiet);
  for (let row = 0; row < modules.size; row++)
    for (let column = 0; column < modules.size; column++)
      if (modules.get(row, column)) doc.rect(x + (column + quiet) * step, y + (row + quiet) * step, step, step);
  doc.fill('#000000');
}
