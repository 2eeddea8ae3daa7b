// The few that make most of it: bars, the largest first, and the line of their sum so far as a share of everything.
import type { ReactNode } from 'react';
import { Figure, type FigureWords } from './Figure.tsx';
import { Shape } from './Shape.tsx';
import { LETTER, scale, ticks } from './plot.ts';
import { barOf, RowGrid, RowName, rowPlot, rowsHigh } from './rows.tsx';
import type { Column } from '../DataTable.tsx';
import classes from './charts.module.css';

export type ParetoBar = { key: string; name: string; value: number };

type Props<T> = FigureWords & {
  /** All of them, in any order; none below 0. */
  bars: readonly T[];
  /** What a bar is, as the head of the first column: 'Step'. */
  barName: string;
  /** What is summed, with its unit. */
  xName: string;
  format?: (value: number) => string;
  /** Whole things are counted, so the axis shows no half ones. */
  whole?: boolean;
  also?: readonly Column<T>[];
};

/** More than these are drawn as one last bar. */
const MOST = 12;

const plain = (value: number): string => value.toLocaleString('en-US', { maximumFractionDigits: 2 });
const percent = (share: number): string => `${Math.round(share * 100)} %`;

/** Bars with nothing are left out of the drawing. Needs at least one above 0. */
export function ParetoChart<T extends ParetoBar>({
  bars,
  barName,
  xName,
  format = plain,
  whole,
  also = [],
  ...words
}: Props<T>): ReactNode {
  const rows = sumsOf(bars);
  const drawn = together(rows.filter(({ value }) => value > 0));
  const axis = ticks(0, drawn[0]!.value, 5, whole);
  const columns: Column<(typeof rows)[number]>[] = [
    { key: 'name', head: barName, cell: ({ name }) => name },
    { key: 'value', head: xName, align: 'right', cell: ({ value }) => format(value) },
    { key: 'share', head: 'Share of all', align: 'right', cell: ({ share }) => percent(share) },
    { key: 'sum', head: 'With those before it', align: 'right', cell: ({ upTo }) => percent(upTo) },
    ...also.map((column) => ({ ...column, cell: (row: (typeof rows)[number]) => column.cell(row.bar) })),
  ];
  const ABOVE = 40;
  return (
    <Figure
      {...words}
      keys={[
        { sign: 'bar', words: xName },
        { sign: 'line', words: 'this and those before it, as a share of all (scale above)' },
      ]}
      height={() => rowsHigh(drawn.length, ABOVE)}
      columns={columns}
      rows={rows}
      rowKey={({ key }) => key}
    >
      {(size) => {
        const plot = rowPlot(size, ABOVE);
        const right = plot.right - Math.max(...drawn.map(({ value }) => format(value).length)) * LETTER - 14;
        const x = scale([0, axis.at(-1)!], [plot.left, right]);
        const share = scale([0, 1], [plot.left, right]);
        return (
          <>
            <ShareAxis share={share} />
            <RowGrid plot={plot} at={axis} x={x} format={format} name={xName} />
            {drawn.map(({ key, value }, row) => (
              <rect
                key={key}
                className={classes.bar}
                x={plot.left}
                y={barOf(plot, row) - 7}
                width={Math.max(1, x(value) - plot.left)}
                height={14}
              />
            ))}
            <polyline className={classes.line} points={drawn.map(({ upTo }, row) => `${share(upTo)},${barOf(plot, row)}`).join(' ')} />
            {drawn.map(({ key, name, value, upTo }, row) => (
              <g key={key}>
                <Shape shape="point" x={share(upTo)} y={barOf(plot, row)} says={`${percent(upTo)} up to here`} />
                <RowName plot={plot} row={row} name={name} says={format(value)} />
              </g>
            ))}
          </>
        );
      }}
    </Figure>
  );
}

const ShareAxis = ({ share }: { share: (value: number) => number }): ReactNode => (
  <g>
    <text className={classes.soft} x={share(0)} y={17}>
      Share of all
    </text>
    {[0, 0.25, 0.5, 0.75, 1].map((at) => (
      <text key={at} x={share(at)} y={36} textAnchor={at === 0 ? 'start' : at === 1 ? 'end' : 'middle'}>
        {percent(at)}
      </text>
    ))}
  </g>
);

type Row<T> = { key: string; name: string; value: number; share: number; upTo: number; bar: T };

/** The largest first; equal ones by name. */
function sumsOf<T extends ParetoBar>(bars: readonly T[]): Row<T>[] {
  const total = bars.reduce((sum, { value }) => sum + value, 0) || 1;
  let upTo = 0;
  return bars
    .toSorted((a, b) => b.value - a.value || a.name.localeCompare(b.name))
    .map((bar) => {
      upTo += bar.value / total;
      return { key: bar.key, name: bar.name, value: bar.value, share: bar.value / total, upTo: Math.min(1, upTo), bar };
    });
}

/** The first ones, and what is left as one bar, so that the line still ends at all of it. */
function together<T>(rows: readonly Row<T>[]): Omit<Row<T>, 'bar'>[] {
  if (rows.length <= MOST) return [...rows];
  const left = rows.slice(MOST - 1);
  const sum = (of: (row: Row<T>) => number): number => left.reduce((total, row) => total + of(row), 0);
  const rest = {
    key: 'left over',
    name: `${left.length} others`,
    value: sum(({ value }) => value),
    share: sum(({ share }) => share),
    upTo: 1,
  };
  return [...rows.slice(0, MOST - 1), rest];
}
