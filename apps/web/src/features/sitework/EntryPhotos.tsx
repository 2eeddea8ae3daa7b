// The photos and spoken notes of one entry or act: those that the service has, those on their way, and those that wait on this phone.
import type { ReactNode } from 'react';
import { Button } from '@mantine/core';
import type { RecordPhoto, SpokenNote } from '@backsight/contract/sitework/photos';
import { sayNear } from '@backsight/domain/sitework/nearby';
import { useMe } from '../../api/people.ts';
import { changePhoto, forgetPhoto, useKept, useKeptPhotos } from '../../api/phone/photos.ts';
import { fetchSpoken, photoAddress } from '../../api/photos.ts';
import { PhotoStrip, type StripPhoto } from '../../ui/PhotoStrip.tsx';
import { SpokenSound } from '../../ui/SpokenSound.tsx';
import { clockText } from '../../ui/time.ts';
import { BlobImage } from './BlobImage.tsx';
import { nameOf } from './recordModel.ts';
import shots from './shots.module.css';
import classes from './sitework.module.css';

type Shown = {
  id: string;
  visit: Parameters<typeof nameOf>[0]['visit'];
  photos?: readonly RecordPhoto[];
  spoken?: readonly SpokenNote[];
  me?: string;
};

/** What is said of a photo below its picture, or instead of one; and of a spoken note. */
export function sayPhoto(photo: RecordPhoto | SpokenNote, record: Shown, zone: string): string {
  const whose = photo.by === record.me ? 'your phone' : `${nameOf(record, photo.by)}'s phone`;
  const what = 'near' in photo ? 'Photo' : 'Spoken note';
  if (photo.state === 'lost') return `${what} that will not come: ${photo.lost ?? ''}`;
  if (photo.state === 'on_its_way') return `${what} on its way from ${whose}`;
  if (!photo.mayLook) return `${what}, with the owner`;
  const taken = `${clockText(photo.takenAt!, zone)}, ${nameOf(record, photo.by)}`;
  return 'near' in photo ? `${taken}; ${sayNear(photo.near!, photo.nearLimitM!)}` : `${what}, ${taken}`;
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
      <EntrySpoken record={record} entryId={entryId} />
    </>
  );
}

function EntrySpoken({ record, entryId }: { record: Shown; entryId: string }): ReactNode {
  const me = useMe();
  const here = useKept().spoken.filter((note) => note.personId === me.id && note.entryId === entryId);
  const known = (record.spoken ?? []).filter(
    ({ id, entries, state }) => entries.includes(entryId) && (state === 'here' || !here.some((note) => note.id === id)),
  );
  const waiting = here.filter(({ id }) => !known.some((note) => note.id === id));
  return (
    <>
      {known.map((note) => {
        const words = sayPhoto(note, record, me.zone);
        return note.state === 'here' && note.mayLook ? (
          <SpokenSound key={note.id} words={words} seconds={note.seconds} load={() => fetchSpoken(record.id, note.id)} />
        ) : (
          <p key={note.id}>{words}</p>
        );
      })}
      {waiting.map(({ id, state, takenAt, seconds, original }) => (
        <SpokenSound
          key={id}
          words={`Spoken note, ${clockText(takenAt, me.zone)}: ${state === 'refused' ? 'not taken' : 'not yet sent'}`}
          seconds={seconds}
          load={() => original}
        />
      ))}
    </>
  );
}

/** Photos and spoken notes of this record, or of any, that the service would not take, each with its reason. */
export function RefusedPhotos({ recordId }: { recordId: string | undefined }): ReactNode {
  const me = useMe();
  const refused = useKept().files.filter(
    (photo) => photo.personId === me.id && (recordId ?? photo.recordId) === photo.recordId && photo.state === 'refused',
  );
  return refused.map((photo) => (
    <div key={photo.id} className={classes.caution}>
      <strong>{photo.seconds === undefined ? 'Photo' : 'Spoken note'} not taken</strong>
      {photo.why}
      {photo.seconds === undefined ? (
        <ul className={shots.shots}>
          <li>
            <BlobImage blob={photo.small} alt={`Photo, ${clockText(photo.takenAt, me.zone)}`} />
          </li>
        </ul>
      ) : (
        <SpokenSound words={`Spoken note, ${clockText(photo.takenAt, me.zone)}`} seconds={photo.seconds} load={() => photo.original} />
      )}
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
