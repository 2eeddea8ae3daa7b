// Chance for benches, equal on every machine.
export type Random = { unit: () => number; int: (below: number) => number; chance: (share: number) => boolean };

/** Small generator with 32 bits of state (mulberry32). */
export function randomOf(seed: number): Random {
  let state = seed >>> 0;
  const unit = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let z = Math.imul(state ^ (state >>> 15), state | 1);
    z ^= z + Math.imul(z ^ (z >>> 7), z | 61);
    return ((z ^ (z >>> 14)) >>> 0) / 4_294_967_296;
  };
  return { unit, int: (below) => Math.floor(unit() * below), chance: (share) => unit() < share };
}
