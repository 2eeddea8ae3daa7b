// Whether an uploaded file can be a report: a PDF of bearable size.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';

export const LARGEST_REPORT = 15 * 1024 * 1024;

/**
 * Whether a file is a PDF: "%PDF-" (ISO 32000-1, 7.5.2) within the first 1024 bytes, where scanners put a few of their own before it; a page that
 * holds one is none.
 */
export function isPdf(bytes: Buffer): boolean {
  const at = bytes.subarray(0, 1024).indexOf('%PDF-');
  return at >= 0 && !bytes.subarray(0, at).includes('<');
}

/** Decodes the upload. */
export function pdfOf(base64: string): Outcome<Buffer> {
  const bytes = Buffer.from(base64, 'base64');
  if (bytes.length > LARGEST_REPORT) return refuse('file-too-large', {}, 'file.base64');
  return isPdf(bytes) ? accept(bytes) : refuse('file-not-pdf', {}, 'file.base64');
}
