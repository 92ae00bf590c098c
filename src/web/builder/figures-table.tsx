import type { Key, ReactNode } from 'react';

interface FiguresTableProps {
  /** Heading of the first column, which names the row. */
  readonly of: string;
  readonly heads: readonly string[];
  readonly rows: readonly {
    readonly key: Key;
    readonly name: ReactNode;
    readonly cells: readonly ReactNode[];
    /** The row that stands out. */
    readonly front?: boolean;
  }[];
}

/** Figures by row, in columns under their headings; on a phone each row folds into lines that bear the heading. */
export function FiguresTable({ of, heads, rows }: FiguresTableProps) {
  return (
    <table data-fold>
      <thead>
        <tr>
          <th scope="col">{of}</th>
          {heads.map((head) => (
            <th scope="col" data-number key={head}>
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map(({ key, name, cells, front }) => (
          <tr key={key} data-front={front ? '' : undefined}>
            <th scope="row">{name}</th>
            {heads.map((head, index) => (
              <td data-number data-label={head} key={head}>
                {cells[index]}
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
