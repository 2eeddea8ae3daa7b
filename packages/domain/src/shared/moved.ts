// What changed its place among the things that two ordered lists share.
import { longestCommon } from './longestCommon.ts';

/** Keys that changed their place among those that both lists have: as few as explain the new order. */
export function movedKeys(before: readonly { key: string }[], after: readonly { key: string }[]): ReadonlySet<string> {
  const [old, fresh] = [new Set(before.map(({ key }) => key)), new Set(after.map(({ key }) => key))];
  const [kept, now] = [
    before.map(({ key }) => key).filter((key) => fresh.has(key)),
    after.map(({ key }) => key).filter((key) => old.has(key)),
  ];
  const stayed = new Set(longestCommon(kept, now).map(([at]) => kept[at]));
  return new Set(kept.filter((key) => !stayed.has(key)));
}
