// A table that stays a table for those who listen to it, keeps its head in sight, scrolls in a box of its own on a tablet, and stacks into cards on a phone.
import type { ReactNode } from 'react';
import classes from './DataTable.module.css';

export type Column<T> = {
  /** Unique within the table. */
  key: string;
  head: string;
  cell: (row: T) => ReactNode;
  /** Numbers and amounts stand at the right. */
  align?: 'right';
  /** Short words that should stay on one line. */
  oneLine?: boolean;
};

type Props<T> = {
  /** Says what the table holds; read out, not shown. */
  caption: string;
  columns: readonly Column<T>[];
  rows: readonly T[];
  rowKey: (row: T) => string;
};

/** The first column is the head of its row: put the name with its link there. */
export function DataTable<T>({ caption, columns, rows, rowKey }: Props<T>): ReactNode {
  return (
    <div className={classes.scroll}>
      <table className={classes.table} role="table">
        <caption className={classes.caption}>{caption}</caption>
        <thead role="rowgroup">
          <tr role="row">
            {columns.map(({ key, head, align }) => (
              <th key={key} scope="col" role="columnheader" data-align={align}>
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody role="rowgroup">
          {rows.map((row) => (
            <tr key={rowKey(row)} role="row">
              {columns.map((column, at) => (
                <Cell key={column.key} column={column} row={row} first={at === 0} />
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function Cell<T>({ column: { head, align, oneLine, cell }, row, first }: { column: Column<T>; row: T; first: boolean }): ReactNode {
  if (first)
    return (
      <th scope="row" role="rowheader" data-align={align} data-one-line={oneLine || undefined}>
        {cell(row)}
      </th>
    );
  return (
    <td role="cell" data-align={align} data-one-line={oneLine || undefined}>
      <span className={classes.label} aria-hidden="true">
        {head}
      </span>
      <span className={classes.value}>{cell(row)}</span>
    </td>
  );
}
