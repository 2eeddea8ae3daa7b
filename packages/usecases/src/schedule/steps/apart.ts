// People who do not come back by themselves, or not at all: the search and the last check see it as a pairing rule, or as a bar.
import type { World } from '@backsight/scheduling/world';
import type { Demand } from './demand.ts';

/** The world in which no two of `demand.neverAlone` make up a pair, and nobody of `demand.keepAway` is sent. */
export function keepApart<W extends World>(
  world: W,
  { neverAlone = [], keepAway = [], involves }: Pick<Demand, 'neverAlone' | 'keepAway' | 'involves'>,
): W {
  const apart = neverAlone.flatMap((a, at) => neverAlone.slice(at + 1).map((b) => ({ kind: 'never_together' as const, a, b })));
  const people = world.people.map((person) =>
    keepAway.includes(person.id) ? { ...person, barredFrom: [...(person.barredFrom ?? []), ...involves] } : person,
  );
  return apart.length === 0 && keepAway.length === 0 ? world : { ...world, people, pairRules: [...world.pairRules, ...apart] };
}
