// The demo firm's past, loaded while the service answers already; it goes on at the next start when it was cut off.
import type { Database } from '@backsight/store/database';
import { rebuildFigures } from '@backsight/usecases/liability/figures';
import { loadPastBehind, nextPastNumber } from '../../../../prisma/seed/demo/history/behind.ts';

export type DemoPast = {
  /** Percent of the past that is there; null when nothing is being loaded. */
  percent: () => number | null;
  /** Begins to load what is left. */
  start: () => void;
  /** Ends after the batch under way. */
  stop: () => Promise<void>;
};

type Parts = { url: string; database: Database; clock: () => Date; say: (line: string) => void };

/** Finds out whether anything is left to load; nothing is loaded before `start`. */
export async function demoPast(parts: Parts): Promise<DemoPast> {
  let [percent, stopped] = [(await nextPastNumber(parts.database.read)) === null ? null : 0, false];
  let underWay: Promise<void> = Promise.resolve();
  const load = async () => {
    const { url, database, say } = parts;
    const told = (now: number) => void (percent = now);
    const whole = await loadPastBehind({ url, reader: database.read, progress: told, stopped: () => stopped });
    if (!whole) return;
    await rebuildFigures(parts, true); // all sums were made before the past was there
    say('the past of the demo firm is loaded');
  };
  return {
    percent: () => percent,
    start: () => {
      if (percent === null) return;
      underWay = load()
        .catch((error: unknown) => console.error('the past of the demo firm could not be loaded:', error))
        .finally(() => void (percent = null));
    },
    stop: async () => {
      stopped = true;
      await underWay;
    },
  };
}
