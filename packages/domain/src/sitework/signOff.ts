// Both sign off: each one's times on site, and that what the own hand wrote is as it was seen.
import type { KnownAct } from './act.ts';
import { inOrder } from './inOrder.ts';

export type SignOff = { person: string; from: string; until: string; order: string };

/** The newest sign-off of each person. */
export function signOffs(acts: readonly KnownAct[]): Map<string, SignOff> {
  const found = new Map<string, SignOff>();
  for (const { act, by, order } of inOrder(acts))
    if (act.do === 'signed_off') found.set(by, { person: by, from: act.from, until: act.until, order });
  return found;
}

/** Members who have not signed off, or wrote something afterwards and have to sign off again. */
export function unsigned(
  acts: readonly KnownAct[],
  pair: readonly string[],
  written: readonly { writtenBy: string; order: string }[],
): string[] {
  const signed = signOffs(acts);
  return pair.filter((person) => {
    const off = signed.get(person);
    return !off || written.some((entry) => entry.writtenBy === person && entry.order > off.order);
  });
}
