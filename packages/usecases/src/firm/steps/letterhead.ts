// The head of the firm's papers.
import { DateTime } from 'luxon';
import type { PdfPaper } from '@backsight/documents/pdf/content';
import type { Reader } from '@backsight/store/database';
import { findFirm } from '@backsight/store/firm';
import { licensesForPaper } from '@backsight/store/firm/letterhead';

/** Size of the paper, name, address, phone, and the license numbers of the job's pair (without a job: of those who may lead) on the day of `at`. */
export async function letterhead(
  reader: Reader,
  at: Date,
  jobId: string | null,
): Promise<Pick<PdfPaper, 'firm' | 'firmLines' | 'at' | 'size'>> {
  const firm = (await findFirm(reader))!;
  const day = DateTime.fromJSDate(at, { zone: firm.zone }).toISODate()!;
  const licenses = (await licensesForPaper(reader, jobId, day)).map(({ name, number }) => `${name} ${number}`);
  return {
    at,
    size: firm.paperSize,
    firm: firm.name,
    firmLines: [
      firm.address,
      `${firm.phone}, ${firm.email}`,
      ...(licenses.length > 0 ? [`Licensed home inspectors: ${licenses.join('; ')}`] : []),
    ],
  };
}
