// Which method an origin period gets, and why, in a sentence that an owner can check.
import type { Grain } from './periods.ts';

export const METHODS = ['chain_ladder', 'bornhuetter_ferguson', 'cape_cod'] as const;
export type Method = (typeof METHODS)[number];
export const METHOD_NAMES: Record<Method, string> = {
  chain_ladder: 'chain ladder',
  bornhuetter_ferguson: 'Bornhuetter-Ferguson',
  cape_cod: 'Cape Cod',
};

/** Share of the end that is usually known by then, from which on nothing is left to multiply. */
const NEARLY_ALL = 0.95;
/** Below it less is known than is still to come: what is known says little of the rest. */
/** Above this, more is known than such periods end with. */
const ABOUT_ALL = 1.05;
const HALF = 0.5;
/** Fewer callbacks than these are a handful, which chance alone doubles or halves. */
export const HANDFUL = 5;

export type Standing = {
  /** Share of the end usually known at this age; above 1 where totals fall. */
  shareKnown: number;
  callbacks: number;
  latest: number;
  /** The period of inspection still runs. */
  running: boolean;
};

/** The method that fits one origin. `expected`: somebody said beforehand what to expect. */
export function choose(of: Standing, grain: Grain, expected: boolean): { method: Method; why: string } {
  const young: Method = expected ? 'bornhuetter_ferguson' : 'cape_cod';
  if (of.shareKnown > ABOUT_ALL) return { method: 'chain_ladder', why: 'totals of this age usually fall' };
  if (of.shareKnown >= NEARLY_ALL) return { method: 'chain_ladder', why: 'nearly all is known' };
  if (of.running) return { method: young, why: `the ${grain} still runs` };
  if (of.shareKnown < HALF) return { method: young, why: `less than half is usually known (${percent(of.shareKnown)})` };
  if (of.callbacks < HANDFUL)
    return {
      method: young,
      why: `${of.callbacks === 0 ? 'no callback is' : of.callbacks === 1 ? 'one callback is' : `${of.callbacks} callbacks are`} known: too few to multiply`,
    };
  if (of.latest <= 0) return { method: young, why: 'there is nothing yet that could be multiplied' };
  return { method: 'chain_ladder', why: `${of.callbacks} callbacks, usually ${percent(of.shareKnown)} of all` };
}

const percent = (share: number): string => `${Math.round(share * 100)} %`;
