// Looking at photos and listening to spoken notes: by who may read the record; originals of photos by an owner who says why.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import { addOpening, findOpening, findPhoto, mediaTypeOf, type PhotoRow } from '@backsight/store/sitework/photos';
import { keepText } from '@backsight/store/text';
import type { Act, Actor } from '../run.ts';
import { handedTo, leads, loadRecord, withheldIn, type LoadedRecord } from './steps/loadRecord.ts';
import { namedIn } from './steps/namedPhotos.ts';
import { fileOf, smallCopy } from './steps/photoFiles.ts';
import { mayLook } from './steps/photos.ts';

type Asked = { recordId: string; photoId: string; actor: Actor; directory: string };
type Bytes = { bytes: Buffer; mediaType: string };

/** The copy, or a smaller one of it. Refusals: those of `findShown`, photo-file-missing. */
export async function readPhoto(reader: Reader, input: Asked & { small: boolean }): Promise<Outcome<Bytes>> {
  const found = await findShown(reader, input, 'photo');
  if (!found.ok) return found;
  const bytes = await (input.small ? smallCopy : fileOf)(input.directory, found.value.copySha256!);
  return bytes ? accept({ bytes, mediaType: 'image/jpeg' }) : refuse('photo-file-missing');
}

/** The sound as it was recorded: a voice has no copy. Refusals: those of `findShown`, photo-file-missing. */
export async function readSpoken(reader: Reader, input: Asked): Promise<Outcome<Bytes>> {
  const found = await findShown(reader, input, 'spoken note');
  if (!found.ok) return found;
  const bytes = await fileOf(input.directory, found.value.originalSha256);
  return bytes ? accept({ bytes, mediaType: (await mediaTypeOf(reader, found.value.originalSha256))! }) : refuse('photo-file-missing');
}

/** One that has come, to who may see it now. Refusals: not-found, not-on-this-visit, photo-owner-only. */
async function findShown(reader: Reader, { recordId, photoId, actor }: Asked, thing: 'photo' | 'spoken note'): Promise<Outcome<PhotoRow>> {
  const loaded = await loadRecord(reader, recordId);
  const row = loaded?.photos.find(({ id, seconds }) => id === photoId && (seconds === null) === (thing === 'photo'));
  const named = loaded && namedIn(loaded).find(({ id }) => id === photoId);
  if (!loaded || !row || !named) return refuse('not-found', { thing });
  if (!mayRead(loaded, actor)) return refuse('not-on-this-visit');
  const hidden = hiddenFrom(loaded, actor);
  if (named.entries.every((id) => hidden.has(id))) return refuse('not-found', { thing });
  return mayLook(named, loaded, actor) ? accept(row) : refuse('photo-owner-only');
}

const mayRead = (loaded: LoadedRecord, actor: Actor): boolean =>
  actor.kind === 'person' && (handedTo(loaded).has(actor.id) || leads(actor));

/** What the partner recorded at a partner check stays unseen until one's own answer is in. */
const hiddenFrom = (loaded: LoadedRecord, actor: Actor): ReadonlySet<string> =>
  loaded.record.state === 'sealed' || actor.kind !== 'person' || !loaded.pair.includes(actor.id)
    ? new Set()
    : new Set(withheldIn(loaded, actor.id).map(({ id }) => id));

/** How long an owner may fetch the original after saying why. */
const OPEN_MINUTES = 15;

/** An owner says why an original is opened; kept for ever. The route lets owners in only. */
export const openOriginal: Act<{ recordId: string; photoId: string; id: string; reason: string }, { id: string }> = {
  operation: 'sitework.open-original',
  run: async (work, { recordId, photoId, id, reason }) => {
    const photo = await findPhoto(work.tx, photoId);
    if (photo?.recordId !== recordId || photo.seconds !== null) return refuse('not-found', { thing: 'photo' });
    if (work.actor.kind !== 'person') return refuse('not-allowed');
    const textId = await keepText(work.tx, work.newId(), reason, work.now);
    await addOpening(work.tx, { id, photoId, textId, openedBy: work.actor.id, recordedAt: work.now });
    await work.did('site-record', recordId, { photo: photoId, originalOpened: id });
    return accept({ id });
  },
};

/** The untouched file, to the owner who has just said why. Refusals: not-found, photo-original-reason, photo-file-missing. */
export async function readOriginal(
  reader: Reader,
  input: Asked & { openingId: string; now: Date },
): Promise<Outcome<Bytes & { name: string }>> {
  const photo = await findPhoto(reader, input.photoId);
  if (photo?.recordId !== input.recordId) return refuse('not-found', { thing: 'photo' });
  const opening = await findOpening(reader, input.openingId);
  const said = opening?.photoId === photo.id && input.actor.kind === 'person' && opening.openedBy === input.actor.id;
  if (!said || input.now.getTime() - opening.recordedAt.getTime() > OPEN_MINUTES * 60_000) return refuse('photo-original-reason');
  const bytes = await fileOf(input.directory, photo.originalSha256);
  if (!bytes) return refuse('photo-file-missing');
  const mediaType = (await mediaTypeOf(reader, photo.originalSha256)) ?? 'application/octet-stream';
  return accept({ bytes, mediaType, name: nameOf(photo, mediaType) });
}

const nameOf = ({ id }: PhotoRow, mediaType: string): string => `photo-${id}.${mediaType.replace('image/', '').replace('jpeg', 'jpg')}`;
