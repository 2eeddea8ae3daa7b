// A photo made small enough to be kept on the phone and sent later.

const LONGEST_SIDE = 1800;

/** A picture as a JPEG of at most 1800 points a side, in base64; any other file as it is. */
export async function smallPhoto(file: File): Promise<{ name: string; base64: string }> {
  if (!file.type.startsWith('image/')) return { name: file.name, base64: await base64Of(file) };
  const picture = await createImageBitmap(file);
  const scale = Math.min(1, LONGEST_SIDE / Math.max(picture.width, picture.height));
  const canvas = document.createElement('canvas');
  canvas.width = Math.round(picture.width * scale);
  canvas.height = Math.round(picture.height * scale);
  canvas.getContext('2d')!.drawImage(picture, 0, 0, canvas.width, canvas.height);
  const small = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/jpeg', 0.75));
  return { name: `${file.name.replace(/\.\w+$/, '')}.jpg`, base64: await base64Of(small ?? file) };
}

export const base64Of = (blob: Blob): Promise<string> =>
  new Promise((resolve, reject) => {
    const reader = new FileReader();
    reader.addEventListener('load', () => resolve(String(reader.result).split(',')[1] ?? ''));
    reader.addEventListener('error', () => reject(new Error('the file could not be read')));
    reader.readAsDataURL(blob);
  });
