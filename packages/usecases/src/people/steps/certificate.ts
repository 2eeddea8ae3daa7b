// Whether an uploaded file can be a certificate: a PDF, a JPEG or a PNG of bearable size, told by its first bytes.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';

const LARGEST = 8 * 1024 * 1024;

/** Signatures: ISO 32000-1, 7.5.2; ITU-T T.81, B.1.1.3; ISO/IEC 15948, 5.2. */
const KINDS: readonly (readonly [mediaType: string, signature: Buffer])[] = [
  ['application/pdf', Buffer.from('%PDF-')],
  ['image/jpeg', Buffer.from([0xff, 0xd8, 0xff])],
  ['image/png', Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a])],
];

/** Decodes the upload. */
export function certificateOf(base64: string): Outcome<{ bytes: Buffer; mediaType: string }> {
  const bytes = Buffer.from(base64, 'base64');
  if (bytes.length > LARGEST) return refuse('certificate-too-large', {}, 'file.base64');
  const kind = KINDS.find(([, signature]) => bytes.subarray(0, signature.length).equals(signature));
  return kind ? accept({ bytes, mediaType: kind[0] }) : refuse('certificate-kind', {}, 'file.base64');
}
