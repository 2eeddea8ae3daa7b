// The months that are asked for, how ripe each is, and which of them comparisons may count.
import {
  ALL_BUT,
  monthFigures,
  monthName,
  shiftMonth,
  UNTOLD_MONTHS,
  type MonthFigures,
} from '@backsight/domain/liability/frequency/months';
import { periodOf } from '@backsight/domain/liability/development/periods';
import { development } from '@backsight/domain/liability/development/triangle';
import { findFirm } from '@backsight/store/firm';
import { figures, type Figure } from '@backsight/store/liability/figures';
import type { Span } from '@backsight/store/liability/spans';
import type { Reader } from '@backsight/store/database';
import { dayAt } from '../../callbacks/steps/day.ts';
import { patternOf, shareAt } from '../development/pattern.ts';

/** YYYY-MM; without them the last three years until now. */
export type SpanAsked = { from?: string | undefined; until?: string | undefined; now: Date };

export type ReadSpan = Span & {
  months: MonthFigures[];
  /** What is still coming in, in a sentence; '' when nothing is. */
  young: string;
  /** Months that comparisons count, and why these; null: nothing was inspected in the span. */
  compared: (Span & { jobs: number; callbacks: number; sentence: string }) | null;
};

const USUAL_MONTHS = 36;
/** Callbacks below which nothing is said of how they come in. */
const ENOUGH_TO_TELL = 20;

export async function readSpan(reader: Reader, { from, until, now }: SpanAsked): Promise<ReadSpan> {
  const today = dayAt(now, (await findFirm(reader))?.zone ?? 'UTC');
  const month = today.slice(0, 7);
  const end = until === undefined || until > month ? month : until;
  const start = from ?? shiftMonth(end, 1 - USUAL_MONTHS);
  // A year earlier stands beside each month; how callbacks come in is taken from the last three years.
  const since = [shiftMonth(start, -12), shiftMonth(month, -USUAL_MONTHS)].reduce((a, b) => (a < b ? a : b));
  const rows = await figures(reader, {
    grouping: 'all',
    measures: ['jobs', 'callbacks', 'paid', 'reserved', 'recovered'],
    fromMonth: since,
  });
  const ripening = ripeningOf(rows, today);
  const all = monthFigures(rows, { from: start, until: end, now: month }, ripening.share);
  const months =
    from === undefined
      ? all.slice(
          Math.max(
            0,
            all.findIndex(({ jobs, callbacks }) => jobs + callbacks > 0),
          ),
        )
      : all;
  return { from: months[0]?.month ?? start, until: end, months, young: youngWords(months, ripening.why), compared: comparedOf(months) };
}

/** How much of the callbacks of a month is usually known by now, by development; null where that cannot be told. */
function ripeningOf(rows: readonly Figure[], today: string): { share: (month: string) => number | null; why: string } {
  const grown = development(rows, { grain: 'month', of: 'callbacks', asOf: today });
  const counted = grown.origins.reduce((sum, { callbacks }) => sum + callbacks, 0);
  const pattern = patternOf(grown);
  if (!pattern.ok) return { share: () => null, why: pattern.sentence };
  if (counted < ENOUGH_TO_TELL)
    return { share: () => null, why: `Cannot be estimated because only ${counted} callbacks are known in three years.` };
  const last = periodOf(today, 'month');
  return {
    why: '',
    share: (month) => {
      const origin = grown.origins.at(-1 - (last - periodOf(month, 'month')));
      return last < periodOf(month, 'month') ? null : origin ? Math.min(1, shareAt(pattern.shares, origin.age)) : 1;
    },
  };
}

const percent = (share: number): string => `${Math.round(share * 100)} %`;

function youngWords(months: readonly MonthFigures[], why: string): string {
  const young = months.filter(({ state, jobs }) => state !== 'settled' && jobs > 0);
  const [first] = young;
  if (!first) return '';
  const consequence = 'They are left out of center, limits and comparisons, and a low figure of theirs is never called better.';
  if (why !== '')
    return `Months are held to be still coming in for ${UNTOLD_MONTHS} months, here from ${monthName(first.month)} on, because how soon callbacks come in is not known yet. ${why} ${consequence}`;
  return `Still coming in from ${monthName(first.month)} on: of that month ${percent(first.share ?? 0)} of the callbacks are usually known by now, of ${monthName(young.at(-1)!.month)} ${percent(young.at(-1)!.share ?? 0)} (a month counts as all there from ${percent(ALL_BUT)} on). ${consequence}`;
}

function comparedOf(months: readonly MonthFigures[]): ReadSpan['compared'] {
  const settled = months.filter(({ state }) => state === 'settled');
  const enough = settled.some(({ jobs }) => jobs > 0);
  const used = enough ? settled : months;
  const jobs = used.reduce((sum, month) => sum + month.jobs, 0);
  const [first, last] = [used[0], used.at(-1)];
  if (!first || !last || jobs === 0) return null;
  const callbacks = used.reduce((sum, month) => sum + month.callbacks, 0);
  const counts = `${jobs.toLocaleString('en-US')} ${jobs === 1 ? 'job' : 'jobs'} with ${callbacks.toLocaleString('en-US')} ${callbacks === 1 ? 'callback' : 'callbacks'}, inspected ${monthName(first.month)} to ${monthName(last.month)}`;
  return {
    from: first.month,
    until: last.month,
    jobs,
    callbacks,
    sentence: enough
      ? `Compared are ${counts}.`
      : `Compared are ${counts}. All of these months are still coming in: rates will rise, and a group with many recent jobs looks better than it is.`,
  };
}
