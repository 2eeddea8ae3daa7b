// What is being spoken just now, for every screen that shows it or ends it.
import { useSyncExternalStore } from 'react';

/** What is being spoken. `since`: milliseconds of this phone's clock. */
export type Voice = { id: string; place: string; since: number };
/** `ended`: once all of it is kept, or why not. */
type Running = { voice: Voice; recorder: MediaRecorder; ended: Promise<string | null> };

let running: Running | null = null;
const listeners = new Set<() => void>();
/** What is being spoken from now on. */
export const speak = (now: Running | null): void => {
  running = now;
  for (const tell of listeners) tell();
};
export const isSpeaking = (): boolean => running !== null;
const subscribe = (tell: () => void): (() => void) => {
  listeners.add(tell);
  return () => listeners.delete(tell);
};
export const useVoice = (): Voice | null => useSyncExternalStore(subscribe, () => running?.voice ?? null);

/** Ends what is being spoken; answers it once all of it is kept, null when nothing was spoken or kept. */
export async function stopVoice(): Promise<Voice | null> {
  const now = running;
  if (!now) return null;
  if (now.recorder.state !== 'inactive') now.recorder.stop();
  return (await now.ended) === null ? now.voice : null;
}

/** Runs an act that may name what is being spoken: at once, or once all of that is kept. */
export function withVoice(act: (now: Voice | null) => void): void {
  if (running) void stopVoice().then(act);
  else act(null);
}
