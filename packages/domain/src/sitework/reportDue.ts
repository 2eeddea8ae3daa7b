// When a report is due: as the firm promises, or sooner by the rules of the property's state; each said with its source.
import { CERTAINTIES, rowsWith, type RuleRow, type RowWith } from '../shared/rulePack.ts';
import type { BusinessCalendar } from '../shared/calendar.ts';
import { deadline } from '../shared/deadline.ts';

export type DueFacts = {
  /** Business days after the visit that the firm promises. */
  promiseDays: number;
  /** When the first visit ended, and the last; ISO instants. */
  inspectedAt: string;
  completedAt: string;
  /** Name of the state, and the rows of its rules that hold on the day of the inspection. */
  state: string;
  rows: readonly RuleRow[];
  calendar: BusinessCalendar;
};

/** `by`: whose day it is. `words` say why, with source and certainty of the state's row. */
export type ReportDue = { at: string; by: 'firm' | 'state'; words: string };

type DueRow = RowWith<'report_due'>;

const source = ({ words, citation, certainty }: RuleRow): string => `${words} (${citation}; ${CERTAINTIES[certainty]})`;
const promise = (days: number): string =>
  days === 0 ? 'on the day of the visit' : `${days} business day${days === 1 ? '' : 's'} after the visit`;

function byRow({ effect: { days, unit, from } }: DueRow, f: DueFacts): string {
  return deadline({ amount: days, unit }, from === 'inspected' ? f.inspectedAt : f.completedAt, [], f.calendar)!;
}

/** The earlier of both counts; where the state lets the agreement say another day, the promise is what the agreement says. */
export function reportDue(f: DueFacts): ReportDue {
  const promised = deadline({ amount: f.promiseDays, unit: 'businessDays' }, f.inspectedAt, [], f.calendar)!;
  const [first] = rowsWith(f.rows, 'report_due')
    .map((row) => ({ row, at: byRow(row, f) }))
    .toSorted((a, b) => a.at.localeCompare(b.at));
  const ours = `the firm promises it ${promise(f.promiseDays)}`;
  if (!first) return { at: promised, by: 'firm', words: `${ours}; no rule of ${f.state || 'the state'} on this is on file` };
  const rule = `the rule of ${f.state}: ${source(first.row)}`;
  if (first.row.effect.unlessAgreed) return { at: promised, by: 'firm', words: `${ours}, and the agreement says so; ${rule}` };
  return first.at < promised
    ? { at: first.at, by: 'state', words: `${rule}; ${ours}` }
    : { at: promised, by: 'firm', words: `${ours}; ${rule}` };
}
