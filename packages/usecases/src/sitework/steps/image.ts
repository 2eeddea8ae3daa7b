// What is in the file of a photo: its kind by its bytes, where it was taken, and the copy without anything but the picture.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { Place } from '@backsight/domain/sitework/nearby';

/** The libraries are loaded with the first picture. */
const pictures = async () => (await import('sharp')).default;

const MEGABYTE = 1024 * 1024;
export const MOST_MEGABYTES = 25;
/** More points than any phone's picture of today has in its usual setting; a small file can claim any number. */
const MOST_MILLION_POINTS = 120;
/** Long side of the copy in points: a data plate stays readable. */
const COPY_SIDE = 2000;

export const IMAGE_KINDS = { jpeg: 'image/jpeg', png: 'image/png', webp: 'image/webp', heic: 'image/heic' } as const;
type ImageKind = keyof typeof IMAGE_KINDS;

const HEIC_BRANDS = ['heic', 'heix', 'hevc', 'heim', 'heis', 'mif1', 'msf1'];

/**
 * By the first bytes: JPEG FF D8 FF (ITU-T T.81, annex B), PNG its eight-byte signature (ISO/IEC 15948, 5.2), WebP "RIFF....WEBP" (RFC 9649,
 * 2.4), HEIC a file type box with one of its brands (ISO/IEC 23008-12, annex B). Null for anything else.
 */
export function imageKind(bytes: Buffer): ImageKind | null {
  const ascii = (from: number, to: number): string => bytes.toString('latin1', from, to);
  if (bytes.length < 16) return null;
  if (bytes[0] === 0xff && bytes[1] === 0xd8 && bytes[2] === 0xff) return 'jpeg';
  if (bytes.subarray(0, 8).equals(Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]))) return 'png';
  if (ascii(0, 4) === 'RIFF' && ascii(8, 12) === 'WEBP') return 'webp';
  return ascii(4, 8) === 'ftyp' && HEIC_BRANDS.includes(ascii(8, 12)) ? 'heic' : null;
}

/** What exifr gives of the GPS directory (tag 0x8825, EXIF 2.32, CIPA DC-008, 4.6.6); GPSHPositioningError is in metres. */
type Gps = { latitude?: number; longitude?: number; GPSHPositioningError?: number };
const isDegrees = (value: unknown, most: number): value is number => typeof value === 'number' && Math.abs(value) <= most;

/** Where the picture says that it was taken, in degrees and metres; null where it says nothing that can be a place. */
export async function positionIn(bytes: Buffer): Promise<(Place & { accuracy: number }) | null> {
  const { default: exifr } = await import('exifr');
  const read = imageKind(bytes) === 'webp' ? exifBlock(bytes) : Promise.resolve(bytes);
  const gps: Gps | undefined = await read
    .then((block) =>
      block === null ? undefined : (exifr.parse(block, { gps: true, tiff: true, mergeOutput: true }) as Promise<Gps | undefined>),
    )
    .catch(() => undefined);
  if (!gps || !isDegrees(gps.latitude, 90) || !isDegrees(gps.longitude, 180)) return null;
  if (gps.latitude === 0 && gps.longitude === 0) return null; // written by cameras that had no fix
  const accuracy = gps.GPSHPositioningError;
  return { lat: gps.latitude, lon: gps.longitude, accuracy: typeof accuracy === 'number' && accuracy > 0 ? accuracy : 0 };
}

/** The EXIF block of a file of which exifr does not know the kind: without the six bytes "Exif" before it. */
const exifBlock = async (bytes: Buffer): Promise<Buffer | null> => {
  const { exif } = await (await pictures())(bytes).metadata();
  return exif ? (exif.toString('latin1', 0, 4) === 'Exif' ? exif.subarray(6) : exif) : null;
};

const sizeOk = async (bytes: Buffer): Promise<Outcome<null>> => {
  const { width, height } = await (await pictures())(bytes, { limitInputPixels: false }).metadata();
  return width * height > MOST_MILLION_POINTS * 1e6
    ? refuse('site-photo-too-many-points', { most: MOST_MILLION_POINTS }, 'original')
    : accept(null);
};

/** Whether anything stands in the file besides the picture: EXIF, XMP, IPTC or words. */
export async function saysMore(bytes: Buffer): Promise<boolean> {
  const { exif, xmp, iptc, comments } = await (await pictures())(bytes).metadata();
  return exif !== undefined || xmp !== undefined || iptc !== undefined || (comments?.length ?? 0) > 0;
}

/** A JPEG of at most `side` points a side, upright, without a position or anything else about how it was taken. */
export const smaller = async (bytes: Buffer, side: number): Promise<Buffer> =>
  (await pictures())(bytes, { limitInputPixels: MOST_MILLION_POINTS * 1e6 })
    .rotate()
    .resize({ width: side, height: side, fit: 'inside', withoutEnlargement: true })
    .flatten({ background: '#ffffff' })
    .jpeg({ quality: 82 })
    .toBuffer();

export type ReadImage = { original: Buffer; mediaType: string; copy: Buffer };

/**
 * Reads an upload: the original as it was taken, and the copy made from it here. HEIC is not decoded here, so that its copy is made from the
 * JPEG that the phone sends with it. Refusals: site-photo-not-an-image, site-photo-too-large, site-photo-too-many-points,
 * site-photo-unreadable, site-photo-heic-alone.
 */
export async function readImage(given: { original: string; jpeg: string | null }): Promise<Outcome<ReadImage>> {
  const original = Buffer.from(given.original, 'base64');
  if (original.length > MOST_MEGABYTES * MEGABYTE) return refuse('site-photo-too-large', { most: MOST_MEGABYTES }, 'original');
  const kind = imageKind(original);
  if (kind === null) return refuse('site-photo-not-an-image', {}, 'original');
  const source = kind === 'heic' ? Buffer.from(given.jpeg ?? '', 'base64') : original;
  if (kind === 'heic' && imageKind(source) !== 'jpeg') return refuse('site-photo-heic-alone', {}, 'jpeg');
  try {
    const size = await sizeOk(source);
    if (!size.ok) return size;
    const copy = await smaller(source, COPY_SIDE);
    if (await saysMore(copy)) throw new Error('a copy holds more than its picture');
    return accept({ original, mediaType: IMAGE_KINDS[kind], copy });
  } catch {
    return refuse('site-photo-unreadable', {}, 'original');
  }
}
