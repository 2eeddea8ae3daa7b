// People on a job: somebody comes in a role, leaves it, or gets another address.
import { mayChangeParties, mayLeave } from '@backsight/domain/jobs/decide';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { lockJob, updateNeed } from '@backsight/store/jobs/jobs';
import { markProperty } from '@backsight/store/jobs/properties';
import { findJobParties, removeJobParty, updateParty, type PartyEdit } from '@backsight/store/jobs/parties';
import type { Act, Work } from '../run.ts';
import { noteJob } from './steps/loadJob.ts';
import { knowPeople, standOnJob, type PartyInput } from './steps/people.ts';

type Changed = { id: string; version: number };

export const addJobParty: Act<{ jobId: string; party: PartyInput }, Changed> = { operation: 'jobs.add-party', run: add };

async function add(work: Work, { jobId, party }: { jobId: string; party: PartyInput }): Promise<Outcome<Changed>> {
  const job = await lockJob(work.tx, jobId);
  if (!job) return refuse('not-found', { thing: 'job' });
  const allowed = mayChangeParties(job.state);
  if (!allowed.ok) return allowed;
  const known = await knowPeople(work, [party]);
  if (!known.ok) return known;
  await standOnJob(work, jobId, [party]);
  const by = work.actor.kind === 'person' ? work.actor.id : null;
  if (party.role === 'payer') await updateNeed(work.tx, jobId, 'payer', { state: 'settled', details: {}, at: work.now, by });
  const version = await noteJob(work, jobId, job.state, { kind: 'party_added', details: { partyId: party.id, role: party.role } });
  await work.did('job', jobId, { partyAdded: party.id, role: party.role });
  return accept({ id: jobId, version });
}

export const leaveJob: Act<{ jobId: string; jobPartyId: string }, Changed> = { operation: 'jobs.remove-party', run: leave };

async function leave(work: Work, { jobId, jobPartyId }: { jobId: string; jobPartyId: string }): Promise<Outcome<Changed>> {
  const job = await lockJob(work.tx, jobId);
  if (!job) return refuse('not-found', { thing: 'job' });
  const parties = await findJobParties(work.tx, jobId);
  const party = parties.find(({ id }) => id === jobPartyId);
  if (!party) return refuse('not-found', { thing: 'person on this job' });
  const allowed = mayChangeParties(job.state);
  if (!allowed.ok) return allowed;
  const mayGo = mayLeave({ state: job.state, roles: parties.map(({ role }) => role) }, party.role);
  if (!mayGo.ok) return mayGo;
  await removeJobParty(work.tx, jobPartyId);
  const version = await noteJob(work, jobId, job.state, { kind: 'party_removed', details: { partyId: party.partyId, role: party.role } });
  await work.did('job', jobId, { partyRemoved: party.partyId, role: party.role });
  return accept({ id: jobId, version });
}

/** Marks a house: the owner is asked before anybody books for it; null takes the mark away. */
export const markHouse: Act<{ id: string; askOwner: string | null }, { id: string }> = {
  operation: 'jobs.mark-property',
  run: async (work, { id, askOwner }) => {
    if (!(await markProperty(work.tx, id, askOwner))) return refuse('not-found', { thing: 'property' });
    await work.did('property', id, { askOwner: askOwner !== null });
    return accept({ id });
  },
};

export const changeParty: Act<{ id: string; edit: PartyEdit }, { id: string }> = { operation: 'jobs.change-party', run: change };

async function change(work: Work, { id, edit }: { id: string; edit: PartyEdit }): Promise<Outcome<{ id: string }>> {
  if (!(await updateParty(work.tx, id, edit))) return refuse('not-found', { thing: 'person' });
  await work.did('party', id, { changed: Object.keys(edit) });
  return accept({ id });
}
