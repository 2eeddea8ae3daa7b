// The frame of every drawing: its title, what it counts, the sentence that says the same, the key, and the same numbers as a table.
import { useId, type ReactNode } from 'react';
import { useElementSize } from '@mantine/hooks';
import { DataTable, type Column } from '../DataTable.tsx';
import { Keys, type Key } from './Shape.tsx';
import classes from './charts.module.css';

/** What every drawing is given. */
export type FigureWords = {
  title: string;
  /** Says in plain words what is to be seen; read out instead of the drawing. */
  summary: string;
};

type Props<T> = FigureWords & {
  keys?: readonly Key[];
  /** Sentences under the drawing: what calls for a look. */
  notes?: readonly string[];
  /** Pixels, for the width that there is. */
  height: (width: number) => number;
  /** The numbers of the drawing. */
  columns: readonly Column<T>[];
  rows: readonly T[];
  rowKey: (row: T) => string;
  children: (size: { width: number; height: number }) => ReactNode;
};

/** Width before it is known, and on paper. */
const USUAL = 720;

/** Drawn at the width that there is, so that its words keep their size on a phone. */
export function Figure<T>({ title, summary, keys = [], notes = [], height, columns, rows, rowKey, children }: Props<T>): ReactNode {
  const id = useId();
  const { ref, width: found } = useElementSize<HTMLDivElement>();
  const width = Math.max(260, Math.round(found || USUAL));
  const high = height(width);
  return (
    <figure className={classes.figure} aria-labelledby={`${id}-t`}>
      <figcaption>
        <strong id={`${id}-t`}>{title}</strong>
        <p id={`${id}-s`}>{summary}</p>
        <Keys of={keys} />
      </figcaption>
      <div ref={ref}>
        <svg
          className={classes.drawing}
          viewBox={`0 0 ${width} ${high}`}
          role="img"
          aria-labelledby={`${id}-t`}
          aria-describedby={`${id}-s`}
        >
          <title>{title}</title>
          <desc>{summary}</desc>
          {children({ width, height: high })}
        </svg>
      </div>
      {notes.length > 0 ? (
        <ul className={classes.notes}>
          {notes.map((note) => (
            <li key={note}>{note}</li>
          ))}
        </ul>
      ) : null}
      <details>
        <summary>The same as a table</summary>
        <DataTable caption={title} columns={columns} rows={rows} rowKey={rowKey} />
      </details>
    </figure>
  );
}
