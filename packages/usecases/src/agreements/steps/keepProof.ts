// Keeps a photo or scan of a paper under its fingerprint: a signed agreement, or the paper that lets somebody sign for another.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { storeFile } from '@backsight/store/sitework/files';
import { noteFile } from '@backsight/store/sitework/report';
import { isPdf } from '../../sitework/steps/pdf.ts';
import type { Work } from '../../run.ts';

export type Upload = { name: string; base64: string };
const LARGEST = 15 * 1024 * 1024;

/** What a file is by its first bytes: JPEG (ITU-T T.81), PNG (ISO/IEC 15948), PDF (ISO 32000-1). */
export function mediaTypeOf(bytes: Buffer): 'image/jpeg' | 'image/png' | 'application/pdf' | null {
  if (bytes.subarray(0, 3).equals(Buffer.from([0xff, 0xd8, 0xff]))) return 'image/jpeg';
  if (bytes.subarray(0, 8).equals(Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]))) return 'image/png';
  return isPdf(bytes) ? 'application/pdf' : null;
}

/** Answers the SHA-256. Refuses what is neither picture nor PDF, and more than 15 MB ('paper-photo-kind'). */
export async function keepProof(work: Work, directory: string, file: Upload, field: string): Promise<Outcome<string>> {
  const bytes = Buffer.from(file.base64, 'base64');
  const mediaType = mediaTypeOf(bytes);
  if (mediaType === null || bytes.length > LARGEST) return refuse('paper-photo-kind', {}, field);
  const sha256 = await storeFile(directory, bytes);
  await noteFile(work.tx, { sha256, mediaType, bytes: bytes.length, name: file.name, at: work.now });
  return accept(sha256);
}
