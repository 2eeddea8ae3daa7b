// After a further visit was booked: who goes there is told, and so are the clients.
import { comesWords } from '@backsight/domain/agreements/notices';
import { findJobForAgreement } from '@backsight/store/agreements/job';
import { findPeopleNames } from '@backsight/store/agreements/names';
import { visitWords } from '@backsight/store/jobs/visitKinds';
import type { Work } from '../../run.ts';
import { tellBooked } from './tellClients.ts';
import { tellPair } from './tellPair.ts';

/** `key` is unique for ever; `what` tells the clients of the visit inside a sentence, where it is more than its kind. Instants as ISO text. */
export type Added = {
  key: string;
  kind: string;
  what?: string;
  visit: { visitId: string; startsAt: string; endsAt: string; first: string; second: string | null };
  charge?: string;
};

export async function tellAdded(work: Work, jobId: string, { key, kind, what, visit, charge = '' }: Added): Promise<void> {
  const name = await visitWords(work.tx, kind);
  const job = (await findJobForAgreement(work.tx, jobId))!;
  const { visitId, first, second } = visit;
  const at = { startsAt: new Date(visit.startsAt), endsAt: new Date(visit.endsAt) };
  const ids = [first, second].filter((id) => id !== null);
  const names = await findPeopleNames(work.tx, ids);
  await tellPair(work, job, { visitId, version: 1, what: name, now: { ...at, first, second } });
  await tellBooked(work, job, {
    key,
    visitId,
    version: 1,
    what: what ?? name,
    at,
    coming: comesWords(ids.map((id) => names.get(id)!)),
    charge,
  });
}
