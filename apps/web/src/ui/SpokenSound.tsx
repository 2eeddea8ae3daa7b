// A spoken note: what it is, and a press to listen to it. It is fetched only then, for a phone's signal and battery.
import { useEffect, useRef, useState, type ReactNode } from 'react';
import { Button } from '@mantine/core';
import { minutesSeconds } from './minutes.ts';
import classes from './SpokenSound.module.css';

type Props = { words: string; seconds: number | null; load: () => Promise<Blob> | Blob };
const NOT_FETCHED = 'It could not be fetched. Without signal listen later; else tell the owner.';
const NOT_PLAYED = 'This browser cannot play it.';
/** Some phones play only what they have at the press. */
const AGAIN = 'It is here now: press once more.';

/** `words` say whose it is; `seconds` is null where nobody counted them. */
export function SpokenSound({ words, seconds, load }: Props): ReactNode {
  const { playing, wrong, address, toggle } = usePlayer(load);
  return (
    <span className={classes.sound}>
      <span>{words}</span>
      <Button variant="default" size="lg" onClick={() => void toggle()} aria-label={`${playing ? 'Stop' : 'Listen'}: ${words}`}>
        {playing ? 'Stop' : 'Listen'}
        {seconds === null ? '' : ` (${minutesSeconds(seconds)})`}
      </Button>
      {wrong ? <span role="alert">{wrong}</span> : null}
      {wrong === NOT_PLAYED ? (
        <a href={address()} download="spoken-note">
          Fetch the file
        </a>
      ) : null}
    </span>
  );
}

/** Plays from the beginning at each press; who leaves hears no more. */
function usePlayer(load: Props['load']) {
  const player = useRef<HTMLAudioElement | null>(null);
  const [playing, setPlaying] = useState(false);
  const [wrong, setWrong] = useState<string | null>(null);
  useEffect(
    () => () => {
      player.current?.pause();
      if (player.current) URL.revokeObjectURL(player.current.src);
    },
    [],
  );
  const stop = (why: string | null) => {
    player.current?.pause();
    setPlaying(false);
    setWrong(why);
  };
  const ready = async (): Promise<HTMLAudioElement | null> => {
    const blob = await Promise.resolve(load()).catch(() => null);
    if (blob === null) return null;
    const sound = new Audio(URL.createObjectURL(blob));
    sound.addEventListener('ended', () => stop(null));
    return sound;
  };
  const toggle = async () => {
    if (playing) return stop(null);
    player.current ??= await ready();
    if (player.current === null) return stop(NOT_FETCHED);
    player.current.currentTime = 0;
    setPlaying(true);
    setWrong(null);
    await player.current.play().catch(({ name }: Error) => stop(name === 'NotAllowedError' ? AGAIN : NOT_PLAYED));
  };
  return { playing, wrong, toggle, address: () => player.current!.src };
}
