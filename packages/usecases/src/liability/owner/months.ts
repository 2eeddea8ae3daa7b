// Figures by month of inspection, each beside the same month a year earlier as it stood when it was as old.
import { incurred, type CallbackMoney } from '@backsight/domain/callbacks/money';
import { later } from '@backsight/domain/liability/claimWindow';

type Row = { measure: string; origin: string; known: string; amount: number };
type Sums = Record<'jobs' | 'callbacks' | 'paid' | 'reserved' | 'recovered', number>;
const NOTHING: Sums = { jobs: 0, callbacks: 0, paid: 0, reserved: 0, recovered: 0 };

export type MonthLine = {
  month: string;
  jobs: number;
  callbacks: number;
  earlier: { jobs: number; callbacks: number; incurredCents: number } | null;
} & CallbackMoney;

const moneyOf = ({ paid, reserved, recovered }: Sums): CallbackMoney => {
  const sums = { paidCents: paid, reservedCents: reserved, recoveredCents: recovered };
  return { ...sums, incurredCents: incurred(sums) };
};

/** Newest month first. The month before counts only what was known by the end of the month twelve months ago: both are as old. */
export function monthLines(rows: readonly Row[], today: string): MonthLine[] {
  const then = later(`${today.slice(0, 7)}-01`, -12).slice(0, 7);
  const [now, asThen] = [sumsByOrigin(rows), sumsByOrigin(rows.filter(({ known }) => known <= then))];
  const oldest = [...now.keys()].reduce((least, month) => (month < least ? month : least), '9999-12');
  return [...now]
    .map(([month, sums]): MonthLine => {
      const before = later(`${month}-01`, -12).slice(0, 7);
      const of = asThen.get(before) ?? NOTHING;
      return {
        month,
        jobs: sums.jobs,
        callbacks: sums.callbacks,
        ...moneyOf(sums),
        earlier: before < oldest ? null : { jobs: of.jobs, callbacks: of.callbacks, incurredCents: moneyOf(of).incurredCents },
      };
    })
    .toSorted((a, b) => b.month.localeCompare(a.month));
}

function sumsByOrigin(rows: readonly Row[]): Map<string, Sums> {
  const sums = new Map<string, Sums>();
  for (const { measure, origin, amount } of rows) {
    const mine = sums.get(origin) ?? { ...NOTHING };
    sums.set(origin, mine);
    if (measure in mine) mine[measure as keyof Sums] += amount;
  }
  return sums;
}
