// Writes down a plan that is to be made.
import type { PlanKind } from '@backsight/domain/schedule/plans';
import { mayPlan } from '@backsight/domain/schedule/planRules';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { insertPlan } from '@backsight/store/schedule/plans';
import { localDay } from '../../firm/steps/localDay.ts';
import type { Work } from '../../run.ts';

export type NewPlan = { id: string; kind: PlanKind; from: string; to: string; ask: Record<string, unknown> };

export async function writePlan(work: Work, { id, kind, from, to, ask }: NewPlan): Promise<Outcome<{ id: string }>> {
  if (work.actor.kind !== 'person') return refuse('not-allowed');
  const { today } = await localDay(work.tx, work.now);
  const allowed = mayPlan(kind, from, to, today);
  if (!allowed.ok) return allowed;
  await insertPlan(work.tx, { id, kind, fromDay: from, toDay: to, ask, askedBy: work.actor.id, askedAt: work.now });
  await work.did('plan', id, { kind, from, to });
  return accept({ id });
}
