// The agreement of a job as a PDF, unsigned or with the record of its signing.
import { createHash } from 'node:crypto';
import { DateTime } from 'luxon';
import { agreementBlocks, signingRecord } from '@backsight/documents/papers/agreement';
import type { PdfPaper } from '@backsight/documents/pdf/content';
import { pdfOf } from '@backsight/documents/pdf/write';
import { signersOf, type AgreementRow } from '@backsight/store/agreements';
import { findJobForAgreement, type JobForAgreement } from '@backsight/store/agreements/job';
import { proofsOf, type ProofRow } from '@backsight/store/agreements/sealed';
import type { Reader } from '@backsight/store/database';
import { findFirm } from '@backsight/store/firm';

/** An instant in words with its zone, and in UTC. */
export function instantWords(at: Date, zone: string): string {
  const local = DateTime.fromJSDate(at, { zone }).setLocale('en-US');
  return `${local.toFormat('LLLL d, yyyy, h:mm:ss a ZZZZ')} (${local.toUTC().toISO()})`;
}

/** What its file is called, before the ending. */
export const fileOf = ({ remedyId, jobNumber }: AgreementRow): string =>
  `${remedyId === null ? 'agreement' : 'settlement-release'}-job-${jobNumber}`;

/** Whom it names: the clients of the job, or those who settle. */
export const namesOn = async (reader: Reader, agreement: AgreementRow, job: JobForAgreement): Promise<string[]> =>
  agreement.remedyId === null
    ? job.parties.filter(({ role }) => role === 'client').map(({ name }) => name)
    : (await signersOf(reader, agreement.id)).map(({ name }) => name);

export const sha256OfBytes = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

const pairLine = ({ visit }: JobForAgreement): string[] => {
  const named = (visit?.pair ?? []).map(({ name, license }) => (license ? `${name}, license ${license}` : name));
  return named.length > 0 ? [`Inspectors: ${named.join('; ')}`] : [];
};

/** `sealedAt` is given for the signed paper, which then ends with the signing record. */
export async function agreementPdf(reader: Reader, agreement: AgreementRow, sealedAt: Date | null): Promise<Uint8Array> {
  const [firm, job] = [(await findFirm(reader))!, (await findJobForAgreement(reader, agreement.jobId))!];
  const proofs = sealedAt ? await proofsOf(reader, agreement.id) : [];
  const issuedAt = instantWords(agreement.issuedAt, job.zone);
  const blocks = agreementBlocks({
    job: agreement.jobNumber,
    clients: await namesOn(reader, agreement, job),
    address: job.address,
    issuedAt,
    body: agreement.body,
  });
  const record = sealedAt
    ? signingRecord({
        title: agreement.title,
        sha256: agreement.sha256,
        issuedAt,
        sealedAt: instantWords(sealedAt, job.zone),
        consentText: agreement.consentText,
        proofs: proofs.map((proof) => proofWords(proof, job.zone)),
      })
    : [];
  const paper: PdfPaper = {
    title: sealedAt ? `${agreement.title}, signed` : agreement.title,
    at: sealedAt ?? agreement.issuedAt,
    size: firm.paperSize,
    firm: firm.name,
    firmLines: [firm.address, `${firm.phone}, ${firm.email}`, ...(agreement.remedyId === null ? pairLine(job) : [])],
    foot: `SHA-256 of the words: ${agreement.sha256}`,
    attached: [
      { name: 'agreement.txt', says: 'The words of the agreement, exactly as shown', bytes: new TextEncoder().encode(agreement.body) },
    ],
    blocks: [...blocks, ...record],
  };
  return pdfOf(paper);
}

const proofWords = ({ happenedAt, recordedAt, ...proof }: ProofRow, zone: string) => ({
  ...proof,
  signedAt: instantWords(happenedAt, zone),
  recordedAt: instantWords(recordedAt, zone),
});
