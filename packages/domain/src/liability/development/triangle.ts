// From figures by month to a development triangle: what was known of the inspections of each period as they ripened.
import { lastDayOf, nameOf, periodOf, SHOWN, standing, type Grain } from './periods.ts';

/** A sum by month of inspection (`origin`) and month in which it became known: a count, or cents. */
export type FigureRow = { measure: string; origin: string; known: string; amount: number };

/** What a triangle counts. */
export const MEASURED = ['callbacks', 'incurred', 'paid'] as const;
export type Measured = (typeof MEASURED)[number];

/** Figures that a triangle adds up, with their signs. Paid is less what came back, so that it ends where incurred ends. */
const PARTS: Record<Measured, Record<string, number>> = {
  callbacks: { callbacks: 1 },
  incurred: { paid: 1, reserved: 1, recovered: -1 },
  paid: { paid: 1, recovered: -1 },
};

export type Origin = {
  name: string;
  /** Inspections that took place. */
  jobs: number;
  callbacks: number;
  /** Cumulative amounts by age, the last as of the day asked for; the first at the end of the period of inspection itself. */
  cells: number[];
  /** How many of the cells stand at the end of a period; the last does not while its period runs. */
  whole: number;
  /** Periods since the first day of the period of inspection, with the share of the running one. */
  age: number;
  latest: number;
};

export type Development = {
  grain: Grain;
  of: Measured;
  /** ISO day. */
  asOf: string;
  /** Last day of the last period that is over, from which factors are taken. */
  wholeUntil: string;
  /** Oldest first, without gaps; the last is the period that holds the day. Empty where nothing was ever inspected. */
  origins: Origin[];
  /** Periods too old to be shown one by one. */
  folded: { name: string; periods: number; jobs: number; callbacks: number; latest: number } | null;
  /** Amount about jobs that were not inspected by then, in no period. */
  notInspected: number;
};

type Asked = { grain: Grain; of: Measured; asOf: string };
type Sums = { jobs: number; callbacks: number; known: Map<number, number> };

/** Adds up figures by period. Figures that became known after the month of `asOf` are left out. */
export function development(rows: readonly FigureRow[], { grain, of, asOf }: Asked): Development {
  const { period: now, gone } = standing(asOf, grain);
  const known = rows.filter((row) => row.known <= asOf.slice(0, 7));
  const inspected = known.filter((row) => periodOf(row.origin, grain) <= now);
  const sums = sumByPeriod(inspected, grain, of);
  const first = sums.size === 0 ? now + 1 : Math.min(...sums.keys());
  const shownFrom = Math.max(first, now + 1 - SHOWN[grain]);
  const older = [...sums].filter(([period]) => period < shownFrom).map(([, each]) => each);
  return {
    grain,
    of,
    asOf,
    wholeUntil: gone === 1 ? asOf : lastDayOf(now - 1, grain),
    origins: Array.from({ length: now + 1 - shownFrom }, (_, at) => originOf(shownFrom + at, sums.get(shownFrom + at), now, gone, grain)),
    folded:
      older.length === 0
        ? null
        : {
            name: `before ${nameOf(shownFrom, grain)}`,
            periods: shownFrom - first,
            jobs: total(older, (each) => each.jobs),
            callbacks: total(older, (each) => each.callbacks),
            latest: total(older, (each) => total([...each.known.values()], (amount) => amount)),
          },
    notInspected: total(known, (row) => (periodOf(row.origin, grain) > now ? (PARTS[of][row.measure] ?? 0) * row.amount : 0)),
  };
}

function sumByPeriod(rows: readonly FigureRow[], grain: Grain, of: Measured): Map<number, Sums> {
  const sums = new Map<number, Sums>();
  for (const { measure, origin, known, amount } of rows) {
    const period = periodOf(origin, grain);
    const mine = sums.get(period) ?? { jobs: 0, callbacks: 0, known: new Map<number, number>() };
    sums.set(period, mine);
    if (measure === 'jobs') mine.jobs += amount;
    if (measure === 'callbacks') mine.callbacks += amount;
    const sign = PARTS[of][measure];
    // What was told before the day of inspection belongs to its first cell.
    const column = Math.max(0, periodOf(known, grain) - period);
    if (sign) mine.known.set(column, (mine.known.get(column) ?? 0) + sign * amount);
  }
  return sums;
}

function originOf(period: number, sums: Sums | undefined, now: number, gone: number, grain: Grain): Origin {
  let sum = 0;
  const cells = Array.from({ length: now - period + 1 }, (_, column) => (sum += sums?.known.get(column) ?? 0));
  return {
    name: nameOf(period, grain),
    jobs: sums?.jobs ?? 0,
    callbacks: sums?.callbacks ?? 0,
    cells,
    whole: gone === 1 ? cells.length : cells.length - 1,
    age: cells.length - 1 + gone,
    latest: sum,
  };
}

const total = <T>(rows: readonly T[], of: (row: T) => number): number => rows.reduce((sum, row) => sum + of(row), 0);
