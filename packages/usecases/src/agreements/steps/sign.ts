// Writes a signature, and settles what waited for it.
import { stillToSign } from '@backsight/domain/agreements/signers';
import { newestAgreement, newestRelease, saveSignature, signersOf, type AgreementRow, type SignerRow } from '@backsight/store/agreements';
import { findGateFacts } from '@backsight/store/agreements/job';
import { settleNeed } from '@backsight/store/jobs/markNeed';
import { keepText } from '@backsight/store/text';
import type { Work } from '../../run.ts';
import { saltedAddress, sha256 } from './digest.ts';
import { mailCopies } from './mailCopies.ts';
import { sealAgreement } from './sealPdf.ts';
import { noteRelease } from '../../callbacks/steps/noteRelease.ts';

export type SigningProof = {
  id: string;
  name: string;
  method: 'link' | 'on_site_device' | 'paper';
  /** False on paper: no electronic consent was asked. */
  consent: boolean;
  formatWord: string;
  strokes: string | null;
  interpreter: string | null;
  device: string;
  ip: string | null;
  linkHash: string;
  photoSha256: string | null;
  keptWhere: string;
  happenedAt: Date;
  /** Where the service keeps its files; null: nowhere, and no file goes along with the copies. */
  directory: string | null;
};

/**
 * The caller has locked the signer and seen that there is no signature yet. A signature under an agreement that a newer one took the place of
 * is kept as it is and opens nothing. Answers whether it was such a one.
 */
export async function writeSignature(
  work: Work,
  signer: SignerRow,
  agreement: AgreementRow,
  proof: SigningProof,
): Promise<{ late: boolean }> {
  const newest =
    agreement.remedyId === null ? await newestAgreement(work.tx, agreement.jobId) : await newestRelease(work.tx, agreement.remedyId);
  const late = newest?.id !== agreement.id;
  const consentSha256 = proof.consent ? sha256(agreement.consentText) : '';
  await saveProof(work, signer, agreement, proof, consentSha256);
  await work.did('signer', signer.id, {
    agreementId: agreement.id,
    sha256: agreement.sha256,
    consentSha256,
    method: proof.method,
    capacity: signer.capacity,
    sharedAddress: signer.sharedAddress,
    drawn: proof.strokes !== null,
    interpreter: proof.interpreter !== null,
    ...(proof.photoSha256 ? { photo: proof.photoSha256 } : {}),
    ...(late ? { superseded: true } : {}),
  });
  if (!late) await settle(work, agreement, proof.directory);
  return { late };
}

async function saveProof(work: Work, signer: SignerRow, agreement: AgreementRow, p: SigningProof, consentSha256: string): Promise<void> {
  const keep = (text: string | null) => (text === null ? Promise.resolve(null) : keepText(work.tx, work.newId(), text, work.now));
  await saveSignature(work.tx, {
    id: p.id,
    signerId: signer.id,
    nameTextId: await keepText(work.tx, work.newId(), p.name, work.now),
    sha256: agreement.sha256,
    consentSha256,
    consentText: p.consent ? agreement.consentText : '',
    method: p.method,
    formatWord: p.formatWord,
    device: p.device.slice(0, 300),
    ipHash: p.ip ? saltedAddress(p.ip) : '',
    linkHash: p.linkHash,
    keptWhere: p.keptWhere,
    photoSha256: p.photoSha256,
    strokesTextId: await keep(p.strokes),
    addressTextId: await keep(p.ip),
    interpreterTextId: await keep(p.interpreter),
    happenedAt: p.happenedAt,
    recordedAt: work.now,
  });
}

/** What waited for the last signature: the list or the callback, the seal, the copies. */
async function settle(work: Work, agreement: AgreementRow, directory: string | null): Promise<void> {
  const { remedyId } = agreement;
  const everySigner = remedyId !== null || (await findGateFacts(work.tx, agreement.jobId)).everySigner;
  const signers = await signersOf(work.tx, agreement.id);
  const missing = stillToSign(
    signers.map((s) => ({ name: s.name, signed: s.signature !== null })),
    everySigner,
  );
  if (missing.length > 0) return;
  if (remedyId === null)
    await settleNeed(work.tx, agreement.jobId, 'signature', work.now, work.actor.kind === 'person' ? work.actor.id : null);
  await sealAgreement(work, agreement.id);
  if (remedyId !== null) await noteRelease(work, remedyId, { kind: 'release_signed', details: { agreementId: agreement.id } });
  await mailCopies(work, agreement, signers, directory);
}
