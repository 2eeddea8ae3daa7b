// Where the settlement release of a remedy stands.
import { newestRelease, signersOf, type AgreementRow, type SignerRow } from '@backsight/store/agreements';
import { findSealedPaper } from '@backsight/store/agreements/sealed';
import type { Reader } from '@backsight/store/database';

export type Release = { state: 'none' | 'open' | 'signed'; paper: AgreementRow | null; signers: SignerRow[]; sha256: string | null };

export async function releaseOf(reader: Reader, remedyId: string): Promise<Release> {
  const paper = await newestRelease(reader, remedyId);
  if (!paper) return { state: 'none', paper, signers: [], sha256: null };
  const sealed = await findSealedPaper(reader, { agreementId: paper.id });
  return { state: sealed ? 'signed' : 'open', paper, signers: await signersOf(reader, paper.id), sha256: sealed?.sha256 ?? null };
}
