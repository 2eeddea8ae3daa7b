// What is in the file of a spoken note: its kind by its bytes, and that it is a sound and no film.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';

const MOST_MEGABYTES = 2;
export const SOUND_KINDS = { webm: 'audio/webm', mp4: 'audio/mp4', ogg: 'audio/ogg' } as const;
type SoundKind = keyof typeof SOUND_KINDS;

const EBML = Buffer.from([0x1a, 0x45, 0xdf, 0xa3]);

/** Whether a box "hdlr" of this kind stands in the file: its type follows eight bytes after the name (ISO/IEC 14496-12, 8.4.3). */
function hasHandler(bytes: Buffer, kind: 'soun' | 'vide'): boolean {
  for (let at = bytes.indexOf('hdlr'); at >= 0; at = bytes.indexOf('hdlr', at + 4))
    if (bytes.toString('latin1', at + 12, at + 16) === kind) return true;
  return false;
}

/**
 * WebM: the EBML header (RFC 8794, 11.2.4) with DocType "webm", a track whose CodecID begins with "A_" and none with "V_" (RFC 9559, 27.5).
 * MP4: a file type box, then a handler "soun" and none "vide". Ogg: "OggS" (RFC 3533, 6) with an Opus or Vorbis head in its first page
 * (RFC 7845, 5.1). Null for anything else, and for films.
 */
export function soundKind(bytes: Buffer): SoundKind | null {
  if (bytes.length < 64) return null;
  const head = bytes.subarray(0, 4096);
  if (head.subarray(0, 4).equals(EBML) && head.subarray(0, 64).includes('webm'))
    return /A_(OPUS|VORBIS|AAC)/.test(head.toString('latin1')) && !/V_[A-Z]/.test(head.toString('latin1')) ? 'webm' : null;
  if (head.toString('latin1', 4, 8) === 'ftyp') return hasHandler(bytes, 'soun') && !hasHandler(bytes, 'vide') ? 'mp4' : null;
  const ogg = head.toString('latin1', 0, 4) === 'OggS' && /^(OpusHead|\u0001vorbis)/.test(head.toString('latin1', 28, 36));
  return ogg ? 'ogg' : null;
}

/** Reads an upload in base64. Refusals: spoken-too-large, spoken-not-a-sound. */
export function readSound(base64: string): Outcome<{ bytes: Buffer; mediaType: string }> {
  const bytes = Buffer.from(base64, 'base64');
  if (bytes.length > MOST_MEGABYTES * 1024 * 1024) return refuse('spoken-too-large', { most: MOST_MEGABYTES }, 'original');
  const kind = soundKind(bytes);
  return kind === null ? refuse('spoken-not-a-sound', {}, 'original') : accept({ bytes, mediaType: SOUND_KINDS[kind] });
}
