// The client's written consent that somebody else gets the report, or its withdrawal: who gave it, when, how, and who took it down.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { saveConsent, type ConsentHow, type ConsentKind } from '@backsight/store/sitework/register';
import { findReportJob } from '@backsight/store/sitework/report';
import { localDay } from '../firm/steps/localDay.ts';
import type { Act, Work } from '../run.ts';
import { mayWriteReport } from './steps/reportJob.ts';

export type ConsentInput = {
  id: string;
  jobId: string;
  partyId: string;
  clientId: string;
  kind: ConsentKind;
  how: ConsentHow;
  note: string;
  givenOn: string;
};

/** Refusals: consent-not-needed (the client's own report), consent-not-by-client, consent-ahead. */
export const recordReportConsent: Act<ConsentInput, { id: string }> = { operation: 'sitework.report-consent', run: record };

async function record(work: Work, input: ConsentInput): Promise<Outcome<{ id: string }>> {
  const job = await findReportJob(work.tx, input.jobId);
  if (!job) return refuse('not-found', { thing: 'job' });
  if (!mayWriteReport(job, work.actor) || work.actor.kind !== 'person') return refuse('not-allowed');
  const [party, client] = [input.partyId, input.clientId].map((id) => job.parties.find(({ partyId }) => partyId === id));
  if (!party) return refuse('not-found', { thing: 'person on this job' }, 'partyId');
  if (party.roles.includes('client')) return refuse('consent-not-needed', { name: party.name }, 'partyId');
  if (!client?.roles.includes('client')) return refuse('consent-not-by-client', {}, 'clientId');
  const { today } = await localDay(work.tx, work.now);
  if (input.givenOn > today) return refuse('consent-ahead', {}, 'givenOn');
  await saveConsent(work.tx, { ...input, note: input.note.trim(), takenBy: work.actor.id, at: work.now });
  await work.did('job', input.jobId, { reportConsent: input.kind, recipient: input.partyId, client: input.clientId, how: input.how });
  return accept({ id: input.id });
}
