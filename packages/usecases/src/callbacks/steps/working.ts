// The measure that speaks within weeks: how many records hold evidence that meets the step, before and after its change.
import { DateTime } from 'luxon';
import { shareDifference, wilsonInterval } from '@backsight/statistics/proportions';
import { fisherExact, mantelHaenszel, type Table } from '@backsight/statistics/tables';
import type { StepRecord } from '@backsight/store/callbacks/effect';

/** Every place has an entry, none was cut short, counts match, and nothing outside the usual range stands without a note. */
export const meets = (r: StepRecord): boolean => !r.noEntry && !r.endedBefore && !r.differs && !r.outside;

const PARTS = {
  noEntry: 'no entry at the step',
  endedBefore: 'visit ended before the step',
  differs: 'counts did not match',
  outside: 'outside the usual range without a note',
  couldNot: 'could not be inspected (recorded so; meets the step)',
  partnerDiffers: 'the two of the pair recorded different results',
  notRestored: 'something was not put back, and told',
} as const;

type Count = { count: number; total: number };
const countOf = (records: readonly StepRecord[], of: (r: StepRecord) => boolean): Count => ({
  count: records.filter(of).length,
  total: records.length,
});
const shareOf = (share: Count) => (share.total === 0 ? null : { ...share, ...wilsonInterval(share) });

/** Weeks drawn: so many before the newest, Monday to Sunday where the firm is. */
const MOST_WEEKS = 53;

/** Shares with Wilson's interval, their difference with Newcombe's, Fisher's p, the same within houses of like age, and weekly points. */
export function workingMeasure(before: readonly StepRecord[], after: readonly StepRecord[], zone: string) {
  const [was, is] = [countOf(before, meets), countOf(after, meets)];
  const both = was.total > 0 && is.total > 0;
  return {
    before: shareOf(was),
    after: shareOf(is),
    difference: both ? shareDifference(is, was) : null,
    p: both ? fisherExact(tableOf(was, is)).p : null,
    likeAge: both ? likeAge(before, after) : null,
    parts: Object.entries(PARTS).map(([key, label]) => ({
      key,
      label,
      before: countOf(before, (r) => r[key as keyof typeof PARTS]),
      after: countOf(after, (r) => r[key as keyof typeof PARTS]),
    })),
    weeks: weeksOf(before, after, zone),
    sentence: sentenceOf(was, is),
  };
}

const tableOf = (was: Count, is: Count): Table => [
  [is.count, is.total - is.count],
  [was.count, was.total - was.count],
];

/** Older houses fail oftener, and the mix may differ between the two spans; houses whose age nobody knows are left out. */
function likeAge(before: readonly StepRecord[], after: readonly StepRecord[]) {
  const strata = [true, false].map((old) => {
    const of = (records: readonly StepRecord[]) =>
      countOf(
        records.filter((r) => r.old === old),
        meets,
      );
    return tableOf(of(before), of(after));
  });
  const { oddsRatio, lower, upper, p } = mantelHaenszel(strata);
  return { oddsRatio, lower, upper, p };
}

function weeksOf(before: readonly StepRecord[], after: readonly StepRecord[], zone: string) {
  const weeks = new Map<string, { week: string; met: number; total: number; after: boolean }>();
  for (const [records, isAfter] of [
    [before, false],
    [after, true],
  ] as const)
    for (const record of records) {
      const week = DateTime.fromJSDate(record.openedAt, { zone }).startOf('week').toISODate()!;
      const key = `${week} ${isAfter}`;
      const point = weeks.get(key) ?? { week, met: 0, total: 0, after: isAfter };
      weeks.set(key, { ...point, met: point.met + (meets(record) ? 1 : 0), total: point.total + 1 });
    }
  return [...weeks.values()]
    .sort((a, b) => (a.week === b.week ? Number(a.after) - Number(b.after) : a.week < b.week ? -1 : 1))
    .slice(-MOST_WEEKS);
}

const percent = ({ count, total }: Count): string => `${Math.round((100 * count) / total)} %`;
function sentenceOf(was: Count, is: Count): string {
  const before =
    was.total === 0 ? 'no record from before is sealed' : `before the change in ${was.count} of ${was.total} (${percent(was)})`;
  if (is.total === 0) return `No record has been sealed since the change, so its share cannot be estimated yet; ${before}.`;
  return `Since the change the evidence met the step, as it was written then, in ${is.count} of ${is.total} sealed records (${percent(is)}); ${before}.`;
}
