// What every list and page says of a plan.
import type { PlanRow } from '@backsight/store/schedule/plans';

export const planHead = ({ id, kind, fromDay, toDay, state, note, accepted, askedBy, askedAt, endedAt }: PlanRow) => ({
  id,
  kind,
  fromDay,
  toDay,
  state,
  note,
  accepted,
  askedBy,
  askedAt: askedAt.toISOString(),
  endedAt: endedAt?.toISOString() ?? null,
});
