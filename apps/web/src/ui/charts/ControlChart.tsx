// Points in order against a center line and control limits, with what was changed marked where it happened.
import type { ReactNode } from 'react';
import { XAxis, YAxis, plotOf } from './Axes.tsx';
import { Figure, type FigureWords } from './Figure.tsx';
import { Shape, type Key, type ShapeName } from './Shape.tsx';
import { LETTER, scale, ticks, type Plot } from './plot.ts';
import type { Column } from '../DataTable.tsx';
import classes from './charts.module.css';

export type ControlSignal = { rule: string; side: 'above' | 'below'; sentence: string };

/** `value` null: nothing to count over, so nothing is drawn. `center` and limits null: there are none. All in the unit of the chart. */
export type ControlPoint = {
  label: string;
  value: number | null;
  center?: number | null;
  lower?: number | null;
  upper?: number | null;
  signals?: readonly ControlSignal[];
};

/** Something that happened before the point `at` (0 = before the first; as many as points = after the last). */
export type ChartMark = { at: number; label: string };

type Props<T> = FigureWords & {
  points: readonly T[];
  /** What one point is, as the head of the first column and on the axis: 'Month of inspection'. */
  xName: string;
  /** What is counted, with its unit. */
  yName: string;
  format?: (value: number) => string;
  /** Where good news lies; says so beside each signal. */
  goodSide?: 'above' | 'below';
  marks?: readonly ChartMark[];
  /** What a mark means, in the key. */
  markWords?: string;
  /** Highest value of the axis where it is known (1 of a share). */
  most?: number;
  /** Further columns of the table: what each point counts. */
  also?: readonly Column<T>[];
};

const plain = (value: number): string => value.toLocaleString('en-US', { maximumFractionDigits: 2 });

/** Needs at least one point. */
export function ControlChart<T extends ControlPoint>(props: Props<T>): ReactNode {
  const { points, format = plain, goodSide, marks = [], markWords = 'a change', xName, yName, most, also = [], ...words } = props;
  const values = points.flatMap(({ value, upper }) => [value ?? 0, upper ?? 0]);
  const yTicks = ticks(Math.min(0, ...values), most ?? (Math.max(...values) || 1), 5);
  return (
    <Figure
      {...words}
      keys={keysOf(points, marks.length > 0 ? markWords : null)}
      notes={points.flatMap((point, at) => notesOf(point, points[at + 1], goodSide))}
      height={(width) => (width < 500 ? 290 : 320)}
      columns={[...columnsOf<T>(xName, yName, format, points), ...also]}
      rows={points}
      rowKey={(point) => `${points.indexOf(point)} ${point.label}`}
    >
      {(size) => {
        const sides = plotOf(size, yTicks.map(format));
        const slot = (sides.right - sides.left) / points.length;
        const x = (at: number): number => Math.round((sides.left + (at + 0.5) * slot) * 10) / 10;
        const changes = placed(marks, x, size.width);
        const plot = plotOf(size, yTicks.map(format), Math.max(0, ...changes.map(({ row }) => row + 1)));
        const y = scale([yTicks[0]!, yTicks.at(-1)!], [plot.bottom, plot.top]);
        return (
          <>
            <YAxis plot={plot} name={yName} at={yTicks} y={y} format={format} />
            <XAxis plot={plot} name={xName} labels={points.map(({ label }, at) => ({ at: x(at), label }))} />
            <Steps of={points.map(({ lower }) => lower)} className={classes.limit} x={x} y={y} />
            <Steps of={points.map(({ upper }) => upper)} className={classes.limit} x={x} y={y} />
            <Steps of={points.map(({ center }) => center)} className={classes.center} x={x} y={y} />
            <Marks marks={changes} plot={plot} />
            <path className={classes.line} d={lineOf(points, x, y)} />
            {points.map((point, at) =>
              point.value === null ? null : (
                <Shape
                  key={at}
                  shape={shapeOf(point)}
                  x={x(at)}
                  y={y(point.value)}
                  says={[`${point.label}: ${format(point.value)}`, ...(point.signals ?? []).map(({ sentence }) => sentence)].join('. ')}
                />
              ),
            )}
          </>
        );
      }}
    </Figure>
  );
}

/** Beyond a limit tells more than a run, so its shape wins. */
const shapeOf = ({ signals = [] }: ControlPoint): ShapeName =>
  signals.some(({ rule }) => rule !== 'run') ? 'diamond' : signals.length > 0 ? 'square' : 'point';

