// A second blind look at a sample: about one system on one job in five, so that what two independent looks miss can be told on average.
import type { Step } from '../procedures/step.ts';

/** So many further steps at most are looked at twice: a visit has at most eight partner checks. */
export const MOST_DOUBLE = 3;

/**
 * Whether this visit is in the sample, and the number from 0 up to 1 that chooses its system; null where it is not. The same on every phone: it
 * comes from the random part of the visit's id, which nobody of the pair chooses. `oneIn` 0: no sample.
 */
export function doubleLookOf(visitId: string, oneIn: number): number | null {
  if (oneIn < 1) return null;
  const drawn = mixed(visitId) / 2 ** 32;
  return drawn * oneIn < 1 ? drawn * oneIn : null;
}

/** FNV-1a over the text with a last mixing (Fowler, Noll & Vo; the mixer of MurmurHash3): 32 bits, evenly spread. */
function mixed(text: string): number {
  let hash = 0x811c9dc5;
  for (let at = 0; at < text.length; at += 1) hash = Math.imul(hash ^ text.charCodeAt(at), 0x01000193);
  hash = Math.imul(hash ^ (hash >>> 16), 0x85ebca6b);
  hash = Math.imul(hash ^ (hash >>> 13), 0xc2b2ae35);
  return (hash ^ (hash >>> 16)) >>> 0;
}

/** A step can be looked at twice when more than one can get there, no order or power hangs on it, and its answers can be compared. */
const canBeDoubled = ({ who, onePersonOnly, sequence, evidence, style }: Step): boolean =>
  who === 'either' && onePersonOnly !== true && sequence === undefined && style === 'do_then_confirm' && evidence.kind === 'choice';

type Row = { step: Step; system: string; item: { id: string } | null };

/** The rows of the one system that this visit looks at twice. */
export function doubledRows<R extends Row>(rows: readonly R[], pick: number): R[] {
  const can = rows.filter(({ step, item }) => item === null && canBeDoubled(step));
  const systems = [...new Set(can.map(({ system }) => system))];
  const chosen = systems[Math.floor(pick * systems.length)];
  return can.filter(({ system }) => system === chosen).slice(0, MOST_DOUBLE);
}
