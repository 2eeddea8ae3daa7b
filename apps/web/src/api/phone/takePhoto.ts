// Takes a file in as a photo of a place of the record.
import { newId } from '../ids.ts';
import { keepFile } from './photos.ts';
import { readShot } from './readShot.ts';

export type TakenAt = { personId: string; recordId: string; place: string };

/** Keeps a file as a photo of this place. Answers what is wrong with it, in words; null when it is kept. @throws when the phone's store is full */
export async function takePhoto(file: File, at: TakenAt): Promise<string | null> {
  const shot = await readShot(file);
  if (typeof shot === 'string') return shot;
  await keepFile({
    ...at,
    ...shot,
    id: newId(),
    entryId: null,
    takenAt: new Date().toISOString(),
    name: file.name || 'photo',
    original: file,
    state: 'taken',
  });
  return null;
}
