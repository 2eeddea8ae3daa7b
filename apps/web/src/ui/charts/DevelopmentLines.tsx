// How cohorts grow with age: one line each, named at its end, going on in dashes where it is only expected.
import type { ReactNode } from 'react';
import { XAxis, YAxis, plotOf } from './Axes.tsx';
import { Figure, type FigureWords } from './Figure.tsx';
import { Shape, type ShapeName } from './Shape.tsx';
import { apart, LETTER, scale, ticks } from './plot.ts';
import type { Column } from '../DataTable.tsx';
import classes from './charts.module.css';

export type AgedValue = { age: number; value: number };

/** Both in growing age. `expected` goes on after the last known value. */
export type DevelopmentLine = { name: string; known: readonly AgedValue[]; expected?: readonly AgedValue[] };

type Props = FigureWords & {
  lines: readonly DevelopmentLine[];
  /** What a line is: 'Quarter of inspection'. */
  lineName: string;
  /** What an age is, with its unit. */
  xName: string;
  yName: string;
  format?: (value: number) => string;
};

const plain = (value: number): string => value.toLocaleString('en-US', { maximumFractionDigits: 1 });
const SHAPES: readonly ShapeName[] = ['point', 'square', 'triangle', 'full', 'diamond'];

/** Needs at least one line with one known value. */
export function DevelopmentLines({ lines, lineName, xName, yName, format = plain, ...words }: Props): ReactNode {
  const all = lines.flatMap(({ known, expected = [] }) => [...known, ...expected]);
  const ages = [...new Set(all.map(({ age }) => age))].sort((a, b) => a - b);
  const yTicks = ticks(Math.min(0, ...all.map(({ value }) => value)), Math.max(...all.map(({ value }) => value)) || 1, 5);
  return (
    <Figure
      {...words}
      keys={[
        { sign: 'line', words: 'as it was recorded' },
        ...(lines.some(({ expected }) => (expected?.length ?? 0) > 0)
          ? [{ sign: 'expected', words: 'as it is expected to go on' } as const]
          : []),
      ]}
      height={(width) => (width < 500 ? 330 : 380)}
      columns={columnsOf(lineName, ages, xName, format)}
      rows={lines}
      rowKey={({ name }) => name}
    >
      {(size) => {
        const whole = plotOf(size, yTicks.map(format));
        const room = Math.min(size.width / 3, Math.max(...lines.map(({ name }) => name.length)) * LETTER + 12);
        const plot = { ...whole, right: size.width - room };
        const y = scale([yTicks[0]!, yTicks.at(-1)!], [plot.bottom, plot.top]);
        const x = scale([Math.min(0, ages[0]!), Math.max(ages.at(-1)!, 1)], [plot.left + 6, plot.right - 6]);
        const ends = lines
          .map(({ known, expected = [] }) => [...known, ...expected].at(-1))
          .map((end) => (end ? y(end.value) : plot.bottom));
        const gap = Math.min(14, (plot.bottom - plot.top) / Math.max(1, lines.length - 1));
        const names = apart(ends, gap, [plot.top, plot.bottom]);
        return (
          <>
            <YAxis plot={plot} name={yName} at={yTicks} y={y} format={format} />
            <XAxis plot={plot} name={xName} labels={ages.map((age) => ({ at: x(age), label: plain(age) }))} />
            {lines.map((line, at) => (
              <Line
                key={line.name}
                line={line}
                shape={SHAPES[at % SHAPES.length]!}
                x={x}
                y={y}
                name={{ x: plot.right + 4, y: names[at]! + 4 }}
              />
            ))}
          </>
        );
      }}
    </Figure>
  );
}

type Scale = (value: number) => number;
type LineProps = { line: DevelopmentLine; shape: ShapeName; x: Scale; y: Scale; name: { x: number; y: number } };

function Line({ line: { name, known, expected = [] }, shape, x, y, name: place }: LineProps): ReactNode {
  const path = (values: readonly AgedValue[]): string =>
    values.map(({ age, value }, at) => `${at === 0 ? 'M' : 'L'}${x(age)} ${y(value)}`).join('');
  const end = [...known, ...expected].at(-1);
  if (!end) return null;
  return (
    <g>
      <path className={classes.line} d={path(known)} />
      {expected.length > 0 ? <path className={classes.expected} d={path([...known.slice(-1), ...expected])} /> : null}
      {known.map(({ age, value }) => (
        <Shape key={age} shape={shape} x={x(age)} y={y(value)} says={`${name}: ${value}`} />
      ))}
      <line className={classes.grid} x1={x(end.age)} y1={y(end.value)} x2={place.x - 2} y2={place.y - 4} />
      <text x={place.x} y={place.y}>
        {name}
      </text>
    </g>
  );
}

const columnsOf = (
  lineName: string,
  ages: readonly number[],
  xName: string,
  format: (value: number) => string,
): Column<DevelopmentLine>[] => [
  { key: 'name', head: lineName, cell: ({ name }) => name },
  ...ages.map((age, at): Column<DevelopmentLine> => ({
    key: String(age),
    head: at === 0 ? `${xName}: ${plain(age)}` : plain(age),
    align: 'right',
    cell: ({ known, expected = [] }) => {
      const found = known.find((one) => one.age === age);
      if (found) return format(found.value);
      const later = expected.find((one) => one.age === age);
      return later ? `${format(later.value)} expected` : '';
    },
  })),
];
