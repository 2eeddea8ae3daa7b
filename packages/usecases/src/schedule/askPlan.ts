// Asks for a plan: it is written down at once and made by the planner's thread afterwards.
import { refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { daysTouched } from '@backsight/domain/people/times';
import type { PlanWeights } from '@backsight/scheduling/plan/model';
import { findAbsence } from '@backsight/store/people/times';
import { localDay } from '../firm/steps/localDay.ts';
import type { Act, Work } from '../run.ts';
import { writePlan } from './steps/writePlan.ts';

/** `acrossDays`: visits may go to another of the days, where the client was promised no single one. `changingPartners`: within a day. */
export type DayPlanInput = {
  id: string;
  from: string;
  to: string;
  weights: Partial<PlanWeights>;
  acrossDays?: boolean;
  changingPartners?: boolean;
};
type Asked = { id: string };

/** The days as booked, made better. */
export const askDayPlan: Act<DayPlanInput, Asked> = { operation: 'schedule.ask-plan', run: askDays };

async function askDays(work: Work, { id, from, to, ...ask }: DayPlanInput): Promise<Outcome<Asked>> {
  return writePlan(work, { id, kind: 'day_plan', from, to, ask });
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
  return writePlan(work, {
    id,
    kind: 'sick_call',
    from: days[0]!,
    to: days.at(-1)!,
    ask: { absenceId, personId: absence.personId, weights },
  });
}
