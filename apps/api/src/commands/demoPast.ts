// The demo firm's past, loaded while the service answers already; it goes on at the next start when it was cut off.
import type { Database } from '@backsight/store/database';
import { rebuildFigures } from '@backsight/usecases/liability/figures';
import { nextPastNumber } from '../../../../prisma/seed/demo/history/left.ts';
import { demoProcess, type DemoProcess } from './demoProcess.ts';

export type DemoPast = {
  /** Percent of the past that is there; null when nothing is being loaded. */
  percent: () => number | null;
  /** Begins to load what is left. */
  start: () => void;
  /** Ends it; the batch under way is left for the next start. */
  stop: () => Promise<void>;
};

type Parts = { url: string; root: string; database: Database; clock: () => Date; say: (line: string) => void };

/** Finds out whether anything is left to load; nothing is loaded before `start`. */
export async function demoPast(parts: Parts): Promise<DemoPast> {
  let [percent, stopped] = [(await nextPastNumber(parts.database.read)) === null ? null : 0, false];
  let process: DemoProcess | null = null;
  let underWay: Promise<void> = Promise.resolve();
  const load = async () => {
    process = demoProcess(parts.root, (now) => void (percent = now));
    const whole = await process.ask({ what: 'past', url: parts.url });
    await process.end();
    if (!whole || stopped) return;
    await rebuildFigures(parts, true); // all sums were made before the past was there
    parts.say('the past of the demo firm is loaded');
  };
  return {
    percent: () => percent,
    start: () => {
      if (percent === null) return;
      underWay = load()
        .catch((error: unknown) => stopped || console.error('the past of the demo firm could not be loaded:', error))
        .finally(() => void (percent = null)) as Promise<void>;
    },
    stop: async () => {
      stopped = true;
      await process?.end();
      await underWay;
    },
  };
}
