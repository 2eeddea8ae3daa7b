// Calls about the photos and spoken notes of a site record.
import { photoRoutes as routes } from '@backsight/contract/sitework/photos';
import { base64Of } from '../ui/photo.ts';
import { addressOf, call } from './call.ts';
import { newId } from './ids.ts';
import type { KeptPhoto, KeptSpoken } from './phone/store.ts';

/** A large file over a poor signal takes minutes. */
const patience = (): AbortSignal => AbortSignal.timeout(300_000);

export async function sendFile(file: KeptPhoto | KeptSpoken, deviceId: string): Promise<void> {
  const { id, takenAt, seconds } = file;
  const original = await base64Of(file.original);
  const announced = { id, entryId: file.entryId!, takenAt, deviceId, sentAt: new Date().toISOString(), original };
  const sent = { params: { id: file.recordId }, signal: patience() };
  if (seconds !== undefined) await call(routes.addSpoken, { ...sent, body: { ...announced, seconds } });
  else
    await call(routes.add, {
      ...sent,
      body: { ...announced, name: file.name.slice(0, 200), jpeg: file.jpeg && (await base64Of(file.jpeg)) },
    });
}

/** A spoken note as it was recorded. @throws Error when it does not come */
export async function fetchSpoken(recordId: string, photoId: string): Promise<Blob> {
  const reply = await fetch(addressOf(routes.spoken.path, { id: recordId, photoId }), { credentials: 'same-origin' });
  if (!reply.ok) throw new Error('the spoken note did not come');
  return reply.blob();
}

export const photoAddress = (recordId: string, photoId: string, size: 'full' | 'small'): string =>
  addressOf(routes.copy.path, { id: recordId, photoId }, { size });

/** Says why an original is opened; answers the address under which it can be fetched for a while. */
export async function openOriginal({ recordId, photoId, reason }: { recordId: string; photoId: string; reason: string }): Promise<string> {
  const id = newId();
  await call(routes.open, { params: { id: recordId, photoId }, body: { id, reason }, key: id });
  return addressOf(routes.original.path, { id: recordId, photoId }, { opening: id });
}
