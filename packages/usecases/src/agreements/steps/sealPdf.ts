// Seals the signed agreement: its PDF is made once, at the signature that completes it, and the same bytes are kept for ever.
import { findAgreement } from '@backsight/store/agreements';
import { proofsOf, saveSealedPaper } from '@backsight/store/agreements/sealed';
import type { Work } from '../../run.ts';
import { agreementPdf, fileOf, sha256OfBytes } from './agreementPaper.ts';

/** Call it after a signature when nobody's is missing any more. A signature beyond the needed ones makes a further paper; the earlier stays. */
export async function sealAgreement(work: Work, agreementId: string): Promise<{ sha256: string }> {
  const agreement = (await findAgreement(work.tx, agreementId))!;
  const content = new Uint8Array(await agreementPdf(work.tx, agreement, work.now));
  const sha256 = sha256OfBytes(content);
  await saveSealedPaper(work.tx, {
    id: work.newId(),
    kind: 'agreement',
    agreementId,
    signatures: (await proofsOf(work.tx, agreementId)).length,
    name: `${fileOf(agreement)}-signed.pdf`,
    sha256,
    content,
    recordedAt: work.now,
  });
  await work.did('agreement', agreementId, { sealed: sha256 });
  return { sha256 };
}
