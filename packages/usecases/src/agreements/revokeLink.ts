// The office takes a private link back: it opens nothing from now on.
import { accept, refuse } from '@backsight/domain/shared/outcome';
import { findSigner, lockSigner, updateSigner } from '@backsight/store/agreements';
import type { Act } from '../run.ts';

/** Refusals: not-found, link-revoked-already. A link whose signer has signed can be taken back too: it shows the signed agreement. */
export const revokeLink: Act<{ signerId: string }, { id: string }> = {
  operation: 'agreements.revoke_link',
  run: async (work, { signerId }) => {
    await lockSigner(work.tx, signerId);
    const signer = await findSigner(work.tx, signerId);
    if (!signer) return refuse('not-found', { thing: 'signer' });
    if (signer.revokedAt || signer.tokenEndsAt <= work.now) return refuse('link-revoked-already');
    await updateSigner(work.tx, signerId, { revokedAt: work.now });
    await work.did('signer', signerId, { linkRevoked: true });
    return accept({ id: signerId });
  },
};
