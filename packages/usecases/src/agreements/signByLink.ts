// A client signs on the page that their private link opened.
import { decideSigning, type SigningCommand } from '@backsight/domain/agreements/signing';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { findSigner, lockAgreementOfJob, lockSigner } from '@backsight/store/agreements';
import type { Act, Actor, Runner, Work } from '../run.ts';
import type { Reader } from '@backsight/store/database';
import { findByToken, isCancelled } from './clientPage.ts';
import { writeSignature } from './steps/sign.ts';

type Input = SigningCommand & { token: string; device: string; ip: string };

const signByLink: Act<Input, { signedAt: string }> = { operation: 'agreements.sign', run: sign };

async function sign(work: Work, input: Input): Promise<Outcome<{ signedAt: string }>> {
  const seen = await findByToken(work.tx, input.token);
  if (!seen || 'ended' in seen || seen.signer.tokenEndsAt <= work.now) return refuse('not-found', { thing: 'agreement' });
  await lockAgreementOfJob(work.tx, seen.agreement.jobId);
  const found = await findByToken(work.tx, input.token);
  if (!found || 'ended' in found) return refuse('not-found', { thing: 'agreement' });
  if (await isCancelled(work.tx, seen.agreement.jobId)) return refuse('appointment-cancelled');
  await lockSigner(work.tx, found.signer.id);
  const signer = (await findSigner(work.tx, found.signer.id))!;
  if (signer.signature) {
    await work.did('signer', signer.id, { again: true });
    return accept({ signedAt: signer.signature.happenedAt });
  }
  const decided = decideSigning(found.agreement, input);
  if (!decided.ok) return decided;
  await writeSignature(work, signer, found.agreement, {
    id: work.newId(),
    name: decided.value.name,
    method: 'link',
    consent: true,
    device: input.device,
    ip: input.ip,
    happenedAt: work.now,
  });
  return accept({ signedAt: work.now.toISOString() });
}

/** Signs as the client of the link. Signing twice answers the first signing. */
export async function signAsClient(parts: { reader: Reader; runner: Runner }, input: Input): Promise<Outcome<{ signedAt: string }>> {
  const found = await findByToken(parts.reader, input.token);
  if (!found || 'ended' in found) return refuse('not-found', { thing: 'agreement' });
  const actor: Actor = { kind: 'client', id: found.signer.partyId };
  return parts.runner.run(signByLink, input, { actor });
}
