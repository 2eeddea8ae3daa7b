// Photos that come with a callback, from the office or by the client's link: the same reading and the same copy as for photos of a site record.
import { mayAddPhoto } from '@backsight/domain/callbacks/clientReport';
import type { Role } from '@backsight/domain/people/roles';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { findCallback, lockCallback, type CallbackRow } from '@backsight/store/callbacks';
import { countPhotos, findCallbackPhoto, photosOfCallback, saveCallbackPhoto } from '@backsight/store/callbacks/photos';
import type { Reader } from '@backsight/store/database';
import { storeFile } from '@backsight/store/sitework/files';
import { mediaTypeOf } from '@backsight/store/sitework/photos';
import { noteFile } from '@backsight/store/sitework/report';
import type { Act, Actor, Runner, Work } from '../run.ts';
import { readImage } from '../sitework/steps/image.ts';
import { fileOf, smallCopy } from '../sitework/steps/photoFiles.ts';
import { actorId, isOwner, record, rolesOf, withCallback } from './steps/callback.ts';

/** `original` and `jpeg` in base64; `jpeg` comes with HEIC alone. */
type Given = { id: string; name: string; original: string; jpeg: string | null };
type File = { sha256: string; bytes: number; mediaType: string };
type Stored = { callbackId: string; id: string; name: string; original: File; copy: File };

/** Reads the file and puts original and copy on the disk, outside any transaction. Refusals: those of `mayAddPhoto` and `readImage`. */
async function store(
  reader: Reader,
  callback: CallbackRow,
  given: Given,
  at: { directory: string; byClient: boolean },
): Promise<Outcome<Stored>> {
  const known = await findCallbackPhoto(reader, given.id);
  const may = known
    ? accept(null)
    : mayAddPhoto({ state: callback.state, count: await countPhotos(reader, callback.id), byClient: at.byClient });
  if (!may.ok) return may;
  const image = await readImage(given);
  if (!image.ok) return image;
  const { original, copy, mediaType } = image.value;
  return accept({
    ...{ callbackId: callback.id, id: given.id, name: given.name },
    original: { sha256: await storeFile(at.directory, original), bytes: original.length, mediaType },
    copy: { sha256: await storeFile(at.directory, copy), bytes: copy.length, mediaType: 'image/jpeg' },
  });
}

/** On the locked callback, so that the limit holds. Sent again it changes nothing. Refusals: photo-id-used and those of `mayAddPhoto`. */
async function keep(work: Work, callback: CallbackRow, photo: Stored): Promise<Outcome<{ id: string }>> {
  const before = await findCallbackPhoto(work.tx, photo.id);
  if (before) {
    if (before.callbackId !== callback.id || before.originalSha256 !== photo.original.sha256) return refuse('photo-id-used', {}, 'id');
    await work.did('callback', callback.id, { photo: photo.id, again: true });
    return accept({ id: photo.id });
  }
  const byClient = work.actor.kind === 'client';
  const may = mayAddPhoto({ state: callback.state, count: await countPhotos(work.tx, callback.id), byClient });
  if (!may.ok) return may;
  for (const [file, name] of [[photo.original, photo.name] as const, [photo.copy, 'copy.jpg'] as const])
    await noteFile(work.tx, { ...file, name, at: work.now });
  const { id, name, original, copy } = photo;
  await saveCallbackPhoto(work.tx, {
    ...{ id, name, callbackId: callback.id, originalSha256: original.sha256, copySha256: copy.sha256 },
    ...{ addedBy: actorId(work.actor), recordedAt: work.now },
  });
  const noted = await record(work, callback, {
    kind: 'photo_added',
    state: callback.state,
    details: { photo: id, sha256: original.sha256 },
  });
  return noted.ok ? accept({ id }) : noted;
}

export const addCallbackPhoto: Act<Stored, { id: string }> = {
  operation: 'callbacks.add-photo',
  run: (work, photo) => withCallback(work, photo.callbackId, (callback) => keep(work, callback, photo)),
};

const addOwnPhoto: Act<Stored, { id: string }> = {
  operation: 'callbacks.report-photo',
  run: async (work, photo) => {
    const callback = await lockCallback(work.tx, photo.callbackId);
    return callback ? keep(work, callback, photo) : refuse('not-found', { thing: 'report' });
  },
};

/** A photo that the office adds, put on the disk. Refusals: not-found, those of `store`. */
export async function storeCallbackPhoto(
  reader: Reader,
  input: Given & { callbackId: string; directory: string; actor: Actor },
): Promise<Outcome<Stored>> {
  const callback = await seen(reader, input.callbackId, rolesOf(input.actor));
  if (!callback) return refuse('not-found', { thing: 'callback' });
  return store(reader, callback, input, { directory: input.directory, byClient: false });
}

type OwnPhoto = Given & { reportId: string; whose: { jobId: string; partyId: string }; directory: string };

/** A photo for a report that the client of a link made on the job of that link. Refusals: not-found, those of `store`. */
export async function addPhotoAsClient(
  parts: { reader: Reader; runner: Runner },
  { reportId, whose, directory, ...given }: OwnPhoto,
): Promise<Outcome<{ id: string }>> {
  const callback = await findCallback(parts.reader, reportId);
  const own = callback?.jobId === whose.jobId && callback.partyId === whose.partyId;
  if (!own) return refuse('not-found', { thing: 'report' }, 'reportId');
  const stored = await store(parts.reader, callback, given, { directory, byClient: true });
  if (!stored.ok) return stored;
  return parts.runner.run(addOwnPhoto, stored.value, { actor: { kind: 'client', id: whose.partyId } });
}

const seen = async (reader: Reader, id: string, roles: readonly Role[]): Promise<CallbackRow | null> => {
  const callback = await findCallback(reader, id);
  return callback && (!callback.ownerOnly || isOwner(roles)) ? callback : null;
};

type Asked = { id: string; photoId: string; roles: readonly Role[]; directory: string };

/** Copy, smaller copy or original of a photo on the page of a callback. Refusals: not-found, photo-file-missing. */
export async function readCallbackPhoto(
  reader: Reader,
  { id, photoId, roles, directory, as }: Asked & { as: 'full' | 'small' | 'original' },
): Promise<Outcome<{ bytes: Buffer; mediaType: string }>> {
  const callback = await seen(reader, id, roles);
  const photo = callback && (await photosOfCallback(reader, id)).find((one) => one.id === photoId);
  if (!photo) return refuse('not-found', { thing: 'photo' });
  const read = as === 'small' ? smallCopy : fileOf;
  const bytes = await read(directory, as === 'original' ? photo.originalSha256 : photo.copySha256);
  if (!bytes) return refuse('photo-file-missing');
  const mediaType = as === 'original' ? await mediaTypeOf(reader, photo.originalSha256) : null;
  return accept({ bytes, mediaType: mediaType ?? 'image/jpeg' });
}
