// The claims that may still come: inspections whose claim window is open, by month of inspection, and when the windows close.
import { packOn, rowsOn, rowsWith, type RulePack } from '../shared/rulePack.ts';
import { claimReadings, claimWindow, isOpen, later, type ClaimReading, type ClaimWindow } from './claimWindow.ts';

/** Inspections of one state whose days are the same, as ISO days; `claimMonths`: the time to claim that their signed agreement sets. */
export type WindowDays = {
  jurisdiction: string;
  inspectedOn: string;
  completedOn: string | null;
  deliveredOn: string | null;
  claimMonths: number | null;
};
/** Rows may be below 0, to take back others. `signed`: with an agreement signed by all who must; `capped`: with a limit in it, the sum of which is `capCents`. */
export type WindowSum = WindowDays & { jobs: number; signed: number; capped: number; capCents: number };

export type Law = {
  readings: readonly ClaimReading[];
  /** The state bars limits of liability, so that what the agreement says may not hold. */
  capBarred: boolean;
};

/** Looks the law of a job up, each state and day once. */
export function lawOf(packs: readonly RulePack[]): (of: WindowDays) => Law {
  const known = new Map<string, Law>();
  return (of) => {
    const key = `${of.jurisdiction} ${of.inspectedOn} ${of.claimMonths ?? ''}`;
    const before = known.get(key);
    if (before) return before;
    const rows = rowsOn(packOn(packs, of.jurisdiction, of.inspectedOn)?.rows ?? [], of.inspectedOn);
    const agreed: ClaimReading[] =
      of.claimMonths === null || rowsWith(rows, 'shorter_time_barred').length > 0
        ? []
        : [{ years: 0, months: of.claimMonths, from: 'inspected', source: `the agreement: ${of.claimMonths} months` }];
    const law = { readings: [...claimReadings(rows, of.inspectedOn), ...agreed], capBarred: rowsWith(rows, 'cap_barred').length > 0 };
    known.set(key, law);
    return law;
  };
}

/** The window of a job under its law; null where no rule was read for its state. */
export const windowOf = (law: Law, days: WindowDays): ClaimWindow | null => claimWindow(law.readings, { ...days, discoveredOn: null });

export const READINGS = ['short', 'long'] as const;
/** The reading that ends first, and the one that ends last. */
export type Reading = (typeof READINGS)[number];
export const endOf = ({ shortUntil, longUntil }: ClaimWindow, reading: Reading): string => (reading === 'short' ? shortUntil : longUntil);

/** Inspections as they were by the end of a day: later ones are left out, and what was completed or handed over later was not yet. */
export const byDay = (rows: readonly WindowSum[], day: string): WindowSum[] =>
  rows
    .filter(({ inspectedOn }) => inspectedOn <= day)
    .map((row) => ({ ...row, completedOn: until(row.completedOn, day), deliveredOn: until(row.deliveredOn, day) }));
const until = (of: string | null, day: string): string | null => (of !== null && of <= day ? of : null);

type Count = { jobs: number; capCents: number };
export type ExposureMonth = {
  /** Of inspection, YYYY-MM. */
  month: string;
  /** Open by the longest reading; `shortJobs` of them by the shortest too. */
  jobs: number;
  shortJobs: number;
  capCents: number;
  /** Signed, without a limit in the agreement. */
  noCap: number;
  unsigned: number;
  /** With a limit that the state bars. */
  capBarred: number;
};
export type Exposure = {
  months: ExposureMonth[];
  total: Omit<ExposureMonth, 'month'>;
  /** The next twelve months and what closes in each. */
  closing: { month: string; short: Count; long: Count }[];
  /** Last day on which any of these windows is open by each reading; null where none is. */
  last: Record<Reading, string | null>;
  /** Inspections in states without a rule about claims: nobody can say when theirs close. */
  withoutRule: number;
  /** Inspections on a day that is still to come. */
  future: number;
  sources: string[];
};

const NONE = { jobs: 0, shortJobs: 0, capCents: 0, noCap: 0, unsigned: 0, capBarred: 0 };
const MONTHS_AHEAD = 12;

/** Newest month first. A window that ends today is still open. */
export function exposureOf(rows: readonly WindowSum[], packs: readonly RulePack[], today: string): Exposure {
  const law = lawOf(packs);
  const months = new Map<string, ExposureMonth>();
  const ahead = Array.from({ length: MONTHS_AHEAD }, (_, at) => later(`${today.slice(0, 7)}-01`, at).slice(0, 7));
  const closing = new Map(ahead.map((month) => [month, { month, short: { jobs: 0, capCents: 0 }, long: { jobs: 0, capCents: 0 } }]));
  const sources = new Set<string>();
  const ends = { short: new Map<string, number>(), long: new Map<string, number>() };
  let [withoutRule, future] = [0, 0];
  for (const row of rows) {
    if (row.inspectedOn > today) future += row.jobs;
    const its = law(row);
    const window = windowOf(its, row);
    if (!window) {
      withoutRule += row.jobs;
      continue;
    }
    if (!isOpen(window.longUntil, today)) continue;
    for (const { source } of its.readings) sources.add(source);
    const month = row.inspectedOn.slice(0, 7);
    months.set(month, add(months.get(month) ?? { month, ...NONE }, row, its, isOpen(window.shortUntil, today)));
    for (const reading of READINGS) {
      const end = endOf(window, reading);
      if (isOpen(end, today)) ends[reading].set(end, (ends[reading].get(end) ?? 0) + row.jobs);
      const count = isOpen(end, today) ? closing.get(end.slice(0, 7))?.[reading] : undefined;
      if (!count) continue;
      count.jobs += row.jobs;
      count.capCents += row.capCents;
    }
  }
  const inOrder = [...months.values()].filter(({ jobs }) => jobs !== 0).toSorted((a, b) => b.month.localeCompare(a.month));
  const last = { short: lastOf(ends.short), long: lastOf(ends.long) };
  return { months: inOrder, total: totalOf(inOrder), closing: [...closing.values()], last, withoutRule, future, sources: [...sources] };
}

/** Rows below 0 may have taken back all that ends on a day. */
const lastOf = (ends: ReadonlyMap<string, number>): string | null =>
  [...ends].reduce<string | null>((last, [day, jobs]) => (jobs > 0 && (last === null || day > last) ? day : last), null);

const add = (to: ExposureMonth, row: WindowSum, law: Law, short: boolean): ExposureMonth => ({
  month: to.month,
  jobs: to.jobs + row.jobs,
  shortJobs: to.shortJobs + (short ? row.jobs : 0),
  capCents: to.capCents + row.capCents,
  noCap: to.noCap + row.signed - row.capped,
  unsigned: to.unsigned + row.jobs - row.signed,
  capBarred: to.capBarred + (law.capBarred ? row.capped : 0),
});

const totalOf = (months: readonly ExposureMonth[]): Omit<ExposureMonth, 'month'> => {
  const sum = (of: (month: ExposureMonth) => number): number => months.reduce((total, month) => total + of(month), 0);
  return {
    jobs: sum(({ jobs }) => jobs),
    shortJobs: sum(({ shortJobs }) => shortJobs),
    capCents: sum(({ capCents }) => capCents),
    noCap: sum(({ noCap }) => noCap),
    unsigned: sum(({ unsigned }) => unsigned),
    capBarred: sum(({ capBarred }) => capBarred),
  };
};
