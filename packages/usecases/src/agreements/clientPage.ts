// What a private link opens: the newest agreement of the job for the one person whom the link was made for, and nothing else.
import { agreementFacts } from '@backsight/domain/agreements/facts';
import type { Reader } from '@backsight/store/database';
import { newestAgreement, signerOfToken, signersOf, type AgreementRow, type SignerRow } from '@backsight/store/agreements';
import { findJob } from '@backsight/store/jobs/jobs';
import { findJobForAgreement } from '@backsight/store/agreements/job';
import { sha256 } from './steps/digest.ts';

export type ClientPage = {
  jobNumber: number;
  firm: string;
  firmPhone: string;
  name: string;
  address: string;
  appointment: string;
  fee: string;
  terms: string;
  capacity: string;
  authority: string;
  title: string;
  body: string;
  sha256: string;
  consentText: string;
  reviewed: boolean;
  zone: string;
  /** The link belongs to an agreement that a newer one took the place of; the newest is shown. */
  superseded: boolean;
  signed: { name: string; at: string; method: string; sha256: string } | null;
};

export type Opened =
  | { state: 'open'; page: ClientPage }
  | { state: 'cancelled'; firm: string; firmPhone: string; address: string }
  | { state: 'ended'; firm: string; firmPhone: string }
  | { state: 'unknown' };

export type Found = { signer: SignerRow; agreement: AgreementRow; superseded: boolean };

/** Signer and newest agreement of a token; the digest is looked up once, whatever the token is. */
export async function findByToken(reader: Reader, token: string): Promise<Found | { ended: SignerRow } | null> {
  const linked = await signerOfToken(reader, sha256(token.slice(0, 200)));
  if (!linked) return null;
  const agreement = await newestAgreement(reader, linked.jobId);
  if (!agreement) return null;
  if (agreement.id === linked.agreementId) return { signer: linked, agreement, superseded: false };
  const now = (await signersOf(reader, agreement.id)).find(({ partyId }) => partyId === linked.partyId);
  return now ? { signer: now, agreement, superseded: true } : { ended: linked };
}

/** The links of a job that was cancelled open nothing any more. */
export const isCancelled = async (reader: Reader, jobId: string): Promise<boolean> => (await findJob(reader, jobId))?.state === 'cancelled';

/** Opens a link for reading. */
export async function openLink(reader: Reader, token: string, now: Date): Promise<Opened> {
  const found = await findByToken(reader, token);
  if (!found) return { state: 'unknown' };
  const signer = 'ended' in found ? found.ended : found.signer;
  const job = (await findJobForAgreement(reader, signer.jobId))!;
  if (await isCancelled(reader, signer.jobId))
    return { state: 'cancelled', firm: job.firm, firmPhone: job.firmPhone, address: job.address };
  if ('ended' in found || signer.tokenEndsAt <= now) return { state: 'ended', firm: job.firm, firmPhone: job.firmPhone };
  const { agreement } = found;
  const facts = agreementFacts({ ...job, clients: [], feeKnown: job.feeLines > 0 });
  const signed = signer.signature && {
    name: signer.signature.name ?? signer.name,
    at: signer.signature.happenedAt,
    method: signer.signature.method,
    sha256: signer.signature.sha256,
  };
  const { name, capacity, authority } = signer;
  const { title, body, consentText, reviewed } = agreement;
  return {
    state: 'open',
    page: {
      jobNumber: job.number,
      firm: job.firm,
      firmPhone: job.firmPhone,
      name,
      capacity,
      authority,
      address: job.address,
      appointment: facts.appointment,
      fee: facts.fee,
      terms: facts.terms,
      title,
      body,
      sha256: agreement.sha256,
      consentText,
      reviewed,
      zone: job.zone,
      superseded: found.superseded,
      signed,
    },
  };
}
