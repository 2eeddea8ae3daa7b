// What was ticked, answered and noted of a legal paper or an injury, told from the events.
import { SAME_DAY, type SameDay } from '@backsight/domain/callbacks/legal';
import { reportDue, type Injury } from '@backsight/domain/callbacks/workInjury';
import type { ToldRow } from '@backsight/store/callbacks/told';

const text = (row: ToldRow, key: string): string => String((row.details as Record<string, unknown>)[key]);

/** Every line of the list, with the day, the words and who ticked it; `done` is null while nobody did. */
export const sameDayOf = (told: readonly ToldRow[]) =>
  (Object.keys(SAME_DAY) as SameDay[]).map((item) => {
    const row = told.find((one) => one.kind === (item === 'insurer' ? 'insurer_told' : 'same_day_done') && text(one, 'item') === item);
    return { item, done: row ? { day: text(row, 'day'), words: row.words, by: row.actor, at: row.at.toISOString() } : null };
  });

/** That the paper was answered since its deadline was set last. */
export function answeredPaper(told: readonly ToldRow[]) {
  const row = told.slice(told.findLastIndex(({ kind }) => kind === 'paper_set') + 1).find(({ kind }) => kind === 'paper_answered');
  return row ? { day: text(row, 'day'), words: row.words, by: row.actor } : null;
}

/** Injuries with the instant by which each is reported to the federal office (null: it need not be), and when it was. */
export const injuriesOf = (told: readonly ToldRow[]) =>
  told
    .filter(({ kind }) => kind === 'work_injury')
    .map((row) => {
      const times = {
        ...{ what: text(row, 'what') as Injury, happenedAt: text(row, 'happenedAt') },
        ...{ outcomeAt: text(row, 'outcomeAt'), learnedAt: text(row, 'learnedAt') },
      };
      const injuryId = text(row, 'injuryId');
      const reported = told.find((one) => one.kind === 'work_injury_reported' && text(one, 'injuryId') === injuryId);
      return { injuryId, ...times, words: row.words, dueAt: reportDue(times), reportedAt: reported ? text(reported, 'at') : null };
    });
