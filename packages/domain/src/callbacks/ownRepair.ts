// Whether the firm may repair a house that it inspected: by the row of the state's rules on repairs.
import { DateTime } from 'luxon';
import { CERTAINTIES, type RuleRow } from '../shared/rulePack.ts';
import { accept, refuse, type Outcome } from '../shared/outcome.ts';

/** What the state's rules say on the day; `bars`: the row was read and its time still runs, so that nobody may go on. */
export type RepairRule = { state: string; row: RuleRow | null; bars: boolean };

const runs = (months: number | null, inspectedOn: string | null, today: string): boolean =>
  months === null || inspectedOn === null || today < DateTime.fromISO(inspectedOn, { zone: 'utc' }).plus({ months }).toFormat('yyyy-MM-dd');

/** `rows` are those that hold today; days are ISO. A row from memory, or one that only tells of policy, warns. */
export function repairRule(state: string, rows: readonly RuleRow[], days: { inspectedOn: string | null; today: string }): RepairRule {
  const row = rows.find(({ topic }) => topic === 'repairs') ?? null;
  const effect = row?.effect?.kind === 'no_paid_repairs' ? row.effect : null;
  const read = row?.certainty === 'found' || row?.certainty === 'second_hand';
  return { state, row, bars: effect !== null && read && runs(effect.months, days.inspectedOn, days.today) };
}

const NO_ROW = {
  words: 'no rule on repairs; by policy the firm never repairs what it inspected',
  citation: 'nothing on file',
  certainty: CERTAINTIES.none,
};

/** The row in words, with its source and how sure that is. */
export const repairWords = ({ row }: RepairRule): { words: string; citation: string; certainty: string } =>
  row ? { words: row.words.replace(/\.$/, ''), citation: row.citation, certainty: CERTAINTIES[row.certainty] } : NO_ROW;

export const SHORTEST_REASON = 10;

/** Barred where the row bars it; else an owner goes on with a reason, which is then kept beside the row. */
export function mayRepair(rule: RepairRule, { isOwner, reason }: { isOwner: boolean; reason: string }): Outcome<null> {
  const about = { state: rule.state, ...repairWords(rule) };
  if (rule.bars) return refuse('own-repair-barred', about, 'kind');
  return isOwner && reason.trim().length >= SHORTEST_REASON
    ? accept(null)
    : refuse('own-repair-warned', about, isOwner ? 'reason' : 'kind');
}
