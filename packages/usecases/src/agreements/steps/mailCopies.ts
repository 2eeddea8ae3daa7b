// After the last signature everybody who signed gets the signed agreement, and the firm keeps its copy.
import { wantsPaper } from '@backsight/domain/agreements/signers';
import type { AgreementRow, SignerRow } from '@backsight/store/agreements';
import { findSealedPaper } from '@backsight/store/agreements/sealed';
import { findFirm } from '@backsight/store/firm';
import type { Attached } from '@backsight/store/mail';
import { storeFile } from '@backsight/store/sitework/files';
import { noteFile } from '@backsight/store/sitework/report';
import { sendLetter } from '../../mail/steps/letter.ts';
import type { Work } from '../../run.ts';

/** Words of a mail, without the marks of headings and of what stands out. */
const plain = (words: string): string => words.replaceAll('**', '').replaceAll(/^#+ +/gm, '');

/** The sealed file goes along where the service keeps files; whoever wants paper gets no mail. */
export async function mailCopies(
  work: Work,
  agreement: AgreementRow,
  signers: readonly SignerRow[],
  directory: string | null,
): Promise<void> {
  const attachments = directory === null ? [] : await sealedFile(work, agreement.id, directory);
  const about = { kind: 'job', id: agreement.jobId };
  const signed = signers.filter(({ signature }) => signature !== null);
  const key = `${agreement.id}:${signed.length}`;
  const what = agreement.remedyId === null ? 'agreement' : 'settlement release';
  for (const signer of signers.filter((s) => s.email !== null && !wantsPaper(s)))
    await sendLetter(work, {
      kind: 'signed_copy',
      messageKey: `signed-copy:${key}:${signer.id}`,
      to: { name: signer.name, email: signer.email! },
      values: { job: String(agreement.jobNumber), paper: what, agreement: plain(agreement.body), fingerprint: agreement.sha256 },
      about,
      urgent: true,
      attachments,
    });
  const firm = await findFirm(work.tx);
  if (!firm?.email) return;
  await work.mail({
    messageKey: `firm-copy:${key}`,
    toAddress: firm.email,
    toName: firm.name,
    subject: `Signed ${what} of job ${agreement.jobNumber}`,
    body: [
      `The ${what} of job ${agreement.jobNumber} is signed by ${signed.map(({ name }) => name).join(' and ')}.`,
      `Fingerprint of the words (SHA-256): ${agreement.sha256}`,
    ].join('\n\n'),
    aboutKind: about.kind,
    aboutId: about.id,
    attachments,
  });
}

async function sealedFile(work: Work, agreementId: string, directory: string): Promise<Attached[]> {
  const paper = await findSealedPaper(work.tx, { agreementId });
  if (!paper) return [];
  const bytes = Buffer.from(paper.content);
  const sha256 = await storeFile(directory, bytes);
  await noteFile(work.tx, { sha256, mediaType: 'application/pdf', bytes: bytes.length, name: paper.name, at: work.now });
  return [{ sha256, name: paper.name }];
}
