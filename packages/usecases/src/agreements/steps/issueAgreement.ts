// Writes the agreement of a job from the text in force, names its signers and sends each a private link.
import { addressOwners, linkEnds, type Client } from '@backsight/domain/agreements/signers';
import { accept, type Outcome, type Warning } from '@backsight/domain/shared/outcome';
import { lockAgreementOfJob, newestAgreement, saveAgreement, saveSigner, signersOf, type SignerRow } from '@backsight/store/agreements';
import { staffAddresses, type JobForAgreement } from '@backsight/store/agreements/job';
import { openNeed, settleNeed } from '@backsight/store/jobs/markNeed';
import type { Work } from '../../run.ts';
import { agreementWords } from './agreementWords.ts';
import { newToken, sha256 } from './digest.ts';
import { sendLink } from './sendLink.ts';

export type IssuedAgreement = { agreementId: string; /** As it was worded for. */ job: JobForAgreement };

/**
 * Issues the agreement of a job, or answers the one that is there when its words would be the same and its signers are.
 * A link goes only to an address that is the client's own; else the office is asked first (a warning and an open need).
 * Refuses: no text in force, an unknown or still empty placeholder, no client, a client who is a minor.
 */
export async function issueAgreement(work: Work, input: { jobId: string; publicUrl: string }): Promise<Outcome<IssuedAgreement>> {
  await lockAgreementOfJob(work.tx, input.jobId);
  const [worded, before, staff] = await Promise.all([
    agreementWords(work.tx, input.jobId, work.now),
    newestAgreement(work.tx, input.jobId),
    staffAddresses(work.tx),
  ]);
  if (!worded.ok) return worded;
  const { job, clients, text, body } = worded.value;
  const digest = sha256(body);
  const known = before ? await signersOf(work.tx, before.id) : [];
  if (before?.sha256 === digest && samePeople(known, clients)) return accept({ agreementId: before.id, job });
  const agreementId = work.newId();
  await saveAgreement(work.tx, {
    id: agreementId,
    jobId: job.id,
    textId: text.id,
    body,
    sha256: digest,
    supersedesId: before?.id ?? null,
    at: work.now,
  });
  const warnings = await addSigners(work, { agreementId, job, clients, known, staff, publicUrl: input.publicUrl });
  await work.did('agreement', agreementId, {
    jobId: job.id,
    sha256: digest,
    textId: text.id,
    supersedes: before?.id ?? null,
    signers: clients.length,
  });
  return accept({ agreementId, job }, [...worded.warnings, ...warnings]);
}

const samePeople = (signers: readonly SignerRow[], clients: readonly Client[]): boolean =>
  signers.length === clients.length && clients.every((c) => signers.some((s) => s.partyId === c.partyId));

type NewSigners = {
  agreementId: string;
  job: JobForAgreement;
  clients: readonly Client[];
  known: readonly SignerRow[];
  staff: readonly Staff[];
  publicUrl: string;
};

async function addSigners(work: Work, s: NewSigners): Promise<Warning[]> {
  const ends = linkEnds(s.job.visit ? new Date(s.job.visit.endsAt) : null, work.now);
  const owners = ownersOf(s.staff, s.job, s.clients);
  for (const [at, client] of s.clients.entries()) {
    const own = owners[at]!.length === 0;
    const { token, tokenHash } = newToken();
    const id = work.newId();
    const earlier = s.known.find(({ partyId }) => partyId === client.partyId);
    const send = own && client.email !== null;
    await saveSigner(work.tx, {
      id,
      agreementId: s.agreementId,
      partyId: client.partyId,
      capacity: earlier?.capacity ?? 'self',
      authority: earlier?.authority ?? '',
      tokenHash,
      tokenEndsAt: ends,
      sentAt: send ? work.now : null,
      sharedAddress: !own,
      sharedWith: owners[at]!.join(', '),
      authoritySha256: earlier?.authoritySha256 ?? null,
    });
    if (send)
      await sendLink(work, {
        signerId: id,
        name: client.name,
        email: client.email!,
        token,
        publicUrl: s.publicUrl,
        job: s.job,
        why: 'issued',
      });
  }
  return askTheOffice(work, s.job, s.clients, owners);
}

type Staff = { name: string; email: string };

/** For each client, whose address theirs also is. */
export function ownersOf(people: readonly Staff[], job: JobForAgreement, clients: readonly Client[]): string[][] {
  const staff = people.map((p) => ({ ...p, as: 'works for the firm' }));
  const clientIds = new Set(clients.map(({ partyId }) => partyId));
  const others = job.parties
    .filter((p) => p.role !== 'client' && !clientIds.has(p.partyId))
    .map((p) => ({ name: p.name, email: p.email, as: p.role.replaceAll('_', ' ') }));
  return clients.map((client) => addressOwners(client, clients, [...others, ...staff]));
}

async function askTheOffice(work: Work, job: JobForAgreement, clients: readonly Client[], owners: readonly string[][]): Promise<Warning[]> {
  const reasons = clients.map((client, at) => {
    if (client.email === null) return `${client.name} has no e-mail address: ask for one, or take the signature on paper.`;
    return owners[at]!.length > 0
      ? `The address of ${client.name} is also that of ${owners[at]!.join(', ')}. Nothing was sent to it; ask the client for an address of their own.`
      : null;
  });
  const texts = reasons.filter((text) => text !== null);
  if (texts.length === 0) await settleNeed(work.tx, job.id, 'client_address', work.now, null);
  else
    await openNeed(work.tx, {
      id: work.newId(),
      jobId: job.id,
      kind: 'client_address',
      dueAt: new Date(work.now.getTime() + 2 * 3_600_000),
      details: { why: texts.join(' ') },
      at: work.now,
    });
  return texts.map((text) => ({ code: 'client-address', text }));
}
