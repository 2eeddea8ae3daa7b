// A table that stays a table for those who listen to it, keeps its head in sight, scrolls in a box of its own on a tablet, and stacks into cards on a phone, the first of many.
import type { ReactNode } from 'react';
import { Button } from '@mantine/core';
import classes from './DataTable.module.css';
import { useRowsShown } from './rowsShown.ts';

export type Column<T> = {
  /** Unique within the table. */
  key: string;
  head: string;
  cell: (row: T) => ReactNode;
  /** Numbers and amounts stand at the right. */
  align?: 'right';
  /** Short words that should stay on one line. */
  oneLine?: boolean;
  /** Sentences: they keep the width that reading takes. */
  sentences?: boolean;
};

type Props<T> = {
  /** Says what the table holds; read out, not shown. */
  caption: string;
  columns: readonly Column<T>[];
  rows: readonly T[];
  rowKey: (row: T) => string;
};

/** The first column is the head of its row: put the name with its link there. Of a long list a phone shows the first rows, and the next when asked. */
export function DataTable<T>(props: Props<T>): ReactNode {
  return props.rows.length > AT_ONCE + FEW ? <LongTable {...props} /> : <Table {...props} shown={props.rows.length} />;
}

/** Rows that a phone shows at once: about three times its height. So few more are no reason to ask; who asks gets many. */
const AT_ONCE = 10;
const FEW = 5;
const NEXT = 25;

function LongTable<T>(props: Props<T>): ReactNode {
  const { caption, rows } = props;
  const [shown, show] = useRowsShown(caption, AT_ONCE);
  const left = rows.length - shown;
  return (
    <>
      <Table {...props} shown={shown} />
      {left > 0 ? (
        <Button className={classes.more} variant="default" size="lg" onClick={() => show(shown + NEXT)}>
          {`Show ${Math.min(left, NEXT)} more of ${rows.length}`}
        </Button>
      ) : null}
    </>
  );
}

/** Rows from `shown` on are left to a wide screen, to paper and to later. */
function Table<T>({ caption, columns, rows, rowKey, shown }: Props<T> & { shown: number }): ReactNode {
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
          {rows.map((row, place) => (
            <tr key={rowKey(row)} role="row" data-later={place >= shown || undefined}>
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

function Cell<T>({
  column: { head, align, oneLine, sentences, cell },
  row,
  first,
}: {
  column: Column<T>;
  row: T;
  first: boolean;
}): ReactNode {
  if (first)
    return (
      <th scope="row" role="rowheader" data-align={align} data-one-line={oneLine || undefined}>
        {cell(row)}
      </th>
    );
  return (
    <td role="cell" data-align={align} data-one-line={oneLine || undefined} data-sentences={sentences || undefined}>
      <span className={classes.label} aria-hidden="true">
        {head}
      </span>
      <span className={classes.value}>{cell(row)}</span>
    </td>
  );
}
