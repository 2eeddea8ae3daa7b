// The agreement as a PDF for reading before it is signed, with the word by which a signer shows that the file could be opened.
import { agreementBlocks } from '@backsight/documents/papers/agreement';
import { pdfOf } from '@backsight/documents/pdf/write';
import { formatWord } from '@backsight/domain/agreements/signing';
import type { AgreementRow, SignerRow } from '@backsight/store/agreements';
import { findJobForAgreement } from '@backsight/store/agreements/job';
import type { Reader } from '@backsight/store/database';
import { findFirm } from '@backsight/store/firm';
import { instantWords, namesOn } from './agreementPaper.ts';

export async function readingCopy(reader: Reader, agreement: AgreementRow, signer: SignerRow): Promise<Uint8Array> {
  const [firm, job] = [(await findFirm(reader))!, (await findJobForAgreement(reader, agreement.jobId))!];
  return pdfOf({
    title: agreement.title,
    at: agreement.issuedAt,
    size: firm.paperSize,
    firm: firm.name,
    firmLines: [firm.address, `${firm.phone}, ${firm.email}`],
    foot: `SHA-256 of the words: ${agreement.sha256}`,
    blocks: [
      {
        kind: 'notice',
        words: `Your word is ${formatWord(agreement.sha256, signer.id)}. Type it on the signing page: it shows that you can open papers like this one.`,
      },
      ...agreementBlocks({
        job: agreement.jobNumber,
        clients: await namesOn(reader, agreement, job),
        address: job.address,
        issuedAt: instantWords(agreement.issuedAt, job.zone),
        body: agreement.body,
      }),
    ],
  });
}
