import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import PDFDocument from 'pdfkit';

type Weight = 'regular' | 'bold';

/** Parts of the packaged typeface by script; a run of text is set in the first part that has its letters. */
const PARTS = ['latin', 'latin-ext'] as const;
const PAGE_MARGIN = 48;

const fontFile = (part: string, weight: Weight): Buffer =>
  readFileSync(
    fileURLToPath(
      import.meta.resolve(
        `@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-${part}-${weight === 'bold' ? 700 : 400}-normal.woff`,
      ),
    ),
  );

interface Glyphs {
  hasGlyphForCodePoint(codePoint: number): boolean;
}

/** What a sheet is made with, and the metadata a reader shows. */
export interface SheetOptions {
  readonly title: string;
  /** When the sheet was made, ms since 1970 UTC: written into the file, so that the same content gives the same bytes. */
  readonly madeAtMs: number;
  readonly size?: 'A4' | 'A5';
}

/**
 * A printed page that a screen reader can read too: every text stands in a structure element (PDF 1.7, tagged), headings, paragraphs and tables are
 * told as such, and the title and the language are named. Left-to-right scripts with Latin letters only; a letter without a glyph is refused.
 */
export class Sheet {
  readonly #doc: PDFKit.PDFDocument;
  readonly #root: PDFKit.PDFStructureElement;
  readonly #chunks: Buffer[] = [];
  readonly #done: Promise<Buffer>;
  readonly #glyphs = new Map<string, Glyphs>();

  constructor(options: SheetOptions) {
    this.#doc = new PDFDocument({
      size: options.size ?? 'A4',
      margin: PAGE_MARGIN,
      pdfVersion: '1.7',
      tagged: true,
      displayTitle: true,
      lang: 'en',
      info: { Title: options.title, CreationDate: new Date(options.madeAtMs), ModDate: new Date(options.madeAtMs) },
    });
    this.#doc.on('data', (chunk: Buffer) => this.#chunks.push(chunk));
    this.#done = new Promise((resolve, reject) => {
      this.#doc.on('end', () => resolve(Buffer.concat(this.#chunks)));
      this.#doc.on('error', reject);
    });
    for (const weight of ['regular', 'bold'] as const)
      for (const part of PARTS) {
        const name = `${part}-${weight}`;
        this.#doc.registerFont(name, fontFile(part, weight));
        this.#doc.font(name);
        this.#glyphs.set(name, (this.#doc as unknown as { _font: { font: Glyphs } })._font.font);
      }
    this.#root = this.#doc.struct('Document');
    this.#doc.addStructure(this.#root);
  }

  /** Text cut into runs that one font file can set. Throws RangeError for a letter that none has. */
  #runs(text: string, weight: Weight): { font: string; text: string }[] {
    const runs: { font: string; text: string }[] = [];
    for (const letter of text.replaceAll('\u202f', '\u00a0')) {
      const code = letter.codePointAt(0)!;
      const last = runs.at(-1);
      const has = (name: string) => this.#glyphs.get(name)!.hasGlyphForCodePoint(code);
      const font =
        last && (has(last.font) || letter === '\n')
          ? last.font
          : PARTS.map((part) => `${part}-${weight}`).find((name) => has(name));
      if (!font) throw new RangeError(`No typeface on paper has the letter "${letter}"`);
      if (last?.font === font) last.text += letter;
      else runs.push({ font, text: letter });
    }
    return runs;
  }

  #write(text: string, weight: Weight, size: number, options: PDFKit.Mixins.TextOptions = {}): void {
    const runs = this.#runs(text, weight);
    runs.forEach((run, i) => {
      this.#doc.font(run.font).fontSize(size);
      this.#doc.text(run.text, { ...options, continued: i < runs.length - 1 });
    });
  }

  #element(kind: string, content: () => void): void {
    this.#root.add(this.#doc.struct(kind, {}, content));
  }

  heading(text: string, level: 1 | 2 = 2): void {
    if (level === 2) this.#doc.moveDown(0.6);
    this.#element(`H${level}`, () => this.#write(text, 'bold', level === 1 ? 20 : 13));
    this.#doc.moveDown(0.3);
  }

  paragraph(text: string): void {
    this.#element('P', () => this.#write(text, 'regular', 10.5));
    this.#doc.moveDown(0.3);
  }

  /** A table with a row of headings; columns as shares of the width. Rows are kept whole on a page; the headings return on each. */
  table(headings: readonly string[], rows: readonly (readonly string[])[], shares: readonly number[]): void {
    const doc = this.#doc;
    const width = doc.page.width - 2 * PAGE_MARGIN;
    const total = shares.reduce((sum, share) => sum + share, 0);
    const table = doc.struct('Table');
    this.#root.add(table);
    const row = (cells: readonly string[], kind: 'TH' | 'TD'): void => {
      const weight = kind === 'TH' ? 'bold' : 'regular';
      doc.font(`latin-${weight}`).fontSize(10);
      const widths = shares.map((share) => (width * share) / total - 8);
      const height = Math.max(14, ...cells.map((cell, i) => doc.heightOfString(cell, { width: widths[i]! }))) + 6;
      if (doc.y + height > doc.page.height - PAGE_MARGIN) {
        doc.addPage();
        if (kind === 'TD') row(headings, 'TH');
      }
      const top = doc.y;
      const line = doc.struct('TR');
      table.add(line);
      let x = PAGE_MARGIN;
      cells.forEach((cell, i) => {
        const at = x;
        line.add(
          doc.struct(kind, {}, () => {
            doc.x = at;
            doc.y = top;
            if (cell !== '') this.#write(cell, weight, 10, { width: widths[i]! });
          }),
        );
        x += (width * shares[i]!) / total;
      });
      line.end();
      doc.markContent('Artifact', { type: 'Layout' });
      doc
        .lineWidth(0.5)
        .strokeColor('#888888')
        .moveTo(PAGE_MARGIN, top + height - 3)
        .lineTo(PAGE_MARGIN + width, top + height - 3)
        .stroke();
      doc.endMarkedContent();
      doc.x = PAGE_MARGIN;
      doc.y = top + height;
    };
    row(headings, 'TH');
    for (const cells of rows) row(cells, 'TD');
    table.end();
    doc.moveDown(0.4);
  }

  /** The finished file. Nothing can be added afterwards. */
  finish(): Promise<Buffer> {
    this.#root.end();
    this.#doc.end();
    return this.#done;
  }
}
