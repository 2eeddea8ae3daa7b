// Rates of groups beside the rest: exact intervals, drawn to what all have in common, and held against chance all at once.
import { groupSentence, inOrder, signalOf, signalSentence, type ComparedBy } from '@backsight/domain/liability/frequency/groups';
import { garwoodInterval } from '@backsight/statistics/rates';
import { benjaminiHochberg } from '@backsight/statistics/multiplicity';
import { rateRatioTest } from '@backsight/statistics/rateRatio';
import { gammaPoissonShrinkage } from '@backsight/statistics/shrinkage';

/** `exposure`: jobs, or times that the step applied. `rest`: what the group is held against; null where there is nothing. */
export type Group = {
  value: string;
  name: string;
  count: number;
  exposure: number;
  incurredCents: number;
  rest: { count: number; exposure: number } | null;
};

export type GroupRow = Omit<Group, 'rest'> & {
  /** Per unit of exposure; null where there is no exposure. */
  rate: number | null;
  lower: number | null;
  upper: number | null;
  /** The rate drawn towards what all groups have in common by as much as chance may explain. */
  shrunk: number | null;
  others: number | null;
  /** Rate over that of the others; null where those had nothing. */
  ratio: number | null;
  p: number | null;
  /** p corrected for everything compared at once (Benjamini and Hochberg). */
  adjusted: number | null;
  signal: 'more' | 'fewer' | null;
  sentence: string;
};
export type GroupTable = { by: ComparedBy; shrinkage: string; rows: GroupRow[] };

type Half = Omit<GroupRow, 'adjusted' | 'signal' | 'sentence'>;

/** All groupings together, since their comparisons stand on one page. */
export function groupTables(all: readonly { by: ComparedBy; groups: readonly Group[] }[]): { comparisons: number; tables: GroupTable[] } {
  const halves = all.map(({ by, groups }) => ({ by, ...halfOf(inOrder(by, groups)) }));
  const tested = halves.flatMap(({ rows }) => rows.flatMap(({ p }) => (p === null ? [] : [p])));
  const adjusted = benjaminiHochberg(tested)[Symbol.iterator]();
  return {
    comparisons: tested.length,
    tables: halves.map(({ by, shrinkage, rows }) => ({
      by,
      shrinkage,
      rows: rows.map((row) => wholeOf(by, row, row.p === null ? null : adjusted.next().value!)),
    })),
  };
}

/** What differs by more than chance explains, each in a sentence that begins with how sure it is. */
export const signalsOf = (tables: readonly GroupTable[]): { by: ComparedBy; value: string; sentence: string }[] =>
  tables.flatMap(({ by, rows }) =>
    rows.flatMap(({ value, name, rate, lower, upper, others, adjusted, signal }) =>
      signal === null || rate === null || lower === null || upper === null || others === null || adjusted === null
        ? []
        : [{ by, value, sentence: signalSentence(by, { name, rate, lower, upper, others, adjusted }) }],
    ),
  );

function wholeOf(by: ComparedBy, row: Half, adjusted: number | null): GroupRow {
  if (row.rate === null)
    return { ...row, adjusted: null, signal: null, sentence: `${row.name}: cannot be estimated because nothing of it was inspected.` };
  const told = { ...row, rate: row.rate, lower: row.lower!, upper: row.upper!, adjusted };
  return { ...row, adjusted, signal: signalOf(told), sentence: groupSentence(by, told) };
}

function halfOf(groups: readonly Group[]): { shrinkage: string; rows: Half[] } {
  const units = groups.filter(({ exposure }) => exposure > 0);
  const found = gammaPoissonShrinkage(units.map(({ value, count, exposure }) => ({ name: value, observed: count, expected: exposure })));
  const common = sum(units, ({ count }) => count) / sum(units, ({ exposure }) => exposure);
  const shrunk = (value: string): number | null => {
    if (found.ok) return found.units.find(({ name }) => name === value)?.shrunk ?? null;
    return found.code === 'too_few' ? null : common;
  };
  return {
    shrinkage: found.ok
      ? 'Drawn towards what all have in common by as much as chance may explain (empirical Bayes).'
      : found.code === 'no_extra_scatter'
        ? 'They scatter no more than chance alone would make them: what all have together is the best estimate of each.'
        : found.sentence,
    rows: groups.map(({ rest, ...group }) => ({
      ...group,
      ...ratesOf(group, rest),
      shrunk: group.exposure > 0 ? shrunk(group.value) : null,
    })),
  };
}

function ratesOf({ count, exposure }: Omit<Group, 'rest'>, rest: Group['rest']) {
  const nothing = { rate: null, lower: null, upper: null, others: null, ratio: null, p: null };
  if (exposure <= 0) return nothing;
  const own = { rate: count / exposure, ...garwoodInterval({ count, exposure }) };
  if (!rest || rest.exposure <= 0) return { ...nothing, ...own };
  const test = rateRatioTest({ count, exposure }, rest);
  return { ...own, others: rest.count / rest.exposure, ratio: test.ratio, p: test.pMinimumLikelihood };
}

const sum = <T>(rows: readonly T[], of: (row: T) => number): number => rows.reduce((total, row) => total + of(row), 0);
