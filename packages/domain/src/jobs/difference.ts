// How a quote differs from what was told before: lines added, gone and changed.
import type { FeeLine } from '../fees/schedule.ts';

type Line = Pick<FeeLine, 'rule' | 'label' | 'reason' | 'cents'>;
export type LineChange = { rule: string; label: string; reason: string; beforeCents: number | null; afterCents: number | null };

/** Lines whose amount or reason differs, in the order of the new quote, then those that are gone. */
export function feeDifference(before: readonly Line[], after: readonly Line[]): LineChange[] {
  const changed = after.flatMap((line): LineChange[] => {
    const old = before.find(({ rule }) => rule === line.rule);
    return old && old.cents === line.cents && old.reason === line.reason
      ? []
      : [{ rule: line.rule, label: line.label, reason: line.reason, beforeCents: old?.cents ?? null, afterCents: line.cents }];
  });
  const gone = before.filter(({ rule }) => !after.some((line) => line.rule === rule));
  return [
    ...changed,
    ...gone.map((line) => ({ rule: line.rule, label: line.label, reason: line.reason, beforeCents: line.cents, afterCents: null })),
  ];
}
