// Agreement of two who looked independently, corrected for what chance alone would bring.
import { normalQuantile } from './distributions.ts';
import { requireProbability, type ConfidenceInterval } from './interval.ts';

/** `table[i][j]`: how often the first answered i and the second j; square, whole numbers, not all zero. */
export type AgreementTable = readonly (readonly number[])[];
export type Kappa = {
  /** 1 = always the same, 0 = as chance would have it. Null where chance alone agrees always: only one answer was ever given. */
  kappa: number | null;
  observed: number;
  byChance: number;
  /** Standard error for an interval, not for a test of 0. */
  standardError: number | null;
  total: number;
};

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

/**
 * Cohen, "A coefficient of agreement for nominal scales", Educ. Psychol. Meas. 20 (1960) 37-46; its standard error by Fleiss, Cohen & Everitt,
 * "Large sample standard errors of kappa and weighted kappa", Psychol. Bull. 72 (1969) 323-327.
 * @throws RangeError when the table is not square, holds something else than counts, or is empty
 */
export function cohenKappa(table: AgreementTable): Kappa {
  const total = check(table);
  const p = table.map((row) => row.map((count) => count / total));
  const rows = p.map(sum);
  const columns = p.map((_, j) => sum(p.map((row) => row[j]!)));
  const observed = sum(p.map((row, i) => row[i]!));
  const byChance = sum(rows.map((row, i) => row * columns[i]!));
  if (byChance >= 1) return { kappa: null, observed, byChance, standardError: null, total };
  const kappa = (observed - byChance) / (1 - byChance);
  const diagonal = sum(p.map((row, i) => row[i]! * (1 - (rows[i]! + columns[i]!) * (1 - kappa)) ** 2));
  const off = sum(p.flatMap((row, i) => row.map((cell, j) => (i === j ? 0 : cell * (columns[i]! + rows[j]!) ** 2))));
  const spread = diagonal + (1 - kappa) ** 2 * off - (kappa - byChance * (1 - kappa)) ** 2;
  return { kappa, observed, byChance, total, standardError: Math.sqrt(Math.max(spread, 0) / total) / (1 - byChance) };
}

/** Interval by the normal approximation, cut off at 1 and -1; null where there is no kappa. */
export function kappaInterval({ kappa, standardError }: Kappa, confidence = 0.95): ConfidenceInterval | null {
  requireProbability('confidence', confidence);
  if (kappa === null || standardError === null) return null;
  const half = normalQuantile(1 - (1 - confidence) / 2) * standardError;
  return { lower: Math.max(kappa - half, -1), upper: Math.min(kappa + half, 1) };
}

/**
 * One kappa over several questions, each with answers of its own: the agreements, observed and by chance, are averaged by how often each
 * question was asked. De Vries, Elliott, Kanouse & Teleki, "Using pooled kappa to summarize interrater agreement across many items",
 * Field Methods 20 (2008) 272-282. Null without any table, or where chance alone agrees always.
 */
export function pooledKappa(tables: readonly AgreementTable[]): { kappa: number | null; observed: number; total: number } | null {
  const each = tables.map(cohenKappa);
  const total = sum(each.map((one) => one.total));
  if (total === 0) return null;
  const observed = sum(each.map((one) => one.observed * one.total)) / total;
  const byChance = sum(each.map((one) => one.byChance * one.total)) / total;
  return { kappa: byChance >= 1 ? null : (observed - byChance) / (1 - byChance), observed, total };
}

function check(table: AgreementTable): number {
  const square = table.length > 0 && table.every((row) => row.length === table.length);
  if (!square) throw new RangeError('a table of agreement is square');
  if (table.some((row) => row.some((count) => !Number.isInteger(count) || count < 0)))
    throw new RangeError('counts are whole numbers from 0 on');
  const total = sum(table.map(sum));
  if (total === 0) throw new RangeError('a table of agreement is not empty');
  return total;
}
