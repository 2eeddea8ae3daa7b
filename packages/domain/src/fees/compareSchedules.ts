// Two fee schedules side by side: what was added, removed and changed, in plain words; and what each brings over the same jobs.
import { quoteFee } from './quote.ts';
import type { FeeContext } from './charges.ts';
import { ruleInWords } from './ruleWords.ts';
import type { FeeKind, FeeRule, FeeSchedule } from './schedule.ts';

type Names = Readonly<Record<string, string>>;

/** One rule that differs; a changed one has both. Order alone is no difference in words, but is told by `moved`. */
export type RuleDifference = {
  key: string;
  what: 'added' | 'removed' | 'changed' | 'moved';
  label: string;
  before: string | null;
  after: string | null;
};

const words = (rule: FeeRule, names: Names): string => `${rule.label}: ${ruleInWords(rule, names)}`;
const place = (rules: readonly FeeRule[], shared: ReadonlySet<string>, key: string): number =>
  rules.filter((rule) => shared.has(rule.key)).findIndex((rule) => rule.key === key);

/** Rules are the same by their key. */
export function compareSchedules(before: FeeSchedule, after: FeeSchedule, names: Names): RuleDifference[] {
  const old = new Map(before.rules.map((rule) => [rule.key, rule]));
  const kept = new Set(after.rules.filter(({ key }) => old.has(key)).map(({ key }) => key));
  const differences = after.rules.flatMap((rule): RuleDifference[] => {
    const was = old.get(rule.key);
    const now = words(rule, names);
    if (!was) return [{ key: rule.key, what: 'added', label: rule.label, before: null, after: now }];
    if (words(was, names) !== now || JSON.stringify(was) !== JSON.stringify(rule))
      return [{ key: rule.key, what: 'changed', label: rule.label, before: words(was, names), after: now }];
    const moved = place(before.rules, kept, rule.key) !== place(after.rules, kept, rule.key);
    return moved ? [{ key: rule.key, what: 'moved', label: rule.label, before: words(was, names), after: now }] : [];
  });
  const gone = before.rules.filter(({ key }) => !kept.has(key));
  return [
    ...differences,
    ...gone.map((rule): RuleDifference => ({ key: rule.key, what: 'removed', label: rule.label, before: words(rule, names), after: null })),
  ];
}

export type Sums = { key: string; label: string; kind: FeeKind['kind']; beforeCents: number; afterCents: number };
export type Revenue = { jobs: number; beforeCents: number; afterCents: number; higher: number; lower: number; lines: Sums[] };

/** What two schedules would have charged for the same jobs, in cents, summed for each rule; `higher` and `lower` count jobs. */
export function compareRevenue(before: FeeSchedule, after: FeeSchedule, jobs: readonly FeeContext[]): Revenue {
  const sums = new Map<string, Sums>();
  for (const rule of [...after.rules, ...before.rules])
    if (!sums.has(rule.key)) sums.set(rule.key, { key: rule.key, label: rule.label, kind: rule.kind, beforeCents: 0, afterCents: 0 });
  const revenue = { jobs: jobs.length, beforeCents: 0, afterCents: 0, higher: 0, lower: 0 };
  for (const job of jobs) {
    const [a, b] = [quoteFee(before, job), quoteFee(after, job)];
    for (const { rule, cents } of a.lines) sums.get(rule)!.beforeCents += cents;
    for (const { rule, cents } of b.lines) sums.get(rule)!.afterCents += cents;
    revenue.beforeCents += a.totalCents;
    revenue.afterCents += b.totalCents;
    revenue.higher += b.totalCents > a.totalCents ? 1 : 0;
    revenue.lower += b.totalCents < a.totalCents ? 1 : 0;
  }
  const lines = [...sums.values()].filter(({ beforeCents, afterCents }) => beforeCents !== 0 || afterCents !== 0);
  return { ...revenue, lines };
}
