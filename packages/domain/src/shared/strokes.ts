// A drawn signature: strokes of a pen in a field of 600 by 200 units, kept as numbers and never as a picture.
import { accept, refuse, type Outcome } from './outcome.ts';

export const FIELD = { width: 600, height: 200 };
/** Points of a drawing at the most, and its letters as text. */
export const MOST_POINTS = 4000;
export const LONGEST_DRAWING = 60_000;
/** Way of the pen in units below which it is a dot and no signature. */
const SHORTEST_WAY = 60;

/** Each stroke: x, y, x, y... in whole units. */
export type Strokes = readonly (readonly number[])[];

const inField = (stroke: readonly unknown[]): boolean =>
  stroke.every((n, at) => Number.isInteger(n) && (n as number) >= 0 && (n as number) <= (at % 2 === 0 ? FIELD.width : FIELD.height));

const isStroke = (value: unknown): value is number[] =>
  Array.isArray(value) && value.length >= 2 && value.length % 2 === 0 && inField(value);

const wayOf = (stroke: readonly number[]): number => {
  let way = 0;
  for (let at = 2; at < stroke.length; at += 2) way += Math.hypot(stroke[at]! - stroke[at - 2]!, stroke[at + 1]! - stroke[at - 1]!);
  return way;
};

/** Reads a drawing as it came in. Refuses what is no drawing ('drawing-unreadable'), and a dot or nothing ('drawing-empty'). */
export function readStrokes(text: string): Outcome<Strokes> {
  if (text.length > LONGEST_DRAWING) return refuse('drawing-unreadable', {}, 'strokes');
  let given: unknown;
  try {
    given = JSON.parse(text);
  } catch {
    return refuse('drawing-unreadable', {}, 'strokes');
  }
  if (!Array.isArray(given) || !given.every(isStroke)) return refuse('drawing-unreadable', {}, 'strokes');
  const points = given.reduce((sum, stroke) => sum + stroke.length / 2, 0);
  if (points > MOST_POINTS) return refuse('drawing-unreadable', {}, 'strokes');
  return given.reduce((sum, stroke) => sum + wayOf(stroke), 0) < SHORTEST_WAY ? refuse('drawing-empty', {}, 'strokes') : accept(given);
}

/** The drawing as the path of an SVG of the field's size. */
export const pathOf = (strokes: Strokes): string =>
  strokes
    .map(([x, y, ...rest]) => {
      const pairs = rest.length === 0 ? [x, y] : rest;
      return `M${x} ${y}L${pairs.join(' ')}`;
    })
    .join('');
