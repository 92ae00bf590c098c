import PDFDocument from 'pdfkit';
import { say } from '../wording/say.ts';
import { INK, type Line, SOFT, type Style, Type } from './type.ts';

/** What a sheet is made with, and the metadata a reader shows. */
export interface SheetOptions {
  readonly title: string;
  /** When the sheet was made, ms since 1970 UTC: written into the file, so that the same content gives the same bytes. */
  readonly madeAtMs: number;
  readonly size?: 'A4' | 'A5' | 'A6';
  readonly landscape?: boolean;
  /** White edge, points. */
  readonly margin?: number;
  /** Stands small at the foot of each page, before the number of the page; without it there is no foot. */
  readonly foot?: string;
}

/** A cell of a table: text, or a square to tick. */
export type Cell = string | typeof TICK;
export const TICK = Symbol('a square to tick');

export interface TableOptions {
  readonly size?: number;
  /** Least height of a row, points: room to write in by hand. */
  readonly rowHeight?: number;
  /** Lines between the columns as well. */
  readonly ruled?: boolean;
}

/** One piece of a block: a heading, a paragraph or an item of a list. */
export interface Piece {
  readonly kind: 'H3' | 'P' | 'LI';
  readonly text: string;
  readonly style: Style;
  /** Stands before an item: a number or a bullet. */
  readonly label?: string;
}

const HEADINGS = { 1: 20, 2: 12.5, 3: 10.5 } as const;
const RULE = '#8d8d86';
const PADDING = 2.5;

/**
 * A printed page that a screen reader can read too: every text stands in a structure element (PDF 1.7, tagged); headings, lists, tables and
 * figures are told as such, title and language are named. Left-to-right scripts only; a letter that no face has is shown as `[?]`, and the last
 * page says so.
 */
export class Sheet {
  readonly #doc: PDFKit.PDFDocument;
  readonly #type: Type;
  readonly #root: PDFKit.PDFStructureElement;
  readonly #margin: number;
  readonly #foot: string | undefined;
  readonly #chunks: Buffer[] = [];
  readonly #done: Promise<Buffer>;
  /** Where the next piece begins, points from the top. */
  y: number;

