// Whether the agreement that stands was signed by anybody.
import { newestAgreement, signersOf } from '@backsight/store/agreements';
import type { Reader } from '@backsight/store/database';

export async function signedBy(reader: Reader, jobId: string): Promise<boolean> {
  const agreement = await newestAgreement(reader, jobId);
  return agreement !== null && (await signersOf(reader, agreement.id)).some(({ signature }) => signature !== null);
}
