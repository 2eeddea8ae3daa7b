// Whether somebody may come near a thing of a job at all; what may be done with it is decided by each use case.
import { seesEveryJob } from '@backsight/domain/people/roles';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import { goesToJobOf, type ThingOfJob } from '@backsight/store/ownJobs';
import type { Actor } from '../run.ts';

export type { ThingOfJob };

/** The desk may; an inspector where he goes or went. What is not there is left to the use case. Refusal: not-on-this-visit. */
export async function mayReach(reader: Reader, { of, id, actor }: { of: ThingOfJob; id: string; actor: Actor }): Promise<Outcome<null>> {
  if (actor.kind !== 'person' || seesEveryJob(actor.roles)) return accept(null);
  return (await goesToJobOf(reader, of, id, actor.id)) === false ? refuse('not-on-this-visit') : accept(null);
}
