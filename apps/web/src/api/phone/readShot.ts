// Reads a file that was taken as a photo: whether this browser can show it, a small one for the screen, and a JPEG where it is HEIC.

/** The service takes no larger file. */
const MOST = 25 * 1024 * 1024;
const SMALL_SIDE = 320;
const JPEG_SIDE = 2000;

/** The small picture, and the JPEG of a HEIC file; or what is wrong, in words. */
export async function readShot(file: File): Promise<{ small: Blob; jpeg: Blob | null } | string> {
  if (file.size > MOST) return 'This file has more than 25 MB. Take the photo in a smaller size.';
  const picture = await createImageBitmap(file).catch(() => null);
  if (picture === null)
    return 'This browser cannot read this file as a photo. Set the camera to JPEG ("most compatible") and take it again.';
  const small = await drawn(picture, SMALL_SIDE);
  const jpeg = (await isHeic(file)) ? await drawn(picture, JPEG_SIDE) : null;
  picture.close();
  return small === null ? 'This phone could not make a picture of this file. Take it again.' : { small, jpeg };
}

/** A file type box at its head (ISO/IEC 14496-12); what is no picture was not read before. */
const isHeic = async (file: Blob): Promise<boolean> => (await file.slice(4, 8).text()) === 'ftyp';

function drawn(picture: ImageBitmap, side: number): Promise<Blob | null> {
  const scale = Math.min(1, side / Math.max(picture.width, picture.height));
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(picture.width * scale));
  canvas.height = Math.max(1, Math.round(picture.height * scale));
  canvas.getContext('2d')!.drawImage(picture, 0, 0, canvas.width, canvas.height);
  return new Promise((done) => canvas.toBlob(done, 'image/jpeg', 0.85));
}
