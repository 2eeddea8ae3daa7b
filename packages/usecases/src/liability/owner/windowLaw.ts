// How far back windows can still be open, and the rules that say so, in words.
import { later } from '@backsight/domain/liability/claimWindow';
import { CERTAINTIES, packOn, rowsOn, rowsWith, type RulePack } from '@backsight/domain/shared/rulePack';

/** First day on which the last of an inspection's days may lie for its window to be open: the longest time of any rule, and the day itself. */
export function oldestThatCounts(packs: readonly RulePack[], today: string): string {
  const years = packs.flatMap(({ rows }) => rowsWith(rows, 'claim_time').map(({ effect }) => effect.years));
  return years.length === 0 ? '0001-01-01' : later(today, -12 * Math.max(...years, 1));
}

/** The rules about claims and limits of some states, as of a day. */
export const readingsOf = (packs: readonly RulePack[], states: readonly string[], day: string) =>
  [...new Set(states)].toSorted().flatMap((state) => {
    const pack = packOn(packs, state, day);
    return rowsOn(pack?.rows ?? [], day)
      .filter(({ topic, effect }) => topic === 'claim' || effect?.kind === 'cap_barred' || effect?.kind === 'cap_floor')
      .map(({ words, citation, certainty }) => ({
        state: pack?.name || state,
        words,
        source: citation,
        certainty: CERTAINTIES[certainty],
      }));
  });
