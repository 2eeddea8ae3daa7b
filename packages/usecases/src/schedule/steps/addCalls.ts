// The clients to call after a plan was accepted, in the order in which they should be called.
import { findJob } from '@backsight/store/jobs/jobs';
import { insertCalls, type NewCall, type PlanRow } from '@backsight/store/schedule/plans';
import type { Work } from '../../run.ts';
import type { Written } from './writeMoves.ts';

type Call = Pick<NewCall, 'visitId' | 'because' | 'wasAt' | 'willBeAt'> & { objectionOn: string | null };

/** Visits without a place first, then who must object soonest, then the earliest start. */
const inOrder = (a: Call, b: Call): number =>
  Number(b.because === 'left_out') - Number(a.because === 'left_out') ||
  (a.objectionOn ?? '9999').localeCompare(b.objectionOn ?? '9999') ||
  a.wasAt.getTime() - b.wasAt.getTime();

/** After weather a mail tells of the new time; whoever has none is called. Of a sick call everybody whose start changes is called. Answers how many. */
export async function addCalls(work: Work, plan: PlanRow, written: readonly Written[]): Promise<number> {
  const calls: Call[] = [];
  for (const { move, was, to } of written) {
    const moved = to !== null && to.startsAt.getTime() !== was.startsAt.getTime();
    if (to !== null && !(moved && plan.kind === 'sick_call')) continue;
    const job = await findJob(work.tx, move.jobId);
    const because = to === null ? 'left_out' : 'moved';
    calls.push({ visitId: was.id, because, wasAt: was.startsAt, willBeAt: to?.startsAt ?? null, objectionOn: job?.objectionOn ?? null });
  }
  const rows = calls.sort(inOrder).map(({ objectionOn: _, ...call }, position) => ({
    ...call,
    id: work.newId(),
    planId: plan.id,
    position,
    recordedAt: work.now,
  }));
  await insertCalls(work.tx, rows);
  return rows.length;
}
