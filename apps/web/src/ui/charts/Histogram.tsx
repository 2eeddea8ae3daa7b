// How often each amount came up: bars side by side, with lines at the figures that the words name.
import type { ReactNode } from 'react';
import { XAxis, YAxis, plotOf } from './Axes.tsx';
import { Figure, type FigureWords } from './Figure.tsx';
import { LETTER, scale, ticks } from './plot.ts';
import classes from './charts.module.css';

/** From and up to but without `to`. */
export type Bin = { from: number; to: number; count: number };

type Props = FigureWords & {
  /** In growing order, without gaps. */
  bins: readonly Bin[];
  /** Lines at single values, such as the median. */
  marks?: readonly { value: number; label: string }[];
  xName: string;
  yName: string;
  format?: (value: number) => string;
};

const plain = (value: number): string => value.toLocaleString('en-US', { maximumFractionDigits: 2 });

/** Needs at least one bin. */
export function Histogram({ bins, marks = [], xName, yName, format = plain, ...words }: Props): ReactNode {
  const total = bins.reduce((sum, { count }) => sum + count, 0) || 1;
  const yTicks = ticks(0, Math.max(1, ...bins.map(({ count }) => count)), 4, true);
  const [from, to] = [bins[0]!.from, bins.at(-1)!.to];
  const xTicks = ticks(from, to, 5).filter((value) => value >= from && value <= to);
  return (
    <Figure
      {...words}
      keys={[{ sign: 'bar', words: yName }]}
      height={(width) => (width < 500 ? 270 : 300)}
      columns={[
        { key: 'from', head: xName, cell: (bin) => `${format(bin.from)} to ${format(bin.to)}` },
        { key: 'count', head: yName, align: 'right', cell: ({ count }) => plain(count) },
        { key: 'share', head: 'Share of all', align: 'right', cell: ({ count }) => `${plain((100 * count) / total)} %` },
      ]}
      rows={bins}
      rowKey={(bin) => String(bin.from)}
    >
      {(size) => {
        const plot = plotOf(size, yTicks.map(plain), marks.length);
        const y = scale([0, yTicks.at(-1)!], [plot.bottom, plot.top]);
        const x = scale([from, to], [plot.left, plot.right]);
        return (
          <>
            <YAxis plot={plot} name={yName} at={yTicks} y={y} format={plain} />
            {bins.map((bin) => (
              <rect
                key={bin.from}
                className={classes.bar}
                x={x(bin.from)}
                y={y(bin.count)}
                width={Math.max(0.5, x(bin.to) - x(bin.from))}
                height={plot.bottom - y(bin.count)}
              />
            ))}
            <XAxis plot={plot} name={xName} labels={xTicks.map((value) => ({ at: x(value), label: format(value) }))} />
            {marks.map(({ value, label }, n) => {
              const [at, row] = [Math.max(plot.left, Math.min(plot.right, x(value))), plot.top - 8 - (marks.length - 1 - n) * 16];
              const atEnd = at + label.length * LETTER + 6 > plot.width;
              return (
                <g key={label}>
                  <line className={classes.limit} x1={at} x2={at} y1={row + 3} y2={plot.bottom} />
                  <text x={atEnd ? at - 4 : at + 4} y={row} textAnchor={atEnd ? 'end' : 'start'}>
                    {label}
                  </text>
                </g>
              );
            })}
          </>
        );
      }}
    </Figure>
  );
}