/** Of a run only its last point is told: it says how long the run is. */
function notesOf(point: ControlPoint, next: ControlPoint | undefined, goodSide: Props<ControlPoint>['goodSide']): string[] {
  const goesOn = next?.signals?.some(({ rule }) => rule === 'run') ?? false;
  return (point.signals ?? [])
    .filter(({ rule }) => rule !== 'run' || !goesOn)
    .map(({ sentence, side }) => {
      if (!goodSide) return sentence;
      return `${sentence} ${side === goodSide ? 'This is good news: find out what helped.' : 'Look at what happened then.'}`;
    });
}

function keysOf(points: readonly ControlPoint[], marked: string | null): Key[] {
  const shapes = new Set(points.filter(({ value }) => value !== null).map(shapeOf));
  const has = (of: (point: ControlPoint) => unknown): boolean => points.some((point) => (of(point) ?? null) !== null);
  return [
    ...(shapes.has('diamond') ? [{ sign: 'diamond', words: 'beyond a limit' } as const] : []),
    ...(shapes.has('square') ? [{ sign: 'square', words: 'eight or more in a row on one side' } as const] : []),
    ...(has(({ center }) => center) ? [{ sign: 'center', words: 'center' } as const] : []),
    ...(has(({ upper }) => upper) || has(({ lower }) => lower) ? [{ sign: 'limit', words: 'control limits' } as const] : []),
    ...(marked ? [{ sign: 'mark', words: marked } as const] : []),
  ];
}

function columnsOf<T extends ControlPoint>(
  xName: string,
  yName: string,
  format: (value: number) => string,
  points: readonly ControlPoint[],
): Column<T>[] {
  const number = (value: number | null | undefined): string => (value === null || value === undefined ? 'none' : format(value));
  const limits: Column<T>[] = [
    { key: 'center', head: 'Center', align: 'right', cell: ({ center }) => number(center) },
    { key: 'lower', head: 'Lower limit', align: 'right', cell: ({ lower }) => number(lower) },
    { key: 'upper', head: 'Upper limit', align: 'right', cell: ({ upper }) => number(upper) },
    { key: 'signals', head: 'Signal', cell: ({ signals = [] }) => signals.map(({ sentence }) => sentence).join(' ') || 'none' },
  ];
  return [
    { key: 'label', head: xName, cell: ({ label }) => label },
    { key: 'value', head: yName, align: 'right', cell: ({ value }) => number(value) },
    ...(points.some(({ center }) => center !== null && center !== undefined) ? limits : []),
  ];
}

type Scale = (at: number) => number;

/** A line that is level over each point and steps between them; broken where there is no value. */
function Steps({ of, className, x, y }: { of: readonly (number | null | undefined)[]; className?: string; x: Scale; y: Scale }): ReactNode {
  const is = (value: number | null | undefined): value is number => value !== null && value !== undefined;
  const d = of
    .map((value, at) => (is(value) ? `${is(of[at - 1]) ? 'L' : 'M'}${x(at - 0.5)} ${y(value)}L${x(at + 0.5)} ${y(value)}` : ''))
    .join('');
  return d === '' ? null : <path className={className} d={d} />;
}

/** From point to point, broken where there is none. */
const lineOf = (points: readonly ControlPoint[], x: Scale, y: Scale): string =>
  points
    .map(({ value }, at) => (value === null ? '' : `${at > 0 && points[at - 1]!.value !== null ? 'L' : 'M'}${x(at)} ${y(value)}`))
    .join('');

type PlacedMark = ChartMark & { x: number; row: number; atEnd: boolean };

/** Words that would cover each other stand on different lines, the first at the top. */
function placed(marks: readonly ChartMark[], x: Scale, width: number): PlacedMark[] {
  const ends: number[] = [];
  return marks.map(({ at, label }) => {
    const [place, long] = [x(at - 0.5), label.length * LETTER + 10];
    const atEnd = place + long > width;
    const start = atEnd ? place - long : place;
    const free = ends.findIndex((end) => end <= start);
    const row = free < 0 ? ends.length : free;
    ends[row] = start + long;
    return { at, label, x: place, row, atEnd };
  });
}

const Marks = ({ marks, plot }: { marks: readonly PlacedMark[]; plot: Plot }): ReactNode =>
  marks.map(({ at, label, x, row, atEnd }) => {
    const y = plot.top - 8 - (Math.max(...marks.map((mark) => mark.row)) - row) * 16;
    return (
      <g key={`${at} ${label}`}>
        <line className={classes.mark} x1={x} x2={x} y1={y + 4} y2={plot.bottom} />
        <text x={atEnd ? x - 3 : x + 3} y={y} textAnchor={atEnd ? 'end' : 'start'}>
          {label}
        </text>
      </g>
    );
  });
