// Chance that falls the same way every time, and ids that sort by the instant they were made at.

export type Chance = {
  /** Between 0 and 1. */
  next: () => number;
  /** Whole number from `from` to `to`, both included. */
  between: (from: number, to: number) => number;
  pick: <T>(list: readonly T[]) => T;
  /** True in `share` of all cases. */
  odds: (share: number) => boolean;
  /** Another one that falls the same way from here on. */
  copy: () => Chance;
};

/** The generator "mulberry32": 32 bits of state, good enough to make up houses. */
export function chanceOf(seed: number): Chance {
  let state = seed >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
  const between = (from: number, to: number): number => from + Math.floor(next() * (to - from + 1));
  return {
    next,
    between,
    pick: (list) => list[between(0, list.length - 1)]!,
    odds: (share) => next() < share,
    copy: () => chanceOf(state),
  };
}

const hex = (value: number, digits: number): string => value.toString(16).padStart(digits, '0');

/** Makes ids in the form of UUID version 7 (RFC 9562): by instant, then in the order of making. */
export function idMaker(seed: number): (at: Date) => string {
  const chance = chanceOf(seed);
  let last = 0;
  let counter = 0;
  return (at) => {
    counter = at.getTime() === last ? counter + 1 : 0;
    last = at.getTime();
    const time = hex(last, 12);
    const tail = hex(chance.between(0, 0xffffff), 6) + hex(chance.between(0, 0xffffff), 6);
    return `${time.slice(0, 8)}-${time.slice(8)}-7${hex(counter % 4096, 3)}-${hex(0x8000 + Math.floor(counter / 4096), 4)}-${tail}`;
  };
}
