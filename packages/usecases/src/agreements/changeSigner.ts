// Says in which capacity a client signs, and on what authority.
import { maySignAs, type Capacity } from '@backsight/domain/agreements/signers';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { findSigner, lockSigner, updateSigner } from '@backsight/store/agreements';
import type { Act, Work } from '../run.ts';
import { keepProof, mediaTypeOf, type Upload } from './steps/keepProof.ts';
import type { Reader } from '@backsight/store/database';
import { readStoredFile } from '@backsight/store/sitework/files';

export type ChangeSignerInput = { signerId: string; capacity: Capacity; authority: string };

export const changeSigner: Act<ChangeSignerInput, { id: string }> = { operation: 'agreements.change_signer', run: change };

async function change(work: Work, { signerId, capacity, authority }: ChangeSignerInput): Promise<Outcome<{ id: string }>> {
  await lockSigner(work.tx, signerId);
  const signer = await findSigner(work.tx, signerId);
  if (!signer) return refuse('not-found', { thing: 'signer' });
  if (signer.signature) return refuse('signed-already');
  const allowed = maySignAs(capacity, authority, signer.authoritySha256 !== null);
  if (!allowed.ok) return allowed;
  await updateSigner(work.tx, signerId, { capacity, authority: authority.trim() });
  await work.did('signer', signerId, { capacityBefore: signer.capacity, capacityAfter: capacity });
  return accept({ id: signerId });
}

/** Files the paper that lets somebody sign for another: a power of attorney, letters testamentary, a trust deed. */
export const fileAuthority: Act<{ signerId: string; file: Upload; directory: string }, { id: string }> = {
  operation: 'agreements.file_authority',
  run: async (work, { signerId, file, directory }) => {
    await lockSigner(work.tx, signerId);
    if (!(await findSigner(work.tx, signerId))) return refuse('not-found', { thing: 'signer' });
    const kept = await keepProof(work, directory, file, 'file.base64');
    if (!kept.ok) return kept;
    await updateSigner(work.tx, signerId, { authoritySha256: kept.value });
    await work.did('signer', signerId, { authorityOnFile: kept.value });
    return accept({ id: signerId });
  },
};

/** The paper of a signer's authority, or the photo of a paper that was signed. */
export async function readSignerFile(
  reader: Reader,
  input: { signerId: string; which: 'authority' | 'photo'; directory: string },
): Promise<Outcome<{ bytes: Buffer; mediaType: string }>> {
  const signer = await findSigner(reader, input.signerId);
  const sha256 = input.which === 'authority' ? signer?.authoritySha256 : signer?.signature?.photoSha256;
  if (!sha256) return refuse('not-found', { thing: 'file' });
  const bytes = await readStoredFile(input.directory, sha256);
  return accept({ bytes, mediaType: mediaTypeOf(bytes) ?? 'application/octet-stream' });
}
