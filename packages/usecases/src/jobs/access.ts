// Notes how one gets in: who agreed, who opens and when, codes, pets, and whether the tenant was told.
import { maySeeCodes } from '@backsight/domain/jobs/access';
import { mayChangeParties } from '@backsight/domain/jobs/decide';
import type { NeedState } from '@backsight/domain/jobs/words';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { Database, Reader } from '@backsight/store/database';
import { eraseCodes, findAccess, findCodes, jobsWithOldCodes, saveAccess } from '@backsight/store/jobs/access';
import { lockJob, updateNeed } from '@backsight/store/jobs/jobs';
import { findVisit } from '@backsight/store/sitework/visit';
import type { Act, Actor, Runner, Work } from '../run.ts';
import { isMember } from '../sitework/steps/loadRecord.ts';
import { noteJob } from './steps/loadJob.ts';

/** A code that is left out stays as it is; null takes it away. */
export type AccessInput = {
  id: string;
  version: number;
  state: NeedState;
  who: string;
  how: string;
  opener: string;
  phone: string;
  opensAt: string | null;
  pets: string;
  keyBox?: string | null | undefined;
  alarm?: string | null | undefined;
  tenantTold: boolean;
};

export const noteAccess: Act<AccessInput, { id: string; version: number }> = { operation: 'jobs.access', run: note };

async function note(work: Work, input: AccessInput): Promise<Outcome<{ id: string; version: number }>> {
  const { id, state, opener, phone, pets, keyBox, alarm } = input;
  const job = await lockJob(work.tx, id);
  if (!job || work.actor.kind !== 'person') return refuse('not-found', { thing: 'job' });
  if (job.version !== input.version) return refuse('changed-meanwhile');
  const allowed = mayChangeParties(job.state);
  if (!allowed.ok) return allowed;
  const stamp = { at: work.now, by: work.actor.id };
  const details = { ...(input.who ? { who: input.who } : {}), ...(input.how ? { how: input.how } : {}) };
  if (!(await updateNeed(work.tx, id, 'access', { state, details, ...stamp }))) return refuse('not-found', { thing: 'item' });
  const codes = { ...(keyBox === undefined ? {} : { keyBox }), ...(alarm === undefined ? {} : { alarm }) };
  const opensAt = input.opensAt === null ? null : new Date(input.opensAt);
  await saveAccess(work.tx, id, { opener, phone, opensAt, pets, ...codes, changedAt: work.now, changedBy: work.actor.id });
  if (input.tenantTold) await updateNeed(work.tx, id, 'tenant_notice', { state: 'settled', details: {}, ...stamp });
  const version = await noteJob(work, id, job.state, { kind: 'need', details: { need: 'access', state } });
  await work.did('job', id, {
    need: 'access',
    state,
    opensAt: input.opensAt,
    codesChanged: Object.keys(codes),
    tenantTold: input.tenantTold,
  });
  return accept({ id, version });
}

/** How the people of a visit get in, codes included, around its time. */
export async function readWayIn(reader: Reader, input: { visitId: string; actor: Actor; now: Date }) {
  const visit = await findVisit(reader, input.visitId);
  if (!visit) return refuse('not-found', { thing: 'visit' });
  const { state: visitState, startsAt, endsAt, zone } = visit;
  const allowed = maySeeCodes({ onVisit: isMember(visit, input.actor), visitState, startsAt, endsAt, zone }, input.now);
  if (!allowed.ok) return allowed;
  const access = await findAccess(reader, visit.jobId);
  const { opener = '', phone = '', pets = '' } = access ?? {};
  return accept({ opener, phone, pets, opensAt: access?.opensAt?.toISOString() ?? null, ...(await findCodes(reader, visit.jobId)) });
}

const forgetCodes: Act<{ jobId: string }, null> = {
  operation: 'jobs.forget-codes',
  run: async (work, { jobId }) => {
    await eraseCodes(work.tx, jobId);
    await work.did('job', jobId, { codesErased: true });
    return accept(null);
  },
};

/** Erases the codes of houses to which no visit lies ahead; answers how many. */
export async function forgetOldCodes(parts: { database: Database; runner: Runner; clock: () => Date }): Promise<number> {
  const jobs = await jobsWithOldCodes(parts.database.read, parts.clock());
  for (const jobId of jobs) await parts.runner.run(forgetCodes, { jobId }, { actor: { kind: 'service' } });
  return jobs.length;
}
