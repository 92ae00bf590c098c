import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** How a text is set: `text` and `bold` for reading, `display` for headings, names and large figures. */
export type Face = 'text' | 'bold' | 'display';

export interface Style {
  readonly face: Face;
  /** Points. */
  readonly size: number;
  readonly colour?: string;
}

/** One line of set text: runs of one font file each, with their width in points. */
export interface Line {
  readonly runs: readonly { readonly font: string; readonly text: string; readonly width: number }[];
  readonly width: number;
}

interface Glyphs {
  hasGlyphForCodePoint(codePoint: number): boolean;
}

const SANS = 'atkinson-hyperlegible-next';
const SERIF = 'literata';
const LATIN = ['latin', 'latin-ext'] as const;
const BEYOND = ['greek', 'greek-ext', 'cyrillic', 'cyrillic-ext', 'vietnamese'] as const;
const parts = (family: string, weight: number, scripts: readonly string[]) =>
  scripts.map((script) => `${family}/files/${family}-${script}-${weight}-normal.woff`);

/** Files of each face by preference: the packaged faces are cut by script, and the sans has Latin letters only. */
const FILES: Record<Face, readonly string[]> = {
  text: [...parts(SANS, 400, LATIN), ...parts(SERIF, 400, BEYOND)],
  bold: [...parts(SANS, 700, LATIN), ...parts(SERIF, 700, BEYOND)],
  display: parts(SERIF, 600, [...LATIN, ...BEYOND]),
};
const bytesOf = new Map<string, Buffer>();

function fontBytes(file: string): Buffer {
  let bytes = bytesOf.get(file);
  if (!bytes) {
    bytes = readFileSync(fileURLToPath(import.meta.resolve(`@fontsource/${file}`)));
    bytesOf.set(file, bytes);
  }
  return bytes;
}

/** What stands for a letter that no face has. */
const UNPRINTABLE = '[?]';
/** Line height as a multiple of the size: the serif reaches further up and down. */
const LINE_HEIGHT: Record<Face, number> = { text: 1.28, bold: 1.28, display: 1.42 };
const graphemes = new Intl.Segmenter('en', { granularity: 'grapheme' });

/** Sets text in the packaged faces: picks the font file of each letter, measures, and breaks lines between words. */
export class Type {
  /** Letters asked for that no face has, in order of appearance: shown as `UNPRINTABLE`. */
  readonly missing = new Set<string>();
  readonly #doc: PDFKit.PDFDocument;
  readonly #glyphs = new Map<string, Glyphs>();
  readonly #widths = new Map<string, number>();

  constructor(doc: PDFKit.PDFDocument) {
    this.#doc = doc;
  }

  /** Height of one line, points. */
  height(style: Style): number {
    return style.size * LINE_HEIGHT[style.face];
  }

  /** Text broken into lines no wider than `width` points; a word wider than that is cut. */
  lines(text: string, style: Style, width: number): Line[] {
    const lines: Line[] = [];
    for (const paragraph of printable(text).split('\n')) {
      const space = this.#width(' ', style);
      let words: string[] = [];
      let used = 0;
      const end = (last: boolean): void => {
        // The space between words stays in the text at the end of a line, so that it reads back whole.
        lines.push(this.#line(words.join(' ') + (last ? '' : ' '), style));
        words = [];
        used = 0;
      };
      for (const word of paragraph.split(' ').flatMap((one) => this.#cut(one, style, width))) {
        const wide = this.#width(word, style);
        if (words.length > 0 && used + space + wide > width) end(false);
        used += (words.length > 0 ? space : 0) + wide;
        words.push(word);
      }
      end(true);
    }
    return lines;
  }

  /** Draws a line with its top left corner at (x, y). */
  draw(line: Line, style: Style, x: number, y: number): void {
    let at = x;
    for (const run of line.runs) {
      this.#doc
        .font(run.font)
        .fontSize(style.size)
        .fillColor(style.colour ?? INK);
      this.#doc.text(run.text, at, y, { lineBreak: false });
      at += run.width;
    }
  }

  #line(text: string, style: Style): Line {
    const runs = this.#runs(text, style.face).map((run) => ({ ...run, width: this.#runWidth(run, style.size) }));
    return { runs, width: runs.reduce((sum, run) => sum + run.width, 0) };
  }

  /** The word itself, or its pieces when it is wider than the line. */
  #cut(word: string, style: Style, width: number): string[] {
    if (this.#width(word, style) <= width) return [word];
    const pieces = [''];
    for (const { segment } of graphemes.segment(word)) {
      if (this.#width(pieces.at(-1)! + segment, style) > width && pieces.at(-1) !== '') pieces.push('');
      pieces[pieces.length - 1] += segment;
    }
    return pieces;
  }

  #width(text: string, style: Style): number {
    return this.#runs(text, style.face).reduce((sum, run) => sum + this.#runWidth(run, style.size), 0);
  }

  #runWidth({ font, text }: { font: string; text: string }, size: number): number {
    const key = `${font} ${size} ${text}`;
    let width = this.#widths.get(key);
    if (width === undefined) {
      width = this.#doc.font(font).fontSize(size).widthOfString(text);
      this.#widths.set(key, width);
    }
    return width;
  }

  #runs(text: string, face: Face): { font: string; text: string }[] {
    const [usual] = FILES[face] as [string];
    // Nearly every word: no letter of it needs looking up.
    if (/^[\x20-\x7e]*$/.test(text)) {
      this.#font(usual);
      return [{ font: usual, text }];
    }
    const runs: { font: string; text: string }[] = [];
    for (const { segment } of graphemes.segment(text)) {
      const codes = [...segment].map((letter) => letter.codePointAt(0)!);
      const has = (font: string) => codes.every((code) => this.#font(font).hasGlyphForCodePoint(code));
      const last = runs.at(-1);
      let font = last && has(last.font) ? last.font : FILES[face].find(has);
      if (!font) this.missing.add(segment);
      const set = font ? segment : UNPRINTABLE;
      font ??= usual;
      if (last?.font === font) last.text += set;
      else runs.push({ font, text: set });
    }
    return runs;
  }

  #font(file: string): Glyphs {
    let glyphs = this.#glyphs.get(file);
    if (!glyphs) {
      this.#doc.registerFont(file, fontBytes(file));
      this.#doc.font(file);
      glyphs = (this.#doc as unknown as { _font: { font: Glyphs } })._font.font;
      this.#glyphs.set(file, glyphs);
    }
    return glyphs;
  }
}

export const INK = '#1b2524';
export const SOFT = '#53605c';

/** Composed letters, plain no-break spaces, and nothing invisible that a face would show as an empty box. */
const printable = (text: string): string =>
  text
    .normalize('NFC')
    .replaceAll('\u202f', '\u00a0')
    .replace(/\t/g, ' ')
    .replace(/(?!\n)[\p{Cc}\u200b-\u200f\u2060-\u206f\ufeff]/gu, '');
