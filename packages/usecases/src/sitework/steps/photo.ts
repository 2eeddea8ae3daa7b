// Whether an uploaded file is a photo of bearable size.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';

const LARGEST = 8 * 1024 * 1024;
const JPEG = Buffer.from([0xff, 0xd8, 0xff]);
const PNG = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);

/** Decodes the upload. JPEG begins with FF D8 FF (ITU-T T.81, annex B), PNG with its eight-byte signature (ISO/IEC 15948, 5.2). */
export function photoOf(base64: string): Outcome<{ bytes: Buffer; mediaType: string }> {
  const bytes = Buffer.from(base64, 'base64');
  if (bytes.length > LARGEST) return refuse('photo-too-large', {}, 'photo.base64');
  if (bytes.subarray(0, 3).equals(JPEG)) return accept({ bytes, mediaType: 'image/jpeg' });
  return bytes.subarray(0, 8).equals(PNG) ? accept({ bytes, mediaType: 'image/png' }) : refuse('photo-not-an-image', {}, 'photo.base64');
}
