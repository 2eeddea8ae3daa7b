// Asks for a plan: it is written down at once and made by the planner's thread afterwards.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { daysTouched } from '@backsight/domain/people/times';
import { mayPlan } from '@backsight/domain/schedule/planRules';
import type { PlanWeights } from '@backsight/scheduling/plan/model';
import { findAbsence } from '@backsight/store/people/times';
import { insertPlan } from '@backsight/store/schedule/plans';
import { localDay } from '../firm/steps/localDay.ts';
import type { Act, Work } from '../run.ts';

export type DayPlanInput = { id: string; from: string; to: string; weights: Partial<PlanWeights> };
type Asked = { id: string };

/** The days as booked, made better. */
export const askDayPlan: Act<DayPlanInput, Asked> = { operation: 'schedule.ask-plan', run: askDays };

async function askDays(work: Work, { id, from, to, weights }: DayPlanInput): Promise<Outcome<Asked>> {
  return write(work, { id, kind: 'day_plan', from, to, ask: { weights } });
}

export type SickCallInput = { id: string; absenceId: string; weights: Partial<PlanWeights> };

/** The days that an absence touches, planned without that person in three ways. */
export const askSickCall: Act<SickCallInput, Asked> = { operation: 'schedule.ask-sick-call', run: askSick };

async function askSick(work: Work, { id, absenceId, weights }: SickCallInput): Promise<Outcome<Asked>> {
  const absence = await findAbsence(work.tx, absenceId);
  if (!absence || absence.withdrawnAt !== null) return refuse('not-found', { thing: 'absence' });
  if (absence.state !== 'approved') return refuse('absence-not-approved');
  const { today, zone } = await localDay(work.tx, work.now);
  const days = daysTouched(absence.startsAt, absence.endsAt, zone).filter((day) => day >= today);
  if (days.length === 0) return refuse('plan-days-past');
  return write(work, { id, kind: 'sick_call', from: days[0]!, to: days.at(-1)!, ask: { absenceId, personId: absence.personId, weights } });
}

export async function write(
  work: Work,
  p: { id: string; kind: 'day_plan' | 'sick_call' | 'weather' | 'what_if'; from: string; to: string; ask: Record<string, unknown> },
): Promise<Outcome<Asked>> {
  if (work.actor.kind !== 'person') return refuse('not-allowed');
  const { today } = await localDay(work.tx, work.now);
  const allowed = mayPlan(p.kind, p.from, p.to, today);
  if (!allowed.ok) return allowed;
  await insertPlan(work.tx, {
    id: p.id,
    kind: p.kind,
    fromDay: p.from,
    toDay: p.to,
    ask: p.ask,
    askedBy: work.actor.id,
    askedAt: work.now,
  });
  await work.did('plan', p.id, { kind: p.kind, from: p.from, to: p.to });
  return accept({ id: p.id });
}
