// What the office reads about agreements and the gate.
import type { Reader } from '@backsight/store/database';
import { changesBetween } from '@backsight/domain/agreements/changes';
import { wantsPaper } from '@backsight/domain/agreements/signers';
import { formatWord } from '@backsight/domain/agreements/signing';
import { accept } from '@backsight/domain/shared/outcome';
import {
  agreementsOfJob,
  newestAgreement,
  signersOf,
  type AgreementRow,
  type EarlierAgreement,
  type SignerRow,
} from '@backsight/store/agreements';
import { findSealedPaper } from '@backsight/store/agreements/sealed';
import { newestMail } from '@backsight/store/mail';
import { agreementWords } from './steps/agreementWords.ts';
import { findVisitForGate } from '@backsight/store/agreements/job';
import { gateOf, type GateNow } from './steps/gate.ts';

const iso = (at: Date | null): string | null => at?.toISOString() ?? null;

/** The newest agreement of a job with its signers, and those before it with what changed; or null. */
export async function readAgreement(reader: Reader, jobId: string) {
  const agreement = await newestAgreement(reader, jobId);
  if (!agreement) return null;
  const { textId: _, remedyId: _remedy, issuedAt, ...rest } = agreement;
  const signers = (await signersOf(reader, agreement.id)).map(({ agreementId: _id, jobId: _job, ...s }) => shownSigner(agreement, s));
  const all = inOrder(await agreementsOfJob(reader, jobId));
  const earlier = all.slice(0, -1).map(({ id, body, sha256, issuedAt: at, signed }, n) => ({
    ...{ id, sha256, signed },
    issuedAt: at.toISOString(),
    changes: changesBetween(body, all[n + 1]!.body),
  }));
  const sealed = await findSealedPaper(reader, { agreementId: agreement.id });
  return {
    ...rest,
    issuedAt: issuedAt.toISOString(),
    issues: all.length,
    signers,
    earlier: earlier.reverse(),
    sealed: sealed && { sha256: sealed.sha256, at: sealed.recordedAt.toISOString() },
  };
}

/** Each after the one whose place it took. */
function inOrder(all: readonly EarlierAgreement[]): EarlierAgreement[] {
  const chain: EarlierAgreement[] = [];
  for (
    let next = all.find(({ supersedesId }) => supersedesId === null);
    next;
    next = all.find((one) => one.supersedesId === chain.at(-1)!.id)
  )
    chain.push(next);
  return chain;
}

const shownSigner = (agreement: AgreementRow, { tokenEndsAt, sentAt, revokedAt, ...s }: Omit<SignerRow, 'agreementId' | 'jobId'>) => ({
  ...s,
  linkEndsAt: tokenEndsAt.toISOString(),
  linkRevokedAt: iso(revokedAt),
  sentAt: iso(sentAt),
  word: formatWord(agreement.sha256, s.id),
  wantsPaper: wantsPaper(s),
});

/** The links that no mail server takes along, so that the office passes them on: of those who have not signed, each the newest. */
export async function readKeptLinks(reader: Reader, jobId: string): Promise<{ signerId: string; link: string }[]> {
  const agreement = await newestAgreement(reader, jobId);
  const open = agreement ? (await signersOf(reader, agreement.id)).filter(({ signature, revokedAt }) => !signature && !revokedAt) : [];
  const kept: { signerId: string; link: string }[] = [];
  for (const { id: signerId } of open) {
    const keys = ['agreement', 'agreement-again', 'agreement-reminder'].map((why) => `${why}:${signerId}`);
    const mail = await newestMail(reader, { aboutKind: 'job', aboutId: jobId, keys });
    const link = mail && ['waiting', 'kept'].includes(mail.state) ? /https?:\S+\/client\/[\w-]{43}/.exec(mail.body)?.[0] : undefined;
    if (link !== undefined) kept.push({ signerId, link });
  }
  return kept;
}

/** What an issue would change now: for the office, before it sends anything. Who signed before has to sign again. */
export async function readIssuePreview(reader: Reader, input: { jobId: string; now: Date }) {
  const worded = await agreementWords(reader, input.jobId, input.now);
  if (!worded.ok) return worded;
  const before = await newestAgreement(reader, input.jobId);
  const signers = before ? await signersOf(reader, before.id) : [];
  const changes = before ? changesBetween(before.body, worded.value.body) : [];
  const names = worded.value.clients.map(({ name }) => name);
  const samePeople =
    signers.length === names.length && signers.every((s) => worded.value.clients.some(({ partyId }) => partyId === s.partyId));
  const same = before !== null && before.body === worded.value.body && samePeople;
  const signed = signers.filter(({ signature, name }) => signature !== null && names.includes(name)).map(({ name }) => name);
  return accept({ first: before === null, same, changes, signers: names, signAgain: same ? [] : signed });
}

/** The gate of a visit, or null when there is no such visit. */
export const readGate = async (reader: Reader, visitId: string): Promise<GateNow | null> =>
  (await findVisitForGate(reader, visitId)) ? gateOf(reader, visitId) : null;
