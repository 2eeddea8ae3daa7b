// Photos and spoken notes that the seal waits for: on their way from a phone, or said never to come.
import { useState, type ReactNode } from 'react';
import { Button, TextInput } from '@mantine/core';
import { PHOTO_LOST } from '@backsight/domain/sitework/act';
import { lostPhotos } from '@backsight/domain/sitework/photos';
import { useKept } from '../../api/phone/photos.ts';
import { Choices } from './Choices.tsx';
import { photoTitle } from './photoModel.ts';
import { nameOf } from './recordModel.ts';
import type { Site } from './SitePage.tsx';
import classes from './sitework.module.css';

type Props = Pick<Site, 'record' | 'acts' | 'add'>;
type Why = keyof typeof PHOTO_LOST;
const WHY = (Object.keys(PHOTO_LOST) as Why[]).map((key) => ({ key, label: PHOTO_LOST[key] }));

export function PhotosToCome({ record, acts, add }: Props): ReactNode {
  const kept = new Set(useKept().files.map(({ id }) => id));
  const lost = lostPhotos(acts);
  const open = [...(record.photos ?? []), ...(record.spoken ?? [])].filter(({ id, state }) => state === 'on_its_way' && !lost.has(id));
  if (open.length === 0) return null;
  return (
    <section>
      <h2 className={classes.day}>
        {record.spoken?.length ? 'Photos and spoken notes' : 'Photos'} still on their way: {open.length}
      </h2>
      <p className={classes.soft}>The seal names each by its fingerprint, so it waits for these.</p>
      {open.map((photo) => (
        <div key={photo.id} className={classes.row}>
          <h3>{photoTitle({ ...record, acts }, photo.entries)}</h3>
          {kept.has(photo.id) ? (
            <p>On this phone; sent as soon as there is signal.</p>
          ) : (
            <>
              <p>On {photo.by === record.me ? 'another phone of yours' : `${nameOf(record, photo.by)}'s phone`}.</p>
              <Lost photo={photo.id} add={add} />
            </>
          )}
        </div>
      ))}
    </section>
  );
}

function Lost({ photo, add }: { photo: string; add: Props['add'] }): ReactNode {
  const [why, setWhy] = useState<Why | null>(null);
  const [note, setNote] = useState('');
  return (
    <details className={classes.more}>
      <summary>It will not come</summary>
      <Choices legend="Why" name={`lost-${photo}`} options={WHY} value={why} onChange={setWhy} />
      <TextInput
        label={why === 'other' ? 'Note' : 'Note (not needed)'}
        size="lg"
        mt="sm"
        value={note}
        onChange={(event) => setNote(event.currentTarget.value)}
      />
      <Button
        variant="default"
        size="lg"
        mt="sm"
        disabled={why === null || (why === 'other' && note.trim() === '')}
        onClick={() => why && void add({ do: 'photo_lost', photo, why }, { note })}
      >
        Record that it will not come
      </Button>
      <p className={classes.soft}>You sign off again afterwards.</p>
    </details>
  );
}
