// Figures with where each likely lies: a point between two ends, one row each, against one line to compare them with.
import type { ReactNode } from 'react';
import { Figure, type FigureWords } from './Figure.tsx';
import { Shape } from './Shape.tsx';
import { scale, ticks } from './plot.ts';
import { barOf, RowGrid, RowName, rowPlot, rowsHigh } from './rows.tsx';
import type { Column } from '../DataTable.tsx';
import classes from './charts.module.css';

export type IntervalRow = {
  key: string;
  name: string;
  /** null: cannot be estimated; `says` then tells why. */
  value: number | null;
  lower: number | null;
  /** null with a value: no upper end; drawn to the edge. */
  upper: number | null;
  /** A signal is drawn as a diamond. */
  signal?: boolean;
  /** Instead of the figures at the right of the name. */
  says?: string;
};

type Props<T> = FigureWords & {
  rows: readonly T[];
  rowName: string;
  /** What the figures are, with the unit. */
  xName: string;
  /** What the two ends are: '95 % interval'. */
  ends: string;
  format?: (value: number) => string;
  /** What all are compared with. */
  usual?: { value: number; label: string };
  /** Highest value drawn; what lies beyond it runs to the edge and is told in the table. */
  most?: number;
  also?: readonly Column<T>[];
};

const plain = (value: number): string => value.toLocaleString('en-US', { maximumFractionDigits: 2 });

/** Needs at least one row. */
export function IntervalBars<T extends IntervalRow>(props: Props<T>): ReactNode {
  const { rows, rowName, xName, ends, format = plain, usual, most, also = [], ...words } = props;
  const values = rows.flatMap(({ value, lower, upper }) => [value, lower, upper]).filter((value) => value !== null);
  const axis = ticks(Math.min(0, ...values), Math.min(most ?? Infinity, Math.max(usual?.value ?? 0, ...values)) || 1, 5);
  const columns: Column<T>[] = [
    { key: 'name', head: rowName, cell: ({ name }) => name },
    {
      key: 'value',
      head: xName,
      align: 'right',
      cell: ({ value, says }) => (value === null ? (says ?? 'cannot be estimated') : format(value)),
    },
    { key: 'lower', head: `From (${ends})`, align: 'right', cell: ({ lower }) => (lower === null ? 'none' : format(lower)) },
    { key: 'upper', head: `To (${ends})`, align: 'right', cell: ({ upper }) => (upper === null ? 'none' : format(upper)) },
    ...also,
  ];
  return (
    <Figure
      {...words}
      keys={[
        { sign: 'line', words: ends },
        ...(usual ? [{ sign: 'limit', words: `${usual.label}: ${format(usual.value)}` } as const] : []),
        ...(rows.some(({ signal }) => signal) ? [{ sign: 'diamond', words: 'more than chance explains' } as const] : []),
      ]}
      height={() => rowsHigh(rows.length)}
      columns={columns}
      rows={rows}
      rowKey={({ key }) => key}
    >
      {(size) => {
        const plot = rowPlot(size);
        const x = scale([axis[0]!, axis.at(-1)!], [plot.left, plot.right]);
        return (
          <>
            <RowGrid plot={plot} at={axis} x={x} format={format} name={xName} />
            {rows.map((row, at) => (
              <g key={row.key}>
                <RowName plot={plot} row={at} name={row.name} says={row.says ?? saysOf(row, format)} />
                {usual ? <Usual x={x(usual.value)} y={barOf(plot, at)} /> : null}
                <Ends row={row} x={x} y={barOf(plot, at)} edge={plot.right} />
              </g>
            ))}
          </>
        );
      }}
    </Figure>
  );
}

function saysOf({ value, lower, upper }: IntervalRow, format: (value: number) => string): string {
  if (value === null) return 'cannot be estimated';
  return lower === null ? format(value) : `${format(value)} (${format(lower)} to ${upper === null ? 'no end' : format(upper)})`;
}

/** What a row is compared with stands beside its bar only, so that it never runs through a name. */
const Usual = ({ x, y }: { x: number; y: number }): ReactNode => <line className={classes.limit} x1={x} x2={x} y1={y - 11} y2={y + 12} />;

function Ends({ row, x, y, edge }: { row: IntervalRow; x: (value: number) => number; y: number; edge: number }): ReactNode {
  if (row.value === null) return null;
  const [from, to] = [x(row.lower ?? row.value), Math.min(edge, row.upper === null ? edge : x(row.upper))];
  const open = row.upper === null || x(row.upper) > edge;
  return (
    <g>
      <path
        className={classes.line}
        d={`M${from} ${y - 6}V${y + 6}M${from} ${y}H${to}${open ? `m-7 -5l7 5l-7 5` : `M${to} ${y - 6}V${y + 6}`}`}
      />
      {x(row.value) <= edge ? <Shape shape={row.signal ? 'diamond' : 'full'} x={x(row.value)} y={y} /> : null}
    </g>
  );
}
