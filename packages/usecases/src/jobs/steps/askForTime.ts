// What a new time asks of a job: whoever opens said yes to the old one, and what is still to get is due before the new one.
import { needDue } from '@backsight/domain/jobs/needs';
import { forgetOpening } from '@backsight/store/jobs/access';
import { findOpenNeeds, setNeedDue } from '@backsight/store/jobs/jobs';
import { reopenNeeds } from '@backsight/store/jobs/markNeed';
import type { Work } from '../../run.ts';

const SAID_FOR_A_TIME = ['access', 'tenant_notice'] as const;

/** `before` and `after` are the starts of the visit that the job is for; null when it has none any more. */
export async function askForTime(work: Work, jobId: string, before: Date, after: Date | null): Promise<void> {
  if (after?.getTime() !== before.getTime()) {
    await reopenNeeds(work.tx, jobId, SAID_FOR_A_TIME, work.now, ['settled', 'refused']);
    await forgetOpening(work.tx, jobId);
  }
  if (after !== null) await dueBefore(work, jobId, after);
}

/** What is still to get is due before this start. */
export async function dueBefore(work: Work, jobId: string, startsAt: Date): Promise<void> {
  for (const kind of await findOpenNeeds(work.tx, jobId)) await setNeedDue(work.tx, jobId, kind, needDue(kind, startsAt, work.now));
}
