// Whether an uploaded file can be a report: a PDF of bearable size.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';

export const LARGEST_REPORT = 15 * 1024 * 1024;

/** Decodes the upload. A PDF begins with "%PDF-" (ISO 32000-1, 7.5.2), at the latest within its first 1024 bytes. */
export function pdfOf(base64: string): Outcome<Buffer> {
  const bytes = Buffer.from(base64, 'base64');
  if (bytes.length > LARGEST_REPORT) return refuse('file-too-large', {}, 'file.base64');
  return bytes.subarray(0, 1024).includes('%PDF-') ? accept(bytes) : refuse('file-not-pdf', {}, 'file.base64');
}
