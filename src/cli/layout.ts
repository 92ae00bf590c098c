/** Breaks text into lines of at most `width` characters, each begun by `indent`; a no-break space never breaks. */
export function wrap(text: string, width = 88, indent = ''): string {
  const lines: string[] = [];
  let line = indent;
  for (const word of text.split(/[ \n]+/)) {
    if (line.length > indent.length && line.length + 1 + word.length > width) {
      lines.push(line);
      line = indent;
    }
    line += line.length > indent.length ? ` ${word}` : word;
  }
  lines.push(line);
  return lines.join('\n');
}

/** A table in plain characters: the first column to the left, the others to the right unless `left` names them. */
export function table(
  head: readonly string[],
  rows: readonly (readonly string[])[],
  left: readonly number[] = [0],
): string {
  const widths = head.map((title, i) => Math.max(title.length, ...rows.map((row) => (row[i] ?? '').length)));
  const line = (cells: readonly string[]) =>
    widths
      .map((width, i) => (left.includes(i) ? (cells[i] ?? '').padEnd(width) : (cells[i] ?? '').padStart(width)))
      .join('  ')
      .trimEnd();
  return [line(head), widths.map((width) => '-'.repeat(width)).join('  '), ...rows.map(line)].join('\n');
}
