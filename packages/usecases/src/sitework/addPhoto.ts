// Takes in a photo from the phone on which its entry was written: the original under seal, and the copy that is shown.
import { accept, refuse, type Outcome, type Refusal } from '@backsight/domain/shared/outcome';
import { nearProperty, NEAR_METRES, type NearProperty } from '@backsight/domain/sitework/nearby';
import { greatCircleKm } from '@backsight/scheduling/travel';
import type { Reader } from '@backsight/store/database';
import { lockRecord } from '@backsight/store/sitework';
import { storeFile } from '@backsight/store/sitework/files';
import { addPhoto as savePhoto, findPhoto, placeOfRecord } from '@backsight/store/sitework/photos';
import { noteFile } from '@backsight/store/sitework/report';
import type { Act, Actor, Work } from '../run.ts';
import { handOf, type Device } from './steps/hand.ts';
import { positionIn, readImage } from './steps/image.ts';
import { handedTo, loadRecord } from './steps/loadRecord.ts';
import { namedIn } from './steps/namedPhotos.ts';
import { sealIfAsked } from './steps/sealWhole.ts';

/** `original` and `jpeg` in base64; `jpeg` comes with HEIC alone. `takenAt` by the phone's clock. */
export type GivenPhoto = {
  recordId: string;
  id: string;
  entryId: string;
  takenAt: string;
  name: string;
  original: string;
  jpeg: string | null;
} & Device;
type File = { sha256: string; bytes: number; mediaType: string };
/** A photo whose files are on the disk; what it says of its place is told apart already and left behind. */
export type StoredPhoto = Omit<GivenPhoto, 'original' | 'jpeg'> & { original: File; copy: File; near: NearProperty };

/**
 * Reads the file and puts original and copy on the disk, outside any transaction. Refusals: not-found, not-on-this-visit, record-sealed,
 * photo-not-announced, photo-of-another and those of `readImage`.
 */
export async function storePhoto(reader: Reader, input: GivenPhoto & { actor: Actor; directory: string }): Promise<Outcome<StoredPhoto>> {
  const { actor, directory, original: _original, jpeg: _jpeg, ...given } = input;
  const no = await mayNotCome(reader, given, actor);
  if (no) return no;
  const image = await readImage(input);
  if (!image.ok) return image;
  const { original, copy, mediaType } = image.value;
  const [house, taken] = [await placeOfRecord(reader, given.recordId), await positionIn(original)];
  const near = nearProperty(house && taken ? greatCircleKm(house, taken) * 1000 : null, taken?.accuracy ?? 0);
  return accept({
    ...given,
    near,
    original: { sha256: await storeFile(directory, original), bytes: original.length, mediaType },
    copy: { sha256: await storeFile(directory, copy), bytes: copy.length, mediaType: 'image/jpeg' },
  });
}

type Asked = Pick<GivenPhoto, 'recordId' | 'id' | 'entryId'>;

/** One that has come already is let through, even after the seal: sent again it changes nothing. */
async function mayNotCome(reader: Reader, { recordId, id, entryId }: Asked, actor: Actor): Promise<Refusal | null> {
  const loaded = await loadRecord(reader, recordId);
  if (!loaded) return refuse('not-found', { thing: 'site record' });
  if (actor.kind !== 'person' || !handedTo(loaded).has(actor.id)) return refuse('not-on-this-visit');
  const named = namedIn(loaded).find((photo) => photo.id === id && photo.entries.includes(entryId));
  if (!named) return refuse('photo-not-announced', {}, 'entryId');
  const entry = [...loaded.entries, ...loaded.actRows].find((row) => row.id === entryId)!;
  if (entry.writtenBy !== actor.id) return refuse('photo-of-another', {}, 'entryId');
  return loaded.record.state === 'sealed' && !loaded.photos.some((photo) => photo.id === id) ? refuse('record-sealed') : null;
}

type Taken = { id: string; near: NearProperty; nearLimitM: number };

/** Refusals: photo-id-used, device-of-another, record-sealed, and those of the database's rules. */
export const addPhoto: Act<StoredPhoto, Taken> = { operation: 'sitework.photo', run: add };

async function add(work: Work, photo: StoredPhoto): Promise<Outcome<Taken>> {
  if (work.actor.kind !== 'person') return refuse('not-on-this-visit');
  await lockRecord(work.tx, photo.recordId);
  const before = await findPhoto(work.tx, photo.id);
  if (before) {
    const same = before.recordId === photo.recordId && before.originalSha256 === photo.original.sha256;
    if (!same) return refuse('photo-id-used', {}, 'id');
    await work.did('site-record', photo.recordId, { photo: photo.id, again: true });
    return accept({ id: before.id, near: before.nearProperty, nearLimitM: before.nearLimitM });
  }
  const hand = await handOf(work, work.actor.id, photo);
  if (hand.refusal) return hand.refusal;
  const { deviceId, clockOffsetMs } = hand.on(photo.takenAt);
  for (const [file, name] of [[photo.original, photo.name] as const, [photo.copy, 'copy.jpg'] as const])
    await noteFile(work.tx, { ...file, name, at: work.now });
  await savePhoto(work.tx, {
    id: photo.id,
    recordId: photo.recordId,
    entryId: photo.entryId,
    originalSha256: photo.original.sha256,
    copySha256: photo.copy.sha256,
    nearProperty: photo.near,
    nearLimitM: NEAR_METRES,
    takenBy: work.actor.id,
    takenAt: new Date(photo.takenAt),
    ...{ deviceId, clockOffsetMs, recordedAt: work.now },
  });
  await work.did('site-record', photo.recordId, { photo: photo.id, entry: photo.entryId, near: photo.near });
  await sealIfAsked(work, photo.recordId);
  return accept({ id: photo.id, near: photo.near, nearLimitM: NEAR_METRES });
}