  constructor(options: SheetOptions) {
    this.#margin = options.margin ?? 45;
    this.#foot = options.foot;
    this.y = this.#margin;
    this.#doc = new PDFDocument({
      size: options.size ?? 'A4',
      layout: options.landscape ? 'landscape' : 'portrait',
      margin: 0,
      pdfVersion: '1.7',
      tagged: true,
      displayTitle: true,
      bufferPages: true,
      lang: 'en',
      info: { Title: options.title, CreationDate: new Date(options.madeAtMs), ModDate: new Date(options.madeAtMs) },
    });
    this.#doc.on('data', (chunk: Buffer) => this.#chunks.push(chunk));
    this.#done = new Promise((resolve, reject) => {
      this.#doc.on('end', () => resolve(Buffer.concat(this.#chunks)));
      this.#doc.on('error', reject);
    });
    this.#type = new Type(this.#doc);
    this.#root = this.#doc.struct('Document');
    this.#doc.addStructure(this.#root);
  }

  get width(): number {
    return this.#doc.page.width - 2 * this.#margin;
  }

  get left(): number {
    return this.#margin;
  }

  /** Lowest point that may be printed on: the foot stands below it. */
  get bottom(): number {
    return this.#doc.page.height - this.#margin - (this.#foot === undefined ? 0 : 12);
  }

  get pages(): number {
    return this.#doc.bufferedPageRange().count;
  }

  /** Begins a new page unless `height` points are left on this one. */
  room(height: number): void {
    if (this.y + height <= this.bottom || this.y <= this.#margin) return;
    this.newPage();
  }

  newPage(): void {
    this.#doc.addPage();
    this.y = this.#margin;
  }

  gap(height: number): void {
    this.y += height;
  }

  /** A heading; `keep` points of what follows it stay on its page. */
  heading(text: string, level: 1 | 2 | 3 = 2, keep = 40): void {
    const style: Style = { face: level === 3 ? 'bold' : 'display', size: HEADINGS[level] };
    if (level !== 1 && this.y > this.#margin) this.y += level === 2 ? 7 : 4;
    this.#block(`H${level}`, text, style, keep);
    this.y += level === 1 ? 4 : 2;
  }

  paragraph(text: string, style: Partial<Style> = {}): void {
    this.#block('P', text, { face: 'text', size: 10, ...style });
    this.y += 3;
  }

  /** Text at a place of its own, cut off nowhere: returns the height it took, points. */
  textAt(kind: 'P' | 'H1' | 'H2', text: string, style: Style, at: { x: number; y: number; width: number }): number {
    const lines = this.#type.lines(text, style, at.width);
    this.#root.add(this.#doc.struct(kind, {}, () => this.#draw(lines, style, at.x, at.y)));
    return lines.length * this.#type.height(style);
  }

  list(items: readonly string[], style: Partial<Style> = {}, labels?: readonly string[]): void {
    const full: Style = { face: 'text', size: 10, ...style };
    const list = this.#doc.struct('L');
    this.#root.add(list);
    for (const [i, item] of items.entries())
      this.#item(list, item, full, labels?.[i] ?? '•', this.left, this.width, labels ? 20 : 10, true);
    list.end();
    this.y += 3;
  }

  /** Facts as label and value, `across` of them side by side. */
  facts(facts: readonly (readonly [label: string, value: string])[], across = 1, size = 9.5): void {
    const perRow = Array.from({ length: Math.ceil(facts.length / across) }, (_, i) =>
      facts.slice(i * across, (i + 1) * across),
    );
    const table = this.#doc.struct('Table');
    this.#root.add(table);
    const cellWidth = this.width / across;
    const labelWidth = Math.min(110, cellWidth * 0.4);
    for (const row of perRow) {
      const label: Style = { face: 'text', size, colour: SOFT };
      const value: Style = { face: 'text', size };
      const set = row.map(
        ([name, text]) =>
          [
            this.#type.lines(name, label, labelWidth - 8),
            this.#type.lines(text, value, cellWidth - labelWidth - 8),
          ] as const,
      );
      const height = Math.max(...set.flat().map((lines) => lines.length)) * this.#type.height(value) + 2;
      this.room(height);
      const line = this.#doc.struct('TR');
      table.add(line);
      for (const [i, [name, text]] of set.entries()) {
        const x = this.left + i * cellWidth;
        line.add(this.#doc.struct('TH', {}, () => this.#draw(name, label, x, this.y)));
        line.add(this.#doc.struct('TD', {}, () => this.#draw(text, value, x + labelWidth, this.y)));
      }
      line.end();
      this.y += height;
    }
    table.end();
    this.y += 2;
  }

  /** A table with a row of headings; columns as shares of the width. Rows stay whole on a page; the headings return on each. */
  table(
    headings: readonly string[],
    rows: readonly (readonly Cell[])[],
    shares: readonly number[],
    options: TableOptions = {},
  ): void {
    const size = options.size ?? 9.5;
    const total = shares.reduce((sum, share) => sum + share, 0);
    const widths = shares.map((share) => (this.width * share) / total);
    const table = this.#doc.struct('Table');
    this.#root.add(table);
    const row = (cells: readonly Cell[], kind: 'TH' | 'TD'): void => {
      const style: Style = kind === 'TH' ? { face: 'bold', size: size - 0.5 } : { face: 'text', size };
      const set = cells.map((cell, i) => (cell === TICK ? [] : this.#type.lines(cell, style, widths[i]! - 7)));
      const text = Math.max(1, ...set.map((lines) => lines.length)) * this.#type.height(style) + PADDING;
      const height = Math.max(text, kind === 'TD' ? (options.rowHeight ?? 0) : 0) + PADDING;
      if (this.y + height > this.bottom) {
        this.newPage();
        if (kind === 'TD') row(headings, 'TH');
      }
      const top = this.y;
      const line = this.#doc.struct('TR');
      table.add(line);
      let x = this.left;
      set.forEach((lines, i) => {
        const at = x + (options.ruled && i > 0 ? 4 : 0);
        if (cells[i] === TICK)
          this.#artifact(() =>
            this.#doc
              .lineWidth(0.8)
              .rect(at + 1, top + PADDING + 1, 9, 9)
              .stroke(INK),
          );
        line.add(
          this.#doc.struct(kind, {}, () => {
            if (cells[i] !== TICK && cells[i] !== '') this.#draw(lines, style, at, top + PADDING);
          }),
        );
        x += widths[i]!;
      });
      line.end();
      this.y = top + height;
      this.#artifact(() => {
        this.#line(this.left, this.y, this.left + this.width, this.y, kind === 'TH' ? 0.9 : 0.4);
        let edge = this.left;
        if (options.ruled)
          for (const width of widths.slice(0, -1)) {
            edge += width;
            this.#line(edge, top, edge, this.y, 0.4);
          }
      });
    };
    if (headings.length > 0) row(headings, 'TH');
    for (const cells of rows) row(cells, 'TD');
    table.end();
    this.y += 5;
  }

  /** Blocks set side by side in columns, each whole, the columns about as long as each other. Starts a page when they do not fit on this one. */
  columns(blocks: readonly (readonly Piece[])[], count: number): void {
    const gutter = 20;
    const width = (this.width - gutter * (count - 1)) / count;
    const heights = blocks.map((block) => block.reduce((sum, piece) => sum + this.#pieceHeight(piece, width), 8));
    const target = heights.reduce((sum, height) => sum + height, 0) / count;
    const top = this.y;
    let column = 0;
    let lowest = top;
    for (const [i, block] of blocks.entries()) {
      // A block goes where more than half of it lies before the even share.
      if (this.y > top && this.y - top + heights[i]! / 2 > target && column < count - 1) {
        column += 1;
        this.y = top;
      }
      const x = this.left + column * (width + gutter);
      this.#pieces(block, x, width);
      this.y += 8;
      lowest = Math.max(lowest, this.y);
    }
    this.y = lowest;
  }

  /** A drawing with words for those who do not see it; `draw` is told where it stands. */
  figure(
    alt: string,
    at: { x: number; y: number },
    draw: (doc: PDFKit.PDFDocument, x: number, y: number) => void,
  ): void {
    this.#root.add(this.#doc.struct('Figure', { alt }, () => draw(this.#doc, at.x, at.y)));
  }

  /** A line to write on or to part things, of no meaning to a screen reader. */
  rule(x: number, y: number, width: number, weight = 0.5): void {
    this.#artifact(() => this.#line(x, y, x + width, y, weight));
  }

  frame(x: number, y: number, width: number, height: number, weight = 0.8): void {
    this.#artifact(() => this.#doc.lineWidth(weight).rect(x, y, width, height).stroke(INK));
  }

  /** The finished file. Nothing can be added afterwards. */
  finish(): Promise<Buffer> {
    if (this.#type.missing.size > 0) this.paragraph(say('papers.unprintable'), { size: 8.5 });
    this.#root.end();
    if (this.#foot !== undefined) {
      const { count } = this.#doc.bufferedPageRange();
      const style: Style = { face: 'text', size: 8, colour: SOFT };
      for (let i = 0; i < count; i++) {
        this.#doc.switchToPage(i);
        const number = count > 1 ? say('papers.page', { number: i + 1, count }) : '';
        const y = this.#doc.page.height - this.#margin;
        this.#artifact(() => {
          this.#line(this.left, y - 5, this.left + this.width, y - 5, 0.4);
          this.#draw(this.#type.lines(this.#foot!, style, this.width - 80), style, this.left, y);
          const [line] = this.#type.lines(number, style, 80);
          if (line) this.#type.draw(line, style, this.left + this.width - line.width, y);
        });
      }
    }
    this.#doc.end();
    return this.#done;
  }

  #block(kind: string, text: string, style: Style, keep = 0): void {
    const lines = this.#type.lines(text, style, this.width);
    const height = lines.length * this.#type.height(style);
    this.room(height + keep);
    this.#root.add(this.#doc.struct(kind, {}, () => this.#draw(lines, style, this.left, this.y)));
    this.y += height;
  }

  #pieceHeight(piece: Piece, width: number): number {
    const own = piece.label === undefined ? width : width - 14;
    return this.#type.lines(piece.text, piece.style, own).length * this.#type.height(piece.style) + 2;
  }

  #pieces(pieces: readonly Piece[], x: number, width: number): void {
    let list: PDFKit.PDFStructureElement | undefined;
    for (const piece of pieces) {
      if (piece.kind === 'LI') {
        if (!list) {
          list = this.#doc.struct('L');
          this.#root.add(list);
        }
        this.#item(list, piece.text, piece.style, piece.label ?? '•', x, width, 14);
      } else {
        list?.end();
        list = undefined;
        const lines = this.#type.lines(piece.text, piece.style, width);
        this.#root.add(this.#doc.struct(piece.kind, {}, () => this.#draw(lines, piece.style, x, this.y)));
        this.y += lines.length * this.#type.height(piece.style) + 2;
      }
    }
    list?.end();
  }

  #item(
    list: PDFKit.PDFStructureElement,
    text: string,
    style: Style,
    label: string,
    x: number,
    width: number,
    indent: number,
    mayTurn = false,
  ): void {
    const lines = this.#type.lines(text, style, width - indent);
    const height = lines.length * this.#type.height(style) + 2;
    if (mayTurn) this.room(height);
    const item = this.#doc.struct('LI');
    list.add(item);
    item.add(this.#doc.struct('Lbl', {}, () => this.#draw(this.#type.lines(label, style, indent), style, x, this.y)));
    item.add(this.#doc.struct('LBody', {}, () => this.#draw(lines, style, x + indent, this.y)));
    item.end();
    this.y += height;
  }

  #draw(lines: readonly Line[], style: Style, x: number, y: number): void {
    lines.forEach((line, i) => {
      this.#type.draw(line, style, x, y + i * this.#type.height(style));
    });
  }

  #artifact(draw: () => void): void {
    this.#doc.markContent('Artifact', { type: 'Layout' });
    draw();
    this.#doc.endMarkedContent();
  }

  #line(x1: number, y1: number, x2: number, y2: number, weight: number): void {
    this.#doc
      .lineWidth(weight)
      .moveTo(x1, y1)
      .lineTo(x2, y2)
      .stroke(weight > 0.7 ? INK : RULE);
  }
}
