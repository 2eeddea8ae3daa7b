// Calls about the photos of a site record.
import { photoRoutes as routes } from '@backsight/contract/sitework/photos';
import { base64Of } from '../ui/photo.ts';
import { addressOf, call } from './call.ts';
import { newId } from './ids.ts';
import type { KeptPhoto } from './phone/store.ts';

/** A large file over a poor signal takes minutes. */
const patience = (): AbortSignal => AbortSignal.timeout(300_000);

export async function sendPhoto(photo: KeptPhoto, deviceId: string): Promise<void> {
  const [original, jpeg] = [await base64Of(photo.original), photo.jpeg && (await base64Of(photo.jpeg))];
  const { id, takenAt, name } = photo;
  await call(routes.add, {
    params: { id: photo.recordId },
    body: { id, entryId: photo.entryId!, takenAt, name: name.slice(0, 200), deviceId, sentAt: new Date().toISOString(), original, jpeg },
    signal: patience(),
  });
}

export const photoAddress = (recordId: string, photoId: string, size: 'full' | 'small'): string =>
  addressOf(routes.copy.path, { id: recordId, photoId }, { size });

/** Says why an original is opened; answers the address under which it can be fetched for a while. */
export async function openOriginal({ recordId, photoId, reason }: { recordId: string; photoId: string; reason: string }): Promise<string> {
  const id = newId();
  await call(routes.open, { params: { id: recordId, photoId }, body: { id, reason }, key: id });
  return addressOf(routes.original.path, { id: recordId, photoId }, { opening: id });
}
