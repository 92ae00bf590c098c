const TRIGGER = /^[=+\-@\t\r\n\0＝＋－＠]/;

/**
 * One cell of CSV (RFC 4180). Text is quoted, and text a spreadsheet would take for a formula gets a single quote before it; a number
 * stays a number, also a negative one.
 */
export function csvCell(value: unknown): string {
  if (value === null || value === undefined) return '';
  if (typeof value === 'number') return String(value);
  const text = typeof value === 'string' ? value : JSON.stringify(value);
  // A text that already begins so is prefixed too: the way back takes exactly one quote away.
  const guarded = TRIGGER.test(text) || /^'+[=+\-@\t\r\n\0＝＋－＠]/.test(text) ? `'${text}` : text;
  return `"${guarded.replaceAll('"', '""')}"`;
}

/** The text of a cell that `csvCell` wrote. */
export function cellText(cell: string): string {
  return /^'+[=+\-@\t\r\n\0＝＋－＠]/.test(cell) ? cell.slice(1) : cell;
}
