// Points and lines as they are drawn, and the key that says what each means.
import type { ReactNode } from 'react';
import classes from './charts.module.css';

/** `point` is an ordinary one; the others are told from it, and from each other, by their outline. */
export type ShapeName = 'point' | 'full' | 'square' | 'diamond' | 'triangle';

/** Outlines around 0,0. */
const OUTLINES = {
  square: 'M-5-5h10v10h-10z',
  diamond: 'M0-7.5 7.5 0 0 7.5-7.5 0z',
  triangle: 'M0-6.5 6.5 5h-13z',
} as const;

type Props = { shape: ShapeName; x: number; y: number; says?: string };

/** `says` is shown where a pointer rests. */
export function Shape({ shape, x, y, says }: Props): ReactNode {
  const title = says ? <title>{says}</title> : null;
  if (shape === 'point' || shape === 'full')
    return (
      <circle className={classes.point} data-full={shape === 'full' || undefined} cx={x} cy={y} r={3.75}>
        {title}
      </circle>
    );
  return (
    <path className={classes.signal} d={OUTLINES[shape]} transform={`translate(${x} ${y})`}>
      {title}
    </path>
  );
}

const LINES = ['line', 'expected', 'center', 'limit', 'outer', 'mark', 'bar'] as const;
type LineName = (typeof LINES)[number];

/** What a sign of the drawing means. */
export type Key = { sign: ShapeName | LineName; words: string };

const isLine = (sign: Key['sign']): sign is LineName => (LINES as readonly string[]).includes(sign);

/** The signs are for the eye: each word of the key is read out without them. */
export function Keys({ of }: { of: readonly Key[] }): ReactNode {
  if (of.length === 0) return null;
  return (
    <ul className={classes.keys}>
      {of.map(({ sign, words }) => (
        <li key={words}>
          <svg width="26" height="16" viewBox="0 0 26 16" aria-hidden="true">
            <Sign sign={sign} />
          </svg>
          {words}
        </li>
      ))}
    </ul>
  );
}

function Sign({ sign }: { sign: Key['sign'] }): ReactNode {
  if (!isLine(sign)) return <Shape shape={sign} x={13} y={8} />;
  if (sign === 'bar') return <rect className={classes.bar} x={3} y={3} width={20} height={10} />;
  if (sign === 'mark') return <line className={classes.mark} x1={13} x2={13} y1={1} y2={15} />;
  return <line className={classes[sign]} x1={1} x2={25} y1={8} y2={8} />;
}
