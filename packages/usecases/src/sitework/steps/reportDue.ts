// When a report is due for a visit at a property of a state.
import { DateTime } from 'luxon';
import { openingHours } from '@backsight/domain/firm/stored';
import { rowsOn, type RulePack } from '@backsight/domain/shared/rulePack';
import { reportDue, type ReportDue } from '@backsight/domain/sitework/reportDue';
import type { Reader } from '@backsight/store/database';
import { findRulePack } from '@backsight/store/firm/rulePacks';
import { listClosedDays } from '@backsight/store/firm/settings';

export type DueAsk = {
  /** When the first visit ended, and the last. */
  inspectedAt: Date;
  completedAt: Date;
  reportDueDays: number;
  jurisdiction: string;
  zone: string;
  /** Office hours as they are stored. */
  hours: unknown;
};

/** The local day of the inspection, whose rules count. */
export const dayOfInspection = ({ inspectedAt, zone }: Pick<DueAsk, 'inspectedAt' | 'zone'>): string =>
  DateTime.fromJSDate(inspectedAt, { zone }).toISODate()!;

/** `pack`: the one of the state on the day of the inspection, read here where the caller has it not. */
export async function reportDueFor(reader: Reader, ask: DueAsk, pack?: RulePack | null): Promise<ReportDue> {
  const day = dayOfInspection(ask);
  const found = pack === undefined ? await findRulePack(reader, ask.jurisdiction, day) : pack;
  const closed = await listClosedDays(reader, day);
  return reportDueBy(ask, { pack: found, closedDays: closed.map((one) => one.day) });
}

/** The same with what is read for it already; closed days of before the inspection do no harm. */
export function reportDueBy(ask: DueAsk, { pack, closedDays }: { pack: RulePack | null; closedDays: readonly string[] }): ReportDue {
  const day = dayOfInspection(ask);
  return reportDue({
    promiseDays: ask.reportDueDays,
    inspectedAt: ask.inspectedAt.toISOString(),
    completedAt: ask.completedAt.toISOString(),
    state: pack?.name || ask.jurisdiction,
    rows: rowsOn(pack?.rows ?? [], day),
    calendar: { zone: ask.zone, hours: openingHours(ask.hours), closedDays },
  });
}
