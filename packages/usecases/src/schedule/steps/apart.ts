// People who were at the first visit of a job do not come back by themselves: the search and the last check see it as a pairing rule.
import type { World } from '@backsight/scheduling/world';
import type { Demand } from './demand.ts';

/** The world in which no two of `demand.neverAlone` make up a pair. */
export function keepApart<W extends World>(world: W, { neverAlone = [] }: Pick<Demand, 'neverAlone'>): W {
  const apart = neverAlone.flatMap((a, at) => neverAlone.slice(at + 1).map((b) => ({ kind: 'never_together' as const, a, b })));
  return apart.length === 0 ? world : { ...world, pairRules: [...world.pairRules, ...apart] };
}
