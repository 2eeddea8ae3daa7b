// The ways to time a sequence of visits, and which of them can be left out because another is as good for everybody.

/** A way to time a sequence: its first start, its end, what each member pays for moved starts, and the starts. */
export type Timing = { begins: number; ends: number; soft: number; starts: number[] };

/**
 * Whether `a` is at least as good as `b` however the sequence goes on and whoever goes: not earlier away, not later back, no
 * dearer changes. `spare` is what a minute less on the road saves at least: waiting, less the fairness of a shorter day.
 */
export function beats(a: Timing, b: Timing, spare: number): boolean {
  return a.begins >= b.begins && a.ends <= b.ends && a.soft <= b.soft + spare * (a.begins - b.begins);
}

/** Adds a timing unless another beats it, and drops those that it beats. */
export function keepBest(list: Timing[], one: Timing, spare: number): void {
  if (list.some((other) => beats(other, one, spare))) return;
  for (let at = list.length - 1; at >= 0; at--) if (beats(one, list[at]!, spare)) list.splice(at, 1);
  list.push(one);
}
