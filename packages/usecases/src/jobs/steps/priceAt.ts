// A job priced anew under its own schedule: with other facts, or at another start. What the desk added to its fee stays.
import { pricedAnew } from '@backsight/domain/fees/discount';
import type { FeeLine } from '@backsight/domain/fees/schedule';
import { wallTime } from '@backsight/domain/schedule/wallClock';
import type { PropertyFacts } from '@backsight/domain/shared/facts';
import { accept, type Outcome } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import { discountOf } from '@backsight/store/fees/discounts';
import { findFeeLines } from '@backsight/store/jobs/jobs';
import type { JobContext } from './loadJob.ts';
import { planOf, type Plan } from './plan.ts';

/** `startsAt` null = no start is known; then the day of `now` counts. */
type At = { facts: PropertyFacts; startsAt: Date | null; now: Date };

export async function priceAt(
  reader: Reader,
  { job, catalog, place, services }: JobContext,
  { facts, startsAt, now }: At,
): Promise<Outcome<{ lines: FeeLine[]; plan: Plan }>> {
  const at = wallTime(startsAt ?? now, catalog.office.zone);
  const discount = await discountOf(reader, job.id);
  const plan = planOf(catalog, { facts, services, day: at.day, place, startMinute: startsAt ? at.minute : null, discount });
  if (!plan.ok) return plan;
  const before = await findFeeLines(reader, job.id);
  return accept({ lines: pricedAnew(catalog.schedule!.body, before, plan.value.fee.lines), plan: plan.value });
}
