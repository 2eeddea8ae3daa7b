// Arithmetic of drawings: round values for an axis, places on it, and words cut to the room there is.

/** Where the points of a drawing lie, in pixels; `top` is above `bottom`, so it is the smaller number. */
export type Plot = { width: number; height: number; left: number; right: number; top: number; bottom: number };

/** Pixels of a letter of the axis, on the average and a little more. */
export const LETTER = 7;

/**
 * Round values from at or below `from` to at or above `to`, about `wanted` of them, their distance 1, 2 or 5 times a power of ten.
 * `whole`: never less than 1 apart, for counts.
 */
export function ticks(from: number, to: number, wanted: number, whole = false): number[] {
  const span = to > from ? to - from : Math.abs(to) || 1;
  const rough = span / Math.max(1, wanted);
  const power = 10 ** Math.floor(Math.log10(rough));
  const found = ([1, 2, 5, 10].find((n) => n * power >= rough * 0.999) ?? 10) * power;
  const step = whole ? Math.max(1, found) : found;
  const first = Math.floor(from / step + 1e-9);
  const last = Math.max(first + 1, Math.ceil((to > from ? to : from + span) / step - 1e-9));
  return Array.from({ length: last - first + 1 }, (_, at) => Number(((first + at) * step).toPrecision(12)));
}

/** A straight scale: `scale(value)` is its place. */
export function scale([from, to]: readonly [number, number], [start, end]: readonly [number, number]): (value: number) => number {
  const per = to === from ? 0 : (end - start) / (to - from);
  return (value) => Math.round((start + (value - from) * per) * 10) / 10;
}

/** Every how many labels of so many letters one can be written along `room` pixels. */
export function everyNth(labels: readonly string[], room: number): number {
  const longest = Math.max(1, ...labels.map((label) => label.length)) * LETTER + 12;
  return Math.max(1, Math.ceil((labels.length * longest) / Math.max(1, room)));
}

/** The words as far as they fit into `room` pixels. */
export function cut(words: string, room: number): string {
  const letters = Math.max(4, Math.floor(room / LETTER));
  return words.length <= letters ? words : `${words.slice(0, letters - 1).trimEnd()}…`;
}

/** Moves places apart that are nearer than `gap`, keeping their order, and keeps them within the two ends where there is room. */
export function apart(places: readonly number[], gap: number, [start, end]: readonly [number, number]): number[] {
  const order = places.map((_, at) => at).sort((a, b) => places[a]! - places[b]!);
  const found = [...places];
  let last = start - gap;
  for (const at of order) {
    last = Math.max(found[at]!, last + gap);
    found[at] = last;
  }
  let next = end + gap;
  for (const at of order.toReversed()) {
    next = Math.min(found[at]!, next - gap);
    found[at] = next;
  }
  return found;
}
