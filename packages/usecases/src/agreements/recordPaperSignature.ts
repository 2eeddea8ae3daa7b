// Records a signature that was given on paper, or on the pair's own device at the door.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { findSigner, lockAgreementOfJob, lockSigner, newestAgreement } from '@backsight/store/agreements';
import { isOnJob } from '@backsight/store/agreements/job';
import { isCancelled } from './clientPage.ts';
import type { Act, Actor, Work } from '../run.ts';
import { writeSignature } from './steps/sign.ts';

export type PaperInput = {
  id: string;
  signerId: string;
  method: 'paper' | 'on_site_device';
  name: string;
  consent: boolean;
  device: string;
};

export const recordPaperSignature: Act<PaperInput, { id: string }> = { operation: 'agreements.sign_on_site', run: record };

async function mayRecord(work: Work, jobId: string, actor: Actor): Promise<boolean> {
  if (actor.kind !== 'person') return false;
  return actor.roles.some((role) => role !== 'inspector') || isOnJob(work.tx, jobId, actor.id);
}

async function record(work: Work, input: PaperInput): Promise<Outcome<{ id: string }>> {
  const seen = await findSigner(work.tx, input.signerId);
  if (!seen) return refuse('not-found', { thing: 'signer' });
  if (!(await mayRecord(work, seen.jobId, work.actor))) return refuse('not-your-visit');
  await lockAgreementOfJob(work.tx, seen.jobId);
  if (await isCancelled(work.tx, seen.jobId)) return refuse('appointment-cancelled');
  await lockSigner(work.tx, seen.id);
  const signer = (await findSigner(work.tx, seen.id))!;
  const agreement = (await newestAgreement(work.tx, signer.jobId))!;
  if (agreement.id !== signer.agreementId) return refuse('agreement-superseded');
  if (signer.signature) return refuse('signed-already');
  if (input.method === 'on_site_device' && !input.consent) return refuse('no-consent', {}, 'consent');
  const device = input.method === 'paper' ? 'paper' : input.device;
  await writeSignature(work, signer, agreement, {
    id: input.id,
    name: input.name,
    method: input.method,
    consent: input.method === 'on_site_device',
    device,
    ip: null,
    happenedAt: work.now,
  });
  return accept({ id: input.id });
}
