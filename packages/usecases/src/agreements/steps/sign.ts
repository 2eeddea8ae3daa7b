// Writes a signature, and settles what waited for it.
import { stillToSign } from '@backsight/domain/agreements/signers';
import { saveSignature, signersOf, type AgreementRow, type SignerRow } from '@backsight/store/agreements';
import { findGateFacts } from '@backsight/store/agreements/job';
import { settleNeed } from '@backsight/store/jobs/markNeed';
import { keepText } from '@backsight/store/text';
import { sendLetter } from '../../mail/steps/letter.ts';
import type { Work } from '../../run.ts';
import { saltedAddress, sha256 } from './digest.ts';
import { sealAgreement } from './sealPdf.ts';

export type SigningProof = {
  id: string;
  name: string;
  method: 'link' | 'on_site_device' | 'paper';
  consent: boolean;
  device: string;
  ip: string | null;
  happenedAt: Date;
};

/** The caller has locked the signer and seen that there is no signature yet. `consent` is false on paper: no electronic consent was asked. */
export async function writeSignature(work: Work, signer: SignerRow, agreement: AgreementRow, proof: SigningProof): Promise<void> {
  const { id, name, method, device, happenedAt } = proof;
  const nameTextId = await keepText(work.tx, work.newId(), name, work.now);
  const consentSha256 = proof.consent ? sha256(agreement.consentText) : '';
  await saveSignature(work.tx, {
    id,
    signerId: signer.id,
    nameTextId,
    sha256: agreement.sha256,
    consentSha256,
    method,
    device: device.slice(0, 300),
    ipHash: proof.ip ? saltedAddress(proof.ip) : '',
    happenedAt,
    recordedAt: work.now,
  });
  await work.did('signer', signer.id, {
    agreementId: agreement.id,
    sha256: agreement.sha256,
    consentSha256,
    method,
    capacity: signer.capacity,
    sharedAddress: signer.sharedAddress,
  });
  const { everySigner } = await findGateFacts(work.tx, agreement.jobId);
  const signers = (await signersOf(work.tx, agreement.id)).map((s) => ({ name: s.name, signed: s.signature !== null }));
  const by = work.actor.kind === 'person' ? work.actor.id : null;
  if (stillToSign(signers, everySigner).length === 0) {
    await settleNeed(work.tx, agreement.jobId, 'signature', work.now, by);
    await sealAgreement(work, agreement.id);
  }
  if (signer.email && method !== 'paper') await mailCopy(work, signer, agreement);
}

/** Goes out at once, at any hour: the person has just signed. */
const mailCopy = (work: Work, signer: SignerRow, agreement: AgreementRow): Promise<void> =>
  sendLetter(work, {
    kind: 'signed_copy',
    messageKey: `signed-copy:${signer.id}`,
    to: { name: signer.name, email: signer.email! },
    values: { job: String(agreement.jobNumber), agreement: agreement.body, fingerprint: agreement.sha256 },
    about: { kind: 'job', id: agreement.jobId },
    urgent: true,
  });
