// How far this device's clock is off, told by the service with every answer. Times are set right when they are sent; people should know.
import { useSyncExternalStore } from 'react';

/** Milliseconds that the device's clock is ahead of the service's; an answer's way counts as its error. */
let ahead = 0;
const listeners = new Set<() => void>();

/** `date`: the Date header of an answer, which has whole seconds. */
export function noteClock(date: string | null): void {
  const at = date === null ? NaN : Date.parse(date);
  if (Number.isNaN(at)) return;
  ahead = Date.now() - at;
  for (const tell of listeners) tell();
}

/** Whole minutes that the device's clock is ahead (negative: behind); 0 within ten minutes, and while nothing was heard. */
export const useClockAhead = (): number =>
  useSyncExternalStore(
    (tell) => {
      listeners.add(tell);
      return () => listeners.delete(tell);
    },
    () => (Math.abs(ahead) < 10 * 60_000 ? 0 : Math.round(ahead / 60_000)),
  );
