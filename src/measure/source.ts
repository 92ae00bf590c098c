/**
 * Where a value comes from. Every row of a table of facts and every rule carries one.
 *
 * - `read`: the figure stands in a publication that was read.
 * - `abstract`: the publication's abstract was read.
 * - `quoted`: read in a second publication that quotes the first.
 * - `data`: computed on the published data.
 * - `from-memory`: known from the named publication, which was not re-read.
 * - `derived`: our own arithmetic on the values named.
 * - `common-practice`: a fact of the trade without a published source.
 * - `estimate`: our own estimate; nothing published was found.
 */
export type SourceStatus =
  | 'read'
  | 'abstract'
  | 'quoted'
  | 'data'
  | 'from-memory'
  | 'derived'
  | 'common-practice'
  | 'estimate';

export interface Source {
  /** Authors, year, where published; or what the value was derived from. Plain text, as a reader would cite it. */
  readonly cite: string;
  readonly status: SourceStatus;
  /** What the reader should know about the value: range, conditions, disagreement. */
  readonly note?: string;
}

export const COMMON_PRACTICE: Source = { cite: 'common practice, no source', status: 'common-practice' };
