// Who came along on a visit that moves, and who of them still can.
import { deleteObservers, findObservers } from '@backsight/store/schedule/crew';
import type { JobContext } from '../../jobs/steps/loadJob.ts';
import type { Work } from '../../run.ts';
import { observerProblem } from './observerFree.ts';

type To = { startsAt: Date; endsAt: Date; first: string; second: string | null };
type Observer = { personId: string; name: string };
export type Along = { stay: Observer[]; left: (Observer & { text: string })[] };

/** Whoever cannot come along at the new time, or is one of the new pair, comes along no more; `text` says why. */
export async function leaveBehind(work: Work, context: JobContext, visitId: string, to: To): Promise<Along> {
  const along: Along = { stay: [], left: [] };
  for (const { personId, name } of await findObservers(work.tx, visitId)) {
    const inPair = personId === to.first || personId === to.second;
    const problem = inPair ? null : await observerProblem(work, context, { ...to, id: visitId }, personId);
    if (inPair) along.left.push({ personId, name, text: `${name} goes as one of the pair now.` });
    else if (problem === null) along.stay.push({ personId, name });
    else along.left.push({ personId, name, text: `${name} no longer comes along: ${problem}` });
  }
  const ids = along.left.map(({ personId }) => personId);
  if (ids.length > 0) await deleteObservers(work.tx, visitId, ids);
  return along;
}
