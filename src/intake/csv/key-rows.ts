import type { CollectedTable } from './read-table.ts';

/** The rows of one probe key, in the order of the file. */
interface KeyRows {
  readonly length: number;
  row(at: number): number;
}

/** Sorts the rows of a table by their probe key in one pass, however many keys there are; a single key needs no list at all. */
export function rowsByKey(table: CollectedTable): (key: number) => KeyRows {
  const rows = table.moments.length;
  if (table.keys.length === 1) return () => ({ length: rows, row: (at) => at });
  const keyOf = table.keyOf.values;
  const starts = new Int32Array(table.keys.length + 1);
  for (let row = 0; row < rows; row += 1) starts[keyOf[row]! + 1]! += 1;
  for (let key = 1; key < starts.length; key += 1) starts[key]! += starts[key - 1]!;
  const next = starts.slice();
  const sorted = new Int32Array(rows);
  for (let row = 0; row < rows; row += 1) sorted[next[keyOf[row]!]!++] = row;
  return (key) => {
    const from = starts[key]!;
    return { length: starts[key + 1]! - from, row: (at) => sorted[from + at]! };
  };
}
