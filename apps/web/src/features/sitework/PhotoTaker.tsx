// Takes photos with the phone's camera and keeps them here; each can be taken out again until its entry is recorded.
import { useState, type ReactNode } from 'react';
import { Button, FileButton } from '@mantine/core';
import { useMe } from '../../api/people.ts';
import { forgetPhoto } from '../../api/phone/photos.ts';
import type { KeptPhoto } from '../../api/phone/store.ts';
import { takePhoto } from '../../api/phone/takePhoto.ts';
import { clockText } from '../../ui/time.ts';
import { BlobImage } from './BlobImage.tsx';
import { useTaken } from './photoModel.ts';
import shots from './shots.module.css';
import classes from './sitework.module.css';

/** What one entry may name. */
const MOST = 12;
const ACCEPT = 'image/*';

type Props = { recordId: string; place: string; legend: string; words?: string };

export function PhotoTaker({ recordId, place, legend, words }: Props): ReactNode {
  const me = useMe();
  const taken = useTaken(recordId).get(place) ?? [];
  const [wrong, setWrong] = useState<string | null>(null);
  const take = async (files: readonly File[]) => {
    try {
      const answers = [];
      for (const file of files.slice(0, MOST - taken.length)) answers.push(await takePhoto(file, { personId: me.id, recordId, place }));
      const left = files.length > MOST - taken.length ? `An entry takes at most ${MOST} photos.` : null;
      setWrong(answers.find((answer) => answer !== null) ?? left);
    } catch {
      setWrong("This phone's store is full: the photo is not kept. Send what waits on it first.");
    }
  };
  const full = taken.length >= MOST;
  return (
    <fieldset className={classes.set}>
      <legend>{legend}</legend>
      {words ? <p className={classes.soft}>{words}</p> : null}
      {taken.length > 0 ? (
        <ul className={shots.shots}>
          {taken.map((photo, at) => (
            <Shot key={photo.id} photo={photo} name={`Photo ${at + 1}, ${clockText(photo.takenAt, me.zone)}`} />
          ))}
        </ul>
      ) : null}
      <div className={classes.pairwise}>
        <FileButton accept={ACCEPT} capture="environment" onChange={(file) => file && void take([file])}>
          {(props) => (
            <Button {...props} size="lg" variant={taken.length === 0 ? 'light' : 'default'} disabled={full}>
              {taken.length === 0 ? 'Take a photo' : 'Take another'}
            </Button>
          )}
        </FileButton>
        <FileButton accept={ACCEPT} multiple onChange={(files) => void take(files)}>
          {(props) => (
            <Button {...props} size="lg" variant="default" disabled={full}>
              Choose pictures
            </Button>
          )}
        </FileButton>
      </div>
      {wrong ? (
        <p role="alert" className={classes.caution}>
          {wrong}
        </p>
      ) : null}
    </fieldset>
  );
}

const Shot = ({ photo, name }: { photo: KeptPhoto; name: string }): ReactNode => (
  <li>
    <BlobImage blob={photo.small} alt={name} />
    <Button variant="default" size="lg" onClick={() => void forgetPhoto(photo.id)} aria-label={`Remove ${name}`}>
      Remove
    </Button>
  </li>
);
