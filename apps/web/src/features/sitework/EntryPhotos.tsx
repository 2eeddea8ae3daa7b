// The photos of one entry or act: those that the service has, those on their way, and those that wait on this phone.
import type { ReactNode } from 'react';
import { Button } from '@mantine/core';
import type { RecordPhoto } from '@backsight/contract/sitework/photos';
import { sayNear } from '@backsight/domain/sitework/nearby';
import { useMe } from '../../api/people.ts';
import { changePhoto, forgetPhoto, useKeptPhotos } from '../../api/phone/photos.ts';
import { photoAddress } from '../../api/photos.ts';
import { PhotoStrip, type StripPhoto } from '../../ui/PhotoStrip.tsx';
import { clockText } from '../../ui/time.ts';
import { BlobImage } from './BlobImage.tsx';
import { nameOf } from './recordModel.ts';
import shots from './shots.module.css';
import classes from './sitework.module.css';

type Shown = { id: string; visit: Parameters<typeof nameOf>[0]['visit']; photos?: readonly RecordPhoto[]; me?: string };

/** What is said of a photo below its picture, or instead of one. */
export function sayPhoto(photo: RecordPhoto, record: Shown, zone: string): string {
  const whose = photo.by === record.me ? 'your phone' : `${nameOf(record, photo.by)}'s phone`;
  if (photo.state === 'lost') return `Photo that will not come: ${photo.lost ?? ''}`;
  if (photo.state === 'on_its_way') return `Photo on its way from ${whose}`;
  if (!photo.mayLook) return 'Photo, with the owner';
  return `${clockText(photo.takenAt!, zone)}, ${nameOf(record, photo.by)}; ${sayNear(photo.near!, photo.nearLimitM!)}`;
}

export const stripOf = (photos: readonly RecordPhoto[], record: Shown, zone: string): StripPhoto[] =>
  photos.map((photo, at) => ({
    id: photo.id,
    alt: `Photo ${at + 1}`,
    words: sayPhoto(photo, record, zone),
    address:
      photo.state === 'here' && photo.mayLook
        ? { small: photoAddress(record.id, photo.id, 'small'), full: photoAddress(record.id, photo.id, 'full') }
        : null,
  }));

/** `photos` may be missing in a record that was kept on the phone by an earlier version of the app. */
export function EntryPhotos({ record, entryId }: { record: Shown; entryId: string }): ReactNode {
  const me = useMe();
  const here = useKeptPhotos().filter((photo) => photo.personId === me.id && photo.entryId === entryId);
  const known = (record.photos ?? []).filter(({ id, entries, state }) => {
    const kept = here.some((photo) => photo.id === id);
    return entries.includes(entryId) && (state === 'here' || !kept);
  });
  const waiting = here.filter(({ id }) => !known.some((photo) => photo.id === id));
  return (
    <>
      <PhotoStrip photos={stripOf(known, record, me.zone)} />
      {waiting.length > 0 ? (
        <ul className={shots.shots}>
          {waiting.map((photo) => (
            <li key={photo.id}>
              <BlobImage blob={photo.small} alt={`Photo, ${clockText(photo.takenAt, me.zone)}`} />
              <span>{photo.state === 'refused' ? 'Not taken' : 'Not yet sent'}</span>
            </li>
          ))}
        </ul>
      ) : null}
    </>
  );
}

/** Photos of this record, or of any, that the service would not take, each with its reason. */
export function RefusedPhotos({ recordId }: { recordId: string | undefined }): ReactNode {
  const me = useMe();
  const refused = useKeptPhotos().filter(
    (photo) => photo.personId === me.id && (recordId ?? photo.recordId) === photo.recordId && photo.state === 'refused',
  );
  return refused.map((photo) => (
    <div key={photo.id} className={classes.caution}>
      <strong>Photo not taken</strong>
      {photo.why}
      <ul className={shots.shots}>
        <li>
          <BlobImage blob={photo.small} alt={`Photo, ${clockText(photo.takenAt, me.zone)}`} />
        </li>
      </ul>
      <div className={classes.acts}>
        <Button variant="default" size="lg" onClick={() => void changePhoto(photo.id, { state: 'waiting' })}>
          Send it again
        </Button>
        <Button variant="default" size="lg" onClick={() => void forgetPhoto(photo.id)}>
          Remove it here
        </Button>
      </div>
    </div>
  ));
}
