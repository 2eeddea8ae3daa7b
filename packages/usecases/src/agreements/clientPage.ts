// What a private link opens: the newest agreement of the job for the one person whom the link was made for, and nothing else.
import { changesBetween, type Change } from '@backsight/domain/agreements/changes';
import { agreementFacts } from '@backsight/domain/agreements/facts';
import { wantsPaper } from '@backsight/domain/agreements/signers';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import {
  findAgreement,
  lastSigned,
  newestAgreement,
  newestRelease,
  signerOfToken,
  signersOf,
  type AgreementRow,
  type SignerRow,
} from '@backsight/store/agreements';
import { findJobForAgreement, type JobForAgreement } from '@backsight/store/agreements/job';
import { findSealedPaper } from '@backsight/store/agreements/sealed';
import { findJobForCallback } from '@backsight/store/callbacks/job';
import { findJob } from '@backsight/store/jobs/jobs';
import { fileOf } from './steps/agreementPaper.ts';
import { sha256 } from './steps/digest.ts';
import { readingCopy } from './steps/readingCopy.ts';

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
  /** What the newest says otherwise than what this person signed last, and when that was; null when nothing was signed before. */
  since: { signedAt: string; changes: Change[] } | null;
  answer: SignerRow['answer'];
  wantsPaper: boolean;
  signed: (NonNullable<SignerRow['signature']> & { name: string }) | null;
  /** It settles a claim: it is about no appointment, no fee and no visit. */
  release: boolean;
  /** Somebody was at the property: from then on a problem can be reported. */
  visited: boolean;
  /** Everybody has signed, and the sealed file can be had. */
  sealed: boolean;
};

export type Opened =
  | { state: 'open'; page: ClientPage }
  | { state: 'cancelled'; firm: string; firmPhone: string; address: string }
  | { state: 'ended' | 'revoked'; firm: string; firmPhone: string }
  | { state: 'unknown' };

export type Found =
  | { state: 'found'; signer: SignerRow; agreement: AgreementRow; superseded: boolean }
  | { state: 'ended' | 'revoked'; signer: SignerRow };

const TOKEN = /^[\w-]{43}$/;

/**
 * Signer and newest agreement, or settlement release, of a token. What is no token at all is not even looked up. A link that ended or was taken back opens nothing,
 * nor does it open a newer agreement whose own link was taken back.
 */
export async function findByToken(reader: Reader, token: string, now: Date): Promise<Found | null> {
  const linked = TOKEN.test(token) ? await signerOfToken(reader, sha256(token)) : null;
  if (!linked) return null;
  const own = (await findAgreement(reader, linked.agreementId))!;
  const agreement = own.remedyId === null ? await newestAgreement(reader, linked.jobId) : await newestRelease(reader, own.remedyId);
  if (!agreement) return null;
  const superseded = agreement.id !== linked.agreementId;
  const signer = superseded ? (await signersOf(reader, agreement.id)).find(({ partyId }) => partyId === linked.partyId) : linked;
  if (linked.revokedAt || signer?.revokedAt) return { state: 'revoked', signer: linked };
  if (!signer || linked.tokenEndsAt <= now || signer.tokenEndsAt <= now) return { state: 'ended', signer: linked };
  return { state: 'found', signer, agreement, superseded };
}

/** The links of a job that was cancelled open nothing any more. */
export const isCancelled = async (reader: Reader, jobId: string): Promise<boolean> => (await findJob(reader, jobId))?.state === 'cancelled';

/** Job and person of a link that opens, for what is reported by it. Refusals: link-opens-nothing, appointment-cancelled. */
export async function whoseLink(reader: Reader, token: string, now: Date): Promise<Outcome<{ jobId: string; partyId: string }>> {
  const found = await findByToken(reader, token, now);
  if (found?.state !== 'found') return refuse('link-opens-nothing');
  const { jobId, partyId } = found.signer;
  return (await isCancelled(reader, jobId)) ? refuse('appointment-cancelled') : accept({ jobId, partyId });
}

/** Opens a link for reading. */
export async function openLink(reader: Reader, token: string, now: Date): Promise<Opened> {
  const found = await findByToken(reader, token, now);
  if (!found) return { state: 'unknown' };
  const { signer } = found;
  const job = (await findJobForAgreement(reader, signer.jobId))!;
  if (await isCancelled(reader, signer.jobId))
    return { state: 'cancelled', firm: job.firm, firmPhone: job.firmPhone, address: job.address };
  if (found.state !== 'found') return { state: found.state, firm: job.firm, firmPhone: job.firmPhone };
  return { state: 'open', page: await pageOf(reader, job, found) };
}

async function pageOf(reader: Reader, job: JobForAgreement, found: Found & { state: 'found' }): Promise<ClientPage> {
  const { agreement, signer } = found;
  const { appointment, fee, terms } = agreementFacts({ ...job, clients: [], feeKnown: job.feeLines > 0, reportDueAt: null });
  const { name, capacity, authority, answer, signature } = signer;
  const { title, body, consentText, reviewed } = agreement;
  return {
    jobNumber: job.number,
    firm: job.firm,
    firmPhone: job.firmPhone,
    address: job.address,
    zone: job.zone,
    ...{ name, capacity, authority, answer, appointment, fee, terms, title, body, consentText, reviewed },
    sha256: agreement.sha256,
    superseded: found.superseded,
    since: agreement.remedyId === null ? await changedSince(reader, signer, agreement) : null,
    release: agreement.remedyId !== null,
    visited: (await findJobForCallback(reader, signer.jobId))!.inspectedOn !== null,
    wantsPaper: wantsPaper(signer),
    signed: signature && { ...signature, name: signature.name ?? name },
    sealed: signature !== null && (await findSealedPaper(reader, { agreementId: agreement.id })) !== null,
  };
}

async function changedSince(reader: Reader, signer: SignerRow, agreement: AgreementRow): Promise<ClientPage['since']> {
  const before = await lastSigned(reader, { jobId: agreement.jobId, partyId: signer.partyId, before: agreement.id });
  return before && { signedAt: before.signedAt.toISOString(), changes: changesBetween(before.body, agreement.body) };
}

/** The agreement of a link as a file: sealed once everybody has signed, before that with the word that shows that it could be opened. */
export async function openPdf(reader: Reader, token: string, now: Date): Promise<{ name: string; bytes: Uint8Array } | null> {
  const found = await findByToken(reader, token, now);
  if (found?.state !== 'found' || (await isCancelled(reader, found.signer.jobId))) return null;
  const { agreement, signer } = found;
  const sealed = signer.signature && (await findSealedPaper(reader, { agreementId: agreement.id }));
  if (sealed) return { name: sealed.name, bytes: sealed.content };
  return { name: `${fileOf(agreement)}.pdf`, bytes: await readingCopy(reader, agreement, signer) };
}
