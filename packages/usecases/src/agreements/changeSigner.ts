// Says in which capacity a client signs, and on what authority.
import { maySignAs, type Capacity } from '@backsight/domain/agreements/signers';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { findSigner, lockSigner, updateSigner } from '@backsight/store/agreements';
import type { Act, Work } from '../run.ts';

export type ChangeSignerInput = { signerId: string; capacity: Capacity; authority: string };

export const changeSigner: Act<ChangeSignerInput, { id: string }> = { operation: 'agreements.change_signer', run: change };

async function change(work: Work, { signerId, capacity, authority }: ChangeSignerInput): Promise<Outcome<{ id: string }>> {
  await lockSigner(work.tx, signerId);
  const signer = await findSigner(work.tx, signerId);
  if (!signer) return refuse('not-found', { thing: 'signer' });
  if (signer.signature) return refuse('signed-already');
  const allowed = maySignAs(capacity, authority);
  if (!allowed.ok) return allowed;
  await updateSigner(work.tx, signerId, { capacity, authority: authority.trim() });
  await work.did('signer', signerId, { capacityBefore: signer.capacity, capacityAfter: capacity });
  return accept({ id: signerId });
}
