// First steps that an owner leaves undone, or takes up again: for the whole firm.
import type { FirstStep } from '@backsight/domain/firm/firstSteps';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { setStepsLeft } from '@backsight/store/firm/firstSteps';
import type { Act, Work } from '../run.ts';
import { FIRM_THING } from './steps/localDay.ts';

type Left = { steps: readonly FirstStep[] };

/** These steps and no others are left from now on. */
export const leaveSteps: Act<Left, { steps: FirstStep[] }> = { operation: 'firm.leave-steps', run: leave };

async function leave(work: Work, { steps }: Left): Promise<Outcome<{ steps: FirstStep[] }>> {
  if (work.actor.kind !== 'person') return refuse('not-allowed');
  await setStepsLeft(work.tx, steps, { leftBy: work.actor.id, recordedAt: work.now });
  await work.did('firm', FIRM_THING, { firstStepsLeft: [...steps] });
  return accept({ steps: [...steps] });
}
