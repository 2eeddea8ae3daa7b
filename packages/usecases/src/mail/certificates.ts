// The insurer's certificate: put on file for a policy, and sent to somebody on a job in one act.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import { listPolicies } from '@backsight/store/firm/authority';
import { findJobForAgreement } from '@backsight/store/agreements/job';
import { listCertificates, saveCertificate } from '@backsight/store/mail/certificates';
import { readStoredFile, storeFile } from '@backsight/store/sitework/files';
import { noteFile } from '@backsight/store/sitework/report';
import { localDay } from '../firm/steps/localDay.ts';
import { certificateOf } from '../people/steps/certificate.ts';
import type { Act, Work } from '../run.ts';
import { sendLetter } from './steps/letter.ts';

export type CertificateInput = { id: string; policyId: string; file: { name: string; base64: string }; directory: string };

/** Refusals: certificate-kind, certificate-too-large. */
export const addCertificate: Act<CertificateInput, { id: string }> = { operation: 'mail.add-certificate', run: add };

async function add(work: Work, { id, policyId, file, directory }: CertificateInput): Promise<Outcome<{ id: string }>> {
  if (work.actor.kind !== 'person') return refuse('not-allowed');
  if (!(await listPolicies(work.tx)).some((policy) => policy.id === policyId)) return refuse('not-found', { thing: 'policy' });
  const certificate = certificateOf(file.base64);
  if (!certificate.ok) return certificate;
  const { bytes, mediaType } = certificate.value;
  const sha256 = await storeFile(directory, bytes);
  await noteFile(work.tx, { sha256, bytes: bytes.length, name: file.name, mediaType, at: work.now });
  await saveCertificate(work.tx, { id, policyId, fileSha256: sha256, recordedBy: work.actor.id, recordedAt: work.now });
  await work.did('policy', policyId, { certificateId: id, sha256 });
  return accept({ id });
}

/** The policies to choose from, without their amounts and terms: those that have not ended, the newest first. */
export async function readInsuredBy(reader: Reader, now: Date) {
  const { today } = await localDay(reader, now);
  return (await listPolicies(reader))
    .filter(({ endsOn }) => endsOn >= today)
    .map(({ id, kind, insurer, number }) => ({ id, kind: kind as 'professional' | 'general', insurer, number }));
}

/** The newest certificate of each policy. */
export const readCertificates = async (reader: Reader) =>
  (await listCertificates(reader, null)).map(({ sha256: _, mediaType: __, recordedAt, ...row }) => ({
    ...row,
    recordedAt: recordedAt.toISOString(),
  }));

/** The file of one. */
export async function readCertificateFile(reader: Reader, id: string, directory: string) {
  const found = (await listCertificates(reader, null)).find((row) => row.id === id);
  if (!found) return refuse('not-found', { thing: 'certificate' });
  return accept({ bytes: await readStoredFile(directory, found.sha256), name: found.name, mediaType: found.mediaType });
}

/** Sends the certificates of every policy in force today. Refusals: mail-no-address, certificate-missing. */
export const sendCertificate: Act<{ jobId: string; partyId: string }, { sent: number }> = { operation: 'mail.send-certificate', run: send };

async function send(work: Work, { jobId, partyId }: { jobId: string; partyId: string }): Promise<Outcome<{ sent: number }>> {
  const job = await findJobForAgreement(work.tx, jobId);
  const party = job?.parties.find((one) => one.partyId === partyId);
  if (!job || !party) return refuse('not-found', { thing: 'person on this job' });
  if (party.email === null) return refuse('mail-no-address', { name: party.name }, 'partyId');
  const { today } = await localDay(work.tx, work.now);
  const files = await listCertificates(work.tx, today);
  if (files.length === 0) return refuse('certificate-missing');
  await sendLetter(work, {
    kind: 'certificate',
    messageKey: `certificate:${jobId}:${partyId}:${work.newId()}`,
    to: { name: party.name, email: party.email },
    values: {
      address: job.address,
      job: String(job.number),
      firm: job.firm,
      firm_phone: job.firmPhone,
      policies: files.map(({ policy }) => policy).join('; '),
    },
    about: { kind: 'job', id: jobId },
    urgent: true,
    attachments: files.map(({ sha256, name }) => ({ sha256, name })),
  });
  await work.did('job', jobId, { certificateTo: partyId, certificates: files.map(({ id }) => id) });
  return accept({ sent: files.length });
}
