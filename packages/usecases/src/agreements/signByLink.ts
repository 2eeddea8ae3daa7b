// A client signs on the page that their private link opened.
import { decideSigning, formatWord, type SigningCommand } from '@backsight/domain/agreements/signing';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { findSigner, lockAgreementOfJob, lockSigner } from '@backsight/store/agreements';
import type { Act, Actor, Runner, Work } from '../run.ts';
import type { Reader } from '@backsight/store/database';
import { findByToken, isCancelled } from './clientPage.ts';
import { sha256 } from './steps/digest.ts';
import { writeSignature } from './steps/sign.ts';

type Input = SigningCommand & { token: string; device: string; ip: string; directory: string | null };

const signByLink: Act<Input, { signedAt: string }> = { operation: 'agreements.sign', run: sign };

async function sign(work: Work, input: Input): Promise<Outcome<{ signedAt: string }>> {
  const seen = await findByToken(work.tx, input.token, work.now);
  if (seen?.state !== 'found') return refuse('not-found', { thing: 'agreement' });
  await lockAgreementOfJob(work.tx, seen.agreement.jobId);
  const found = await findByToken(work.tx, input.token, work.now);
  if (found?.state !== 'found') return refuse('not-found', { thing: 'agreement' });
  if (await isCancelled(work.tx, seen.agreement.jobId)) return refuse('appointment-cancelled');
  await lockSigner(work.tx, found.signer.id);
  const signer = (await findSigner(work.tx, found.signer.id))!;
  if (signer.signature) {
    await work.did('signer', signer.id, { again: true });
    return accept({ signedAt: signer.signature.happenedAt });
  }
  const word = formatWord(found.agreement.sha256, signer.id);
  const decided = decideSigning({ sha256: found.agreement.sha256, word }, input);
  if (!decided.ok) return decided;
  await writeSignature(work, signer, found.agreement, {
    ...decided.value,
    id: work.newId(),
    method: 'link',
    consent: true,
    formatWord: word,
    device: input.device,
    ip: input.ip,
    linkHash: sha256(input.token),
    photoSha256: null,
    keptWhere: '',
    happenedAt: work.now,
    directory: input.directory,
  });
  return accept({ signedAt: work.now.toISOString() });
}

/** Signs as the client of the link. Signing twice answers the first signing. */
export async function signAsClient(
  parts: { reader: Reader; runner: Runner; now: Date },
  input: Input,
): Promise<Outcome<{ signedAt: string }>> {
  const found = await findByToken(parts.reader, input.token, parts.now);
  if (found?.state !== 'found') return refuse('not-found', { thing: 'agreement' });
  const actor: Actor = { kind: 'client', id: found.signer.partyId };
  return parts.runner.run(signByLink, input, { actor });
}
