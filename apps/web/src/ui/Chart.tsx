// A line of shares over time, drawn as SVG: with its title, its unit, a sentence that says the same, and the numbers as a table.
import { useId, type ReactNode } from 'react';
import { DataTable } from './DataTable.tsx';
import classes from './Chart.module.css';

export type ChartPoint = {
  /** Name of the point on the axis and in the table. */
  label: string;
  /** 0 to 100. */
  percent: number;
  /** What the share is of, for the table: '3 of 4'. */
  of: string;
  /** Filled points belong to the second span. */
  second: boolean;
};

type Props = {
  title: string;
  /** What the vertical axis counts, with its unit. */
  unit: string;
  /** Names of the two spans: hollow points, filled points. */
  spans: readonly [string, string];
  points: readonly ChartPoint[];
  /** Says in words what is to be seen. */
  summary: string;
  /** Stands at the border between the spans. */
  mark: string;
};

const [WIDE, HIGH, LEFT, RIGHT, TOP, BOTTOM] = [720, 250, 76, 16, 18, 40];
const y = (percent: number): number => TOP + ((100 - percent) / 100) * (HIGH - TOP - BOTTOM);

/** Needs at least one point. Shape tells the spans apart, so that it needs no color. */
export function Chart({ title, unit, spans, points, summary, mark }: Props): ReactNode {
  const id = useId();
  const x = (at: number): number =>
    points.length < 2 ? (WIDE + LEFT - RIGHT) / 2 : LEFT + 8 + (at / (points.length - 1)) * (WIDE - LEFT - RIGHT - 16);
  const border = points.findIndex(({ second }) => second);
  const markAt = border > 0 ? (x(border - 1) + x(border)) / 2 : null;
  return (
    <figure className={classes.figure}>
      <figcaption>
        <strong>{title}</strong>
        <br />
        {summary}
        <br />
        <small>{`${unit}. Hollow points: ${spans[0]}; filled points: ${spans[1]}.`}</small>
      </figcaption>
      <svg className={classes.drawing} viewBox={`0 0 ${WIDE} ${HIGH}`} role="img" aria-labelledby={`${id}-t ${id}-d`}>
        <title id={`${id}-t`}>{title}</title>
        <desc id={`${id}-d`}>{summary}</desc>
        {[0, 25, 50, 75, 100].map((at) => (
          <g key={at}>
            <line className={classes.grid} x1={LEFT} x2={WIDE - RIGHT} y1={y(at)} y2={y(at)} />
            <text x={LEFT - 6} y={y(at) + 4} textAnchor="end">{`${at} %`}</text>
          </g>
        ))}
        <polyline className={classes.line} points={points.map(({ percent }, at) => `${x(at)},${y(percent)}`).join(' ')} />
        {points.map(({ label, percent, second }, at) => (
          <circle key={label + String(second)} className={classes.point} data-full={second || undefined} cx={x(at)} cy={y(percent)} r={4} />
        ))}
        {markAt === null ? null : (
          <>
            <line className={classes.mark} x1={markAt} x2={markAt} y1={TOP} y2={HIGH - BOTTOM} />
            <text x={markAt + 5} y={HIGH - BOTTOM - 6}>
              {mark}
            </text>
          </>
        )}
        <text x={x(0) - 8} y={HIGH - 12}>
          {points[0]!.label}
        </text>
        {points.length > 1 ? (
          <text x={WIDE - RIGHT} y={HIGH - 12} textAnchor="end">
            {points.at(-1)!.label}
          </text>
        ) : null}
      </svg>
      <details>
        <summary>The same as a table</summary>
        <DataTable
          caption={title}
          columns={[
            { key: 'label', head: 'Week of', cell: (p) => p.label },
            { key: 'of', head: 'Records', align: 'right', cell: (p) => p.of },
            { key: 'percent', head: 'Share', align: 'right', cell: (p) => `${Math.round(p.percent)} %` },
            { key: 'span', head: 'When', cell: (p) => spans[p.second ? 1 : 0] },
          ]}
          rows={points}
          rowKey={(p) => p.label + String(p.second)}
        />
      </details>
    </figure>
  );
}
