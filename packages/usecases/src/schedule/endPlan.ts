// How a plan ends: with its answer, stopped, failed, or lost because the service was started again.
import type { PlanState } from '@backsight/domain/schedule/plans';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { endPlan, unfinishedPlans } from '@backsight/store/schedule/plans';
import type { Act } from '../run.ts';
import { answerOf } from './steps/planAnswer.ts';
import { whatIfAnswer } from './steps/whatIf.ts';
import type { Prepared, RunAnswer } from './steps/planTask.ts';

export type { Prepared, RunAnswer } from './steps/planTask.ts';

export type FinishInput = { id: string; prepared: Prepared; answers: RunAnswer[] };

/** Keeps the answer. */
export const finishPlan: Act<FinishInput, { id: string }> = {
  operation: 'schedule.finish-plan',
  run: async (work, { id, prepared, answers }): Promise<Outcome<{ id: string }>> => {
    const { weeksFrom } = prepared;
    const result = weeksFrom === null ? answerOf(prepared, answers) : whatIfAnswer(prepared, answers, weeksFrom);
    const end = { state: 'finished' as const, note: null, at: work.now, fingerprint: prepared.fingerprint, result };
    if (!(await endPlan(work.tx, id, end))) return refuse('plan-ended');
    await work.did('plan', id, { state: 'finished', days: prepared.task.runs.length });
    return accept({ id });
  },
};

export type BreakOffInput = { id: string; state: Extract<PlanState, 'stopped' | 'failed'>; note: string };

/** Ends a plan without an answer; the note says why. */
export const breakOffPlan: Act<BreakOffInput, { id: string }> = {
  operation: 'schedule.break-off-plan',
  run: async (work, { id, state, note }): Promise<Outcome<{ id: string }>> => {
    if (!(await endPlan(work.tx, id, { state, note, at: work.now }))) return refuse('plan-ended');
    await work.did('plan', id, { state });
    return accept({ id });
  },
};

/** Ends plans that were asked for until then and that nobody makes any more, because the service that did was started again. */
export const losePlans: Act<{ until: Date }, { lost: number }> = {
  operation: 'schedule.lose-plans',
  run: async (work, { until }): Promise<Outcome<{ lost: number }>> => {
    const ids = await unfinishedPlans(work.tx, until);
    if (ids.length === 0) return refuse('plan-ended');
    const note = 'The service was started again while this plan was being made. Ask for it again.';
    for (const id of ids) {
      await endPlan(work.tx, id, { state: 'lost', note, at: work.now });
      await work.did('plan', id, { state: 'lost' });
    }
    return accept({ lost: ids.length });
  },
};
