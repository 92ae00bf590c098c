/** Lines and cells of a table written as text. Cells are cut by hand because a logger's file is read a million rows at a time. */

/** Raised for a line longer than any table has. */
export class LongLineError extends Error {}

/** Collects text chunks into lines ended by CRLF, LF or a lone CR, mixed as they may be. */
export class LineSplitter {
  private rest = '';
  /** A CR at the very end of a chunk may be half of a CRLF. */
  private heldReturn = false;

  /** Calls `each` with every whole line of the text so far. A line longer than `limit` characters throws LongLineError. */
  write(text: string, each: (line: string) => void, limit = 100_000): void {
    let chunk = text;
    if (this.heldReturn) {
      this.heldReturn = false;
      if (chunk.startsWith('\n')) chunk = chunk.slice(1);
    }
    if (chunk.endsWith('\r')) this.heldReturn = true;
    let from = 0;
    if (!chunk.includes('\r')) {
      for (let at = chunk.indexOf('\n'); at !== -1; at = chunk.indexOf('\n', from)) {
        if (at - from > limit) throw new LongLineError();
        each(this.rest === '' ? chunk.slice(from, at) : this.rest + chunk.slice(from, at));
        this.rest = '';
        from = at + 1;
      }
    } else {
      for (let at = 0; at < chunk.length; at += 1) {
        const code = chunk.charCodeAt(at);
        if (code !== 10 && code !== 13) continue;
        if (at - from > limit) throw new LongLineError();
        each(this.rest + chunk.slice(from, at));
        this.rest = '';
        if (code === 13 && chunk.charCodeAt(at + 1) === 10) at += 1;
        from = at + 1;
      }
    }
    this.rest += chunk.slice(from);
    if (this.rest.length > limit) throw new LongLineError();
  }

  /** The last line when the text did not end with a line end; `undefined` when it did. */
  end(): string | undefined {
    const last = this.rest;
    this.rest = '';
    return last === '' ? undefined : last;
  }
}

/**
 * Cuts a line into cells. `delimiter` is one character, or `' '` for runs of blanks. Quotation marks around a cell are removed,
 * doubled ones inside become one, and a stray one (`5" probe`) is kept as it stands.
 */
export function splitCells(line: string, delimiter: string, cells: string[] = []): string[] {
  cells.length = 0;
  if (delimiter === ' ') {
    for (const cell of line.trim().split(/[ \u00a0]{2,}|\t/)) cells.push(cell);
    if (cells.length === 1) {
      cells.length = 0;
      for (const cell of line.trim().split(/[ \u00a0]+/)) cells.push(cell);
    }
    return cells;
  }
  let from = 0;
  const quoted = line.includes('"');
  for (;;) {
    if (quoted && line.charCodeAt(from) === 34) {
      const close = closingQuote(line, from + 1, delimiter);
      if (close !== -1) {
        cells.push(line.slice(from + 1, close).replaceAll('""', '"'));
        const after = line.indexOf(delimiter, close + 1);
        if (after === -1) return cells;
        from = after + 1;
        continue;
      }
    }
    const at = line.indexOf(delimiter, from);
    if (at === -1) {
      cells.push(line.slice(from));
      return cells;
    }
    cells.push(line.slice(from, at));
    from = at + 1;
  }
}

/** The quotation mark that ends the cell: followed by the delimiter or the end of the line, blanks aside. */
function closingQuote(line: string, from: number, delimiter: string): number {
  for (let at = line.indexOf('"', from); at !== -1; at = line.indexOf('"', at + 1)) {
    if (line.charCodeAt(at + 1) === 34) {
      at += 1;
      continue;
    }
    const rest = line.slice(at + 1).trimStart();
    if (rest === '' || rest.startsWith(delimiter)) return at;
  }
  return -1;
}
