// Gives a signer a fresh link and mails it; the one before it ends.
import { linkEnds } from '@backsight/domain/agreements/signers';
import { updateSigner, type SignerRow } from '@backsight/store/agreements';
import type { JobForAgreement } from '@backsight/store/agreements/job';
import type { Work } from '../../run.ts';
import { newToken } from './digest.ts';
import { sendLink, type LinkMail } from './sendLink.ts';

type Fresh = {
  signer: SignerRow & { email: string };
  job: JobForAgreement;
  publicUrl: string;
  sharedAddress: boolean;
  /** Whose address it also is; without it what was known stays. */
  sharedWith?: string;
  why: LinkMail['why'];
};

export async function renewLink(work: Work, { signer, job, publicUrl, sharedAddress, sharedWith, why }: Fresh): Promise<void> {
  const { token, tokenHash } = newToken();
  const tokenEndsAt = linkEnds(job.visit ? new Date(job.visit.endsAt) : null, work.now);
  await updateSigner(work.tx, signer.id, {
    tokenHash,
    tokenEndsAt,
    sentAt: work.now,
    sharedAddress,
    sharedWith: sharedWith ?? signer.sharedWith,
    revokedAt: null,
  });
  await sendLink(work, { signerId: signer.id, name: signer.name, email: signer.email, token, publicUrl, job, why });
}
