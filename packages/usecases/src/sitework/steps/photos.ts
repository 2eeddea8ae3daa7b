// Photos and spoken notes of a loaded record as they are shown, and who may look at them.
import { lostPhotos, ofInjury, type NamedPhoto } from '@backsight/domain/sitework/photos';
import { PHOTO_LOST } from '@backsight/domain/sitework/act';
import type { PhotoRow } from '@backsight/store/sitework/photos';
import type { Actor } from '../../run.ts';
import type { LoadedRecord } from './loadRecord.ts';
import { namedIn } from './namedPhotos.ts';

/** By the service's clock, never later than it came. */
export const takenAt = ({ takenAt: at, clockOffsetMs, recordedAt }: PhotoRow): Date =>
  new Date(Math.min(at.getTime() + (clockOffsetMs ?? 0), recordedAt.getTime()));

/** Photos and spoken notes of somebody who was hurt are for the owner and the one who took them. */
export const mayLook = (photo: NamedPhoto, { acts }: Pick<LoadedRecord, 'acts'>, actor: Actor): boolean =>
  actor.kind === 'person' && (!ofInjury(photo, acts) || actor.roles.includes('owner') || photo.by === actor.id);

/** All of them as they are shown, without those that only entries in `hidden` name. */
function filesShown(loaded: LoadedRecord, actor: Actor, hidden: ReadonlySet<string> = new Set()) {
  const come = new Map(loaded.photos.map((row) => [row.id, row]));
  const lost = lostPhotos(loaded.acts);
  return namedIn(loaded).flatMap((photo) => {
    const entries = photo.entries.filter((id) => !hidden.has(id));
    return entries.length === 0
      ? []
      : [
          {
            ...shown(photo, come.get(photo.id), lost.get(photo.id)),
            entries,
            spoken: photo.spoken,
            mayLook: mayLook(photo, loaded, actor),
          },
        ];
  });
}

/** The photos as they are shown, and the spoken notes. */
export function photosShown(loaded: LoadedRecord, actor: Actor, hidden?: ReadonlySet<string>) {
  return filesShown(loaded, actor, hidden).flatMap(({ spoken, seconds: _, ...photo }) => (spoken ? [] : [photo]));
}
export function spokenShown(loaded: LoadedRecord, actor: Actor, hidden?: ReadonlySet<string>) {
  return filesShown(loaded, actor, hidden).flatMap(
    ({ spoken, near: _, nearLimitM: _limit, copySha256: _copy, originalSha256: sha256, ...note }) => (spoken ? [{ ...note, sha256 }] : []),
  );
}

type Lost = ReturnType<typeof lostPhotos> extends Map<string, infer K> ? K : never;

function shown({ id, by }: NamedPhoto, row: PhotoRow | undefined, lost: Lost | undefined) {
  const state = row ? 'here' : lost ? 'lost' : 'on_its_way';
  return {
    id,
    by,
    state: state as 'here' | 'lost' | 'on_its_way',
    takenAt: row ? takenAt(row).toISOString() : null,
    near: row?.nearProperty ?? null,
    nearLimitM: row?.nearLimitM ?? null,
    originalSha256: row?.originalSha256 ?? null,
    copySha256: row?.copySha256 ?? null,
    seconds: row?.seconds ?? null,
    lost: !row && lost?.act.do === 'photo_lost' ? [PHOTO_LOST[lost.act.why], lost.words.note].filter(Boolean).join('. ') : null,
  };
}
