// After a further visit was booked: who goes there is told, and so are the clients.
import { comesWords } from '@backsight/domain/agreements/notices';
import { findJobForAgreement } from '@backsight/store/agreements/job';
import { findPeopleNames } from '@backsight/store/agreements/names';
import type { Work } from '../../run.ts';
import { tellBooked } from './tellClients.ts';
import { tellPair } from './tellPair.ts';

/** `key` is unique for ever, `what` names the visit inside a sentence; instants as ISO text. */
export type Added = {
  key: string;
  what: string;
  visit: { visitId: string; startsAt: string; endsAt: string; first: string; second: string | null };
  charge?: string;
};

export async function tellAdded(work: Work, jobId: string, { key, what, visit, charge = '' }: Added): Promise<void> {
  const job = (await findJobForAgreement(work.tx, jobId))!;
  const { visitId, first, second } = visit;
  const at = { startsAt: new Date(visit.startsAt), endsAt: new Date(visit.endsAt) };
  const ids = [first, second].filter((id) => id !== null);
  const names = await findPeopleNames(work.tx, ids);
  await tellPair(work, job, { visitId, version: 1, what, now: { ...at, first, second } });
  await tellBooked(work, job, { key, visitId, version: 1, what, at, coming: comesWords(ids.map((id) => names.get(id)!)), charge });
}
