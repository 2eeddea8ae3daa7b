// Whether the service was reached the last time it was asked: a phone may have a network that leads nowhere.
import { useSyncExternalStore } from 'react';

let reached = true;
const listeners = new Set<() => void>();

export const noteReached = (now: boolean): void => {
  if (now === reached) return;
  reached = now;
  for (const tell of listeners) tell();
};

const subscribe = (tell: () => void): (() => void) => {
  listeners.add(tell);
  window.addEventListener('online', tell);
  window.addEventListener('offline', tell);
  return () => {
    listeners.delete(tell);
    window.removeEventListener('online', tell);
    window.removeEventListener('offline', tell);
  };
};

/** False without a network, and while the last question got no answer. */
export const useReached = (): boolean => useSyncExternalStore(subscribe, () => reached && navigator.onLine);
