// Rows of a drawing with a name above each: long names of steps stay readable on a phone.
import type { ReactNode } from 'react';
import { cut, LETTER, type Plot } from './plot.ts';
import classes from './charts.module.css';

/** Pixels of one row: its name and its bar. */
export const ROW = 42;

const [ABOVE, BELOW] = [12, 44];

export const rowsHigh = (rows: number, above = 0): number => ABOVE + above + rows * ROW + BELOW;

/** Rows use the whole width; `above` leaves room for a second axis. */
export const rowPlot = ({ width, height }: { width: number; height: number }, above = 0): Plot => ({
  ...{ width, height, left: 14, right: width - 14, top: ABOVE + above, bottom: height - BELOW },
});

/** The middle of the bar of a row. */
export const barOf = (plot: Plot, row: number): number => plot.top + row * ROW + 28;

type NameProps = { plot: Plot; row: number; name: string; says: string };

/** The name at the left, what it says at the right. */
export function RowName({ plot, row, name, says }: NameProps): ReactNode {
  const y = plot.top + row * ROW + 13;
  return (
    <g>
      <text x={plot.left} y={y}>
        {cut(name, plot.right - plot.left - (says.length + 2) * LETTER)}
        <title>{name}</title>
      </text>
      <text x={plot.right} y={y} textAnchor="end">
        {says}
      </text>
    </g>
  );
}

type GridProps = { plot: Plot; at: readonly number[]; x: (value: number) => number; format: (value: number) => string; name: string };

/** Values that grow to the right, written below; `name` says what they are, with the unit. */
export const RowGrid = ({ plot, at, x, format, name }: GridProps): ReactNode => (
  <g>
    {at.map((value) => (
      <g key={value}>
        <line className={classes.grid} x1={x(value)} x2={x(value)} y1={plot.top} y2={plot.bottom} />
        <text x={x(value)} y={plot.bottom + 17} textAnchor={x(value) < 40 ? 'start' : x(value) > plot.right - 30 ? 'end' : 'middle'}>
          {format(value)}
        </text>
      </g>
    ))}
    <text className={classes.soft} x={plot.right} y={plot.bottom + 36} textAnchor="end">
      {name}
    </text>
  </g>
);
