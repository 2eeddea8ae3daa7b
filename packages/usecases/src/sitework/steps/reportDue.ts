// When a report is due for a visit at a property of a state.
import { DateTime } from 'luxon';
import { openingHours } from '@backsight/domain/firm/stored';
import { packOn, rowsOn } from '@backsight/domain/shared/rulePack';
import { reportDue, type ReportDue } from '@backsight/domain/sitework/reportDue';
import type { Reader } from '@backsight/store/database';
import { listRulePacks } from '@backsight/store/firm/rulePacks';
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

export async function reportDueFor(reader: Reader, ask: DueAsk): Promise<ReportDue> {
  const day = DateTime.fromJSDate(ask.inspectedAt, { zone: ask.zone }).toISODate()!;
  const pack = packOn(await listRulePacks(reader), ask.jurisdiction, day);
  const closedDays = (await listClosedDays(reader, day)).map((closed) => closed.day);
  return reportDue({
    promiseDays: ask.reportDueDays,
    inspectedAt: ask.inspectedAt.toISOString(),
    completedAt: ask.completedAt.toISOString(),
    state: pack?.name || ask.jurisdiction,
    rows: rowsOn(pack?.rows ?? [], day),
    calendar: { zone: ask.zone, hours: openingHours(ask.hours), closedDays },
  });
}
