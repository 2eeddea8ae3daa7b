// Units of different size against what chance alone allows for each size. No order among them: a funnel is no ranking.
import type { ReactNode } from 'react';
import { XAxis, YAxis, plotOf } from './Axes.tsx';
import { Figure, type FigureWords } from './Figure.tsx';
import { Shape, type Key, type ShapeName } from './Shape.tsx';
import { cut, scale, ticks } from './plot.ts';
import type { Column } from '../DataTable.tsx';
import classes from './charts.module.css';

export type FunnelPoint = {
  key: string;
  label: string;
  /** Size of the unit, such as its expected count. */
  size: number;
  value: number;
  /** Beyond the inner limits, beyond the outer ones, or null within both. */
  outside: 'inner' | 'outer' | null;
  /** Named in the drawing, as those outside are. */
  named?: boolean;
};

/** Limits over sizes in growing order; `lower` null: none. */
export type FunnelBand = { name: string; at: readonly { size: number; lower: number | null; upper: number }[] };

type Props<T> = FigureWords & {
  points: readonly T[];
  /** Narrow limits, then wide ones. */
  bands: readonly [inner: FunnelBand, outer: FunnelBand];
  /** What is usual. */
  target: number;
  pointName: string;
  xName: string;
  yName: string;
  format?: (value: number) => string;
  also?: readonly Column<T>[];
};

const plain = (value: number): string => value.toLocaleString('en-US', { maximumFractionDigits: 2 });
const SHAPES = { inner: 'square', outer: 'diamond' } as const;
const shapeOf = ({ outside, named }: FunnelPoint): ShapeName => (outside ? SHAPES[outside] : named ? 'full' : 'point');

/** Needs at least one point. */
export function FunnelChart<T extends FunnelPoint>(props: Props<T>): ReactNode {
  const { points, bands, target, pointName, xName, yName, format = plain, also = [], ...words } = props;
  const most = Math.max(...points.map(({ size }) => size)) * 1.08;
  const reach = bands[1].at.filter(({ size }) => size >= most / 8).map(({ upper }) => upper);
  const yTicks = ticks(0, Math.max(target * 1.5, ...points.map(({ value }) => value), ...reach), 5);
  const xTicks = ticks(0, most, 5);
  return (
    <Figure
      {...words}
      keys={keysOf(bands, points)}
      height={(width) => (width < 500 ? 310 : 360)}
      columns={[...columnsOf<T>(pointName, xName, yName, format), ...also]}
      rows={points}
      rowKey={({ key }) => key}
    >
      {(size) => {
        const plot = plotOf(size, yTicks.map(format));
        const y = scale([0, yTicks.at(-1)!], [plot.bottom, plot.top]);
        const x = scale([0, xTicks.at(-1)!], [plot.left, plot.right]);
        const seen = (value: number): number => Math.max(plot.top, Math.min(plot.bottom, y(value)));
        const limit = (band: FunnelBand, side: 'lower' | 'upper'): string =>
          band.at
            .filter((at) => at[side] !== null && at.size <= xTicks.at(-1)!)
            .map((at, n) => `${n === 0 ? 'M' : 'L'}${x(at.size)} ${seen(at[side]!)}`)
            .join('');
        return (
          <>
            <YAxis plot={plot} name={yName} at={yTicks} y={y} format={format} />
            <XAxis plot={plot} name={xName} labels={xTicks.map((value) => ({ at: x(value), label: plain(value) }))} />
            <line className={classes.center} x1={plot.left} x2={plot.right} y1={y(target)} y2={y(target)} />
            {bands.map((band, at) => (
              <path key={band.name} className={at === 0 ? classes.limit : classes.outer} d={limit(band, 'lower') + limit(band, 'upper')} />
            ))}
            {points.map((point) => (
              <g key={point.key}>
                <Shape shape={shapeOf(point)} x={x(point.size)} y={y(point.value)} says={`${point.label}: ${format(point.value)}`} />
                {point.outside || point.named ? <Name of={point} x={x(point.size)} y={y(point.value)} width={size.width} /> : null}
              </g>
            ))}
          </>
        );
      }}
    </Figure>
  );
}

function Name({ of, x, y, width }: { of: FunnelPoint; x: number; y: number; width: number }): ReactNode {
  const left = x > width / 2;
  return (
    <text x={left ? x - 10 : x + 10} y={y + 4} textAnchor={left ? 'end' : 'start'}>
      {cut(of.label, (left ? x : width - x) - 16)}
    </text>
  );
}

const keysOf = ([inner, outer]: Props<FunnelPoint>['bands'], points: readonly FunnelPoint[]): Key[] => [
  { sign: 'center', words: 'what is usual' },
  { sign: 'limit', words: inner.name },
  { sign: 'outer', words: outer.name },
  ...(points.some(({ outside }) => outside === 'inner') ? [{ sign: 'square', words: `beyond ${inner.name}` } as const] : []),
  ...(points.some(({ outside }) => outside === 'outer') ? [{ sign: 'diamond', words: `beyond ${outer.name}` } as const] : []),
];

function columnsOf<T extends FunnelPoint>(pointName: string, xName: string, yName: string, format: (value: number) => string): Column<T>[] {
  const where = { inner: 'beyond the narrow limits', outer: 'beyond the wide limits' };
  return [
    { key: 'label', head: pointName, cell: ({ label }) => label },
    { key: 'size', head: xName, align: 'right', cell: ({ size }) => plain(size) },
    { key: 'value', head: yName, align: 'right', cell: ({ value }) => format(value) },
    { key: 'where', head: 'Where it lies', cell: ({ outside }) => (outside ? where[outside] : 'within both limits') },
  ];
}
