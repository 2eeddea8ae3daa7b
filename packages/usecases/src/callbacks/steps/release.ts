// Where the settlement release of a remedy stands, and closing one that nobody is to sign any more.
import { newestRelease, signersOf, updateSigner, type AgreementRow, type SignerRow } from '@backsight/store/agreements';
import { findSealedPaper } from '@backsight/store/agreements/sealed';
import { refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import type { Work } from '../../run.ts';

export type Release = { state: 'none' | 'open' | 'signed'; paper: AgreementRow | null; signers: SignerRow[]; sha256: string | null };

export async function releaseOf(reader: Reader, remedyId: string): Promise<Release> {
  const paper = await newestRelease(reader, remedyId);
  if (!paper) return { state: 'none', paper, signers: [], sha256: null };
  const sealed = await findSealedPaper(reader, { agreementId: paper.id });
  return { state: sealed ? 'signed' : 'open', paper, signers: await signersOf(reader, paper.id), sha256: sealed?.sha256 ?? null };
}

/** The links of a release that is not signed by everybody open nothing any more. Refusal: release-signed. */
export async function closeRelease(work: Work, remedyId: string): Promise<Outcome<null>> {
  const { state, signers } = await releaseOf(work.tx, remedyId);
  if (state === 'signed') return refuse('release-signed');
  for (const signer of signers.filter(({ signature, revokedAt }) => signature === null && revokedAt === null))
    await updateSigner(work.tx, signer.id, { revokedAt: work.now });
  return { ok: true, value: null, warnings: [] };
}
