// Records a spoken note with one press and keeps it here; each can be taken out again until its entry is recorded.
import { useEffect, useState, type ReactNode } from 'react';
import { Button } from '@mantine/core';
import { useMe } from '../../api/people.ts';
import { forgetPhoto } from '../../api/phone/photos.ts';
import { MOST_SECONDS, startVoice } from './recordVoice.ts';
import { stopVoice, useVoice } from './voice.ts';
import { minutesSeconds } from '../../ui/minutes.ts';
import { SpokenSound } from '../../ui/SpokenSound.tsx';
import { clockText } from '../../ui/time.ts';
import { useSpoken } from './photoModel.ts';
import shots from './shots.module.css';
import classes from './sitework.module.css';

/** What one entry may name beside those that it corrects. */
const MOST = 3;

export function SpokenTaker({ recordId, place }: { recordId: string; place: string }): ReactNode {
  const me = useMe();
  const voice = useVoice();
  const here = voice?.place === place ? voice : null;
  const spoken = useSpoken(recordId).get(place) ?? [];
  const [problem, setProblem] = useState<string | null>(null);
  useEffect(() => () => void stopVoice(), [place]); // who leaves the step has said what there was to say
  const toggle = async () =>
    setProblem(here ? (await stopVoice(), null) : await startVoice({ personId: me.id, recordId, place }, setProblem));
  return (
    <div className={classes.acts}>
      {spoken.length > 0 ? (
        <ul className={shots.shots}>
          {spoken.map(({ id, takenAt, seconds, original }, at) => (
            <li key={id}>
              <SpokenSound words={`Spoken note ${at + 1}, ${clockText(takenAt, me.zone)}`} seconds={seconds} load={() => original} />
              <Button variant="default" size="lg" onClick={() => void forgetPhoto(id)} aria-label={`Remove spoken note ${at + 1}`}>
                Remove
              </Button>
            </li>
          ))}
        </ul>
      ) : null}
      <Button
        size="xl"
        fullWidth
        variant={here ? 'filled' : 'default'}
        disabled={!here && (voice !== null || spoken.length >= MOST)}
        onClick={() => void toggle()}
      >
        {here ? <>Stop and keep it ({<Since since={here.since} />})</> : 'Record a spoken note'}
      </Button>
      <p role="status" className={classes.soft}>
        {here
          ? `Recording, for ${MOST_SECONDS / 60} minutes at most. Stop it, or record the step: either keeps it.`
          : 'Whoever can be heard on it must agree first: the law of some states asks for it.'}
      </p>
      {problem ? (
        <p role="alert" className={classes.caution}>
          {problem}
        </p>
      ) : null}
    </div>
  );
}

/** How long it runs already. */
function Since({ since }: { since: number }): ReactNode {
  const [now, setNow] = useState(since);
  useEffect(() => {
    const timer = setInterval(() => setNow(Date.now()), 1000);
    return () => clearInterval(timer);
  }, [since]);
  return minutesSeconds((now - since) / 1000);
}
