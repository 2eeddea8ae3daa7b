// What photos and spoken notes have in common when they come in: who may send one, and that it is stored once.
import { accept, refuse, type Outcome, type Refusal } from '@backsight/domain/shared/outcome';
import { NEAR_METRES, type NearProperty } from '@backsight/domain/sitework/nearby';
import type { Reader } from '@backsight/store/database';
import { lockRecord } from '@backsight/store/sitework';
import { addPhoto as saveFile, findPhoto, type PhotoRow } from '@backsight/store/sitework/photos';
import { noteFile } from '@backsight/store/sitework/report';
import type { Actor, Work } from '../../run.ts';
import { handOf, type Device } from './hand.ts';
import { handedTo, loadRecord } from './loadRecord.ts';
import { namedIn } from './namedPhotos.ts';
import { sealIfAsked } from './sealWhole.ts';

/** `takenAt` by the phone's clock. */
export type GivenFile = { recordId: string; id: string; entryId: string; takenAt: string } & Device;
type Stored = { sha256: string; bytes: number; mediaType: string };
/** One whose files are on the disk: a photo with its copy and whether it is near, or a spoken note with its length. */
export type SiteFile = GivenFile & { name?: string; original: Stored } & (
    | { copy: Stored; near: NearProperty; seconds?: undefined }
    | { copy: null; near: null; seconds: number }
  );

type Asked = Pick<GivenFile, 'recordId' | 'id' | 'entryId'> & { spoken: boolean };

/**
 * One that has come already is let through, even after the seal: sent again it changes nothing. Refusals: not-found, not-on-this-visit,
 * photo-not-announced, photo-of-another, record-sealed.
 */
export async function mayNotCome(reader: Reader, { recordId, id, entryId, spoken }: Asked, actor: Actor): Promise<Refusal | null> {
  const loaded = await loadRecord(reader, recordId);
  if (!loaded) return refuse('not-found', { thing: 'site record' });
  if (actor.kind !== 'person' || !handedTo(loaded).has(actor.id)) return refuse('not-on-this-visit');
  const named = namedIn(loaded).find((file) => file.id === id && file.spoken === spoken && file.entries.includes(entryId));
  if (!named) return refuse('photo-not-announced', {}, 'entryId');
  const entry = [...loaded.entries, ...loaded.actRows].find((row) => row.id === entryId)!;
  if (entry.writtenBy !== actor.id) return refuse('photo-of-another', {}, 'entryId');
  return loaded.record.state === 'sealed' && !loaded.photos.some((file) => file.id === id) ? refuse('record-sealed') : null;
}

/** Adds one, once however often it comes, and seals the record where that waited for it. Refusals: photo-id-used, device-of-another, record-sealed. */
export async function addSiteFile(work: Work, file: SiteFile): Promise<Outcome<Pick<PhotoRow, 'id' | 'nearProperty' | 'nearLimitM'>>> {
  if (work.actor.kind !== 'person') return refuse('not-on-this-visit');
  await lockRecord(work.tx, file.recordId);
  const before = await findPhoto(work.tx, file.id);
  if (before) {
    const same = before.recordId === file.recordId && before.originalSha256 === file.original.sha256;
    if (!same) return refuse('photo-id-used', {}, 'id');
    await work.did('site-record', file.recordId, { photo: file.id, again: true });
    return accept(before);
  }
  const hand = await handOf(work, work.actor.id, file);
  if (hand.refusal) return hand.refusal;
  const { deviceId, clockOffsetMs } = hand.on(file.takenAt);
  await noteFile(work.tx, { ...file.original, name: file.name ?? 'spoken note', at: work.now });
  if (file.copy) await noteFile(work.tx, { ...file.copy, name: 'copy.jpg', at: work.now });
  const row = {
    id: file.id,
    recordId: file.recordId,
    entryId: file.entryId,
    originalSha256: file.original.sha256,
    copySha256: file.copy?.sha256 ?? null,
    nearProperty: file.near,
    nearLimitM: file.near && NEAR_METRES,
    seconds: file.seconds ?? null,
    takenBy: work.actor.id,
    takenAt: new Date(file.takenAt),
    ...{ deviceId, clockOffsetMs, recordedAt: work.now },
  };
  await saveFile(work.tx, row);
  const what: Record<string, string | number> = file.copy
    ? { photo: file.id, near: file.near }
    : { spoken: file.id, seconds: file.seconds };
  await work.did('site-record', file.recordId, { ...what, entry: file.entryId });
  await sealIfAsked(work, file.recordId);
  return accept(row);
}
