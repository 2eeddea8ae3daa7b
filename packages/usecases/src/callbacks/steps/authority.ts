// How much the person who acts may commit the firm to today, and whether they were on the job.
import { limitOf, type Limit } from '@backsight/domain/callbacks/approval';
import { listLimits, listLoans } from '@backsight/store/firm/authority';
import type { JobForCallback } from '@backsight/store/callbacks/job';
import type { Work } from '../../run.ts';
import { actorId, rolesOf } from './callback.ts';
import { dayAt } from './day.ts';

export type Authority = { person: string; limit: Limit; onTheJob: boolean };

/** @throws Error when nobody acts: commitments are made by people */
export async function authorityOf(work: Work, job: JobForCallback): Promise<Authority> {
  const person = actorId(work.actor);
  if (person === null) throw new Error('only a person commits the firm');
  const today = dayAt(work.now, job.zone);
  const loans = (await listLoans(work.tx, today)).filter(({ borrowerId }) => borrowerId === person);
  const limit = limitOf({ roles: rolesOf(work.actor), limits: await listLimits(work.tx), loans }, today);
  return { person, limit, onTheJob: job.pair.some(({ id }) => id === person) };
}
