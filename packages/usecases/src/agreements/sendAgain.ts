// Sends a signer a fresh link; the one before it ends.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { findSigner, lockSigner, newestAgreement } from '@backsight/store/agreements';
import { findJobForAgreement, staffAddresses } from '@backsight/store/agreements/job';
import { settleNeed } from '@backsight/store/jobs/markNeed';
import type { Act, Work } from '../run.ts';
import { isCancelled } from './clientPage.ts';
import { ownersOf } from './steps/issueAgreement.ts';
import { renewLink } from './steps/renewLink.ts';

/** `asked` says that the office asked the client about an address which somebody else has too. */
export type SendAgainInput = { signerId: string; asked: boolean; publicUrl: string };

export const sendAgain: Act<SendAgainInput, { id: string }> = { operation: 'agreements.send_again', run: send };

async function send(work: Work, input: SendAgainInput): Promise<Outcome<{ id: string }>> {
  await lockSigner(work.tx, input.signerId);
  const signer = await findSigner(work.tx, input.signerId);
  if (!signer) return refuse('not-found', { thing: 'signer' });
  if (signer.signature) return refuse('signed-already');
  if ((await newestAgreement(work.tx, signer.jobId))?.id !== signer.agreementId) return refuse('agreement-superseded');
  if (await isCancelled(work.tx, signer.jobId)) return refuse('appointment-cancelled');
  if (!signer.email) return refuse('address-missing', { name: signer.name });
  const job = (await findJobForAgreement(work.tx, signer.jobId))!;
  const clients = job.parties.filter(({ role }) => role === 'client');
  const owners =
    ownersOf(await staffAddresses(work.tx), job, clients)[clients.findIndex(({ partyId }) => partyId === signer.partyId)] ?? [];
  if (owners.length > 0 && !input.asked) return refuse('address-in-doubt', { name: signer.name, owners }, 'asked');
  await renewLink(work, {
    signer: { ...signer, email: signer.email },
    job,
    publicUrl: input.publicUrl,
    sharedAddress: owners.length > 0,
    sharedWith: owners.join(', '),
    why: 'again',
  });
  await settleNeed(work.tx, signer.jobId, 'client_address', work.now, work.actor.kind === 'person' ? work.actor.id : null);
  await work.did('signer', signer.id, { sentAgain: true, sharedAddress: owners.length > 0, asked: input.asked });
  return accept({ id: signer.id });
}
