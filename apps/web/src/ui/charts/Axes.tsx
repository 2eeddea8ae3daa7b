// Axes: lines of the grid with their values, and what each axis counts, written where it can be read without turning the head.
import type { ReactNode } from 'react';
import { LETTER, everyNth, type Plot } from './plot.ts';
import classes from './charts.module.css';

const [LINE, ABOVE, BELOW] = [16, 26, 44];

/** Room for the points: what the axes' words leave. `rows` further lines of words stand above. */
export function plotOf({ width, height }: { width: number; height: number }, yLabels: readonly string[], rows = 0): Plot {
  const left = Math.max(...yLabels.map((label) => label.length), 1) * LETTER + 14;
  return { width, height, left, right: width - 14, top: ABOVE + 8 + rows * LINE, bottom: height - BELOW };
}

type YProps = { plot: Plot; name: string; at: readonly number[]; y: (value: number) => number; format: (value: number) => string };

/** Values that grow upwards; `name` says what they are, with the unit. */
export const YAxis = ({ plot, name, at, y, format }: YProps): ReactNode => (
  <g>
    <text className={classes.soft} x={8} y={18}>
      {name}
    </text>
    {at.map((value) => (
      <g key={value}>
        <line className={classes.grid} x1={plot.left} x2={plot.right} y1={y(value)} y2={y(value)} />
        <text x={plot.left - 6} y={y(value) + 4} textAnchor="end">
          {format(value)}
        </text>
      </g>
    ))}
  </g>
);

type XProps = { plot: Plot; name: string; labels: readonly { at: number; label: string }[] };

/** Labels at their places in pixels, as many as there is room for, and under them what they are. */
export function XAxis({ plot, name, labels }: XProps): ReactNode {
  const shown = readable(labels, plot);
  return (
    <g>
      <line className={classes.axis} x1={plot.left} x2={plot.right} y1={plot.bottom} y2={plot.bottom} />
      {shown.map(({ at, label }) => (
        <g key={`${at} ${label}`}>
          <line className={classes.axis} x1={at} x2={at} y1={plot.bottom} y2={plot.bottom + 4} />
          <text x={within(at, label, plot)} y={plot.bottom + 17} textAnchor="middle">
            {label}
          </text>
        </g>
      ))}
      <text className={classes.soft} x={plot.right} y={plot.bottom + 36} textAnchor="end">
        {name}
      </text>
    </g>
  );
}

/** Every so many labels that they fit; not one that was moved in from the edge into the next. */
function readable(labels: XProps['labels'], plot: Plot): XProps['labels'] {
  const nth = everyNth(
    labels.map(({ label }) => label),
    plot.right - plot.left,
  );
  let end = -Infinity;
  return labels.filter(({ at, label }, n) => {
    const [middle, half] = [within(at, label, plot), (label.length * LETTER) / 2];
    if (n % nth !== 0 || middle - half < end) return false;
    end = middle + half;
    return true;
  });
}

/** A label in the middle of its place, moved so far that it is not cut off at an edge. */
const within = (at: number, label: string, { width }: Plot): number => {
  const half = (label.length * LETTER) / 2;
  return Math.min(Math.max(at, half + 2), width - half - 2);
};
