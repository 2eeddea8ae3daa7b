// What routes may use: the runner, the reader, the clock and the settings that they show.
import type { Writable } from 'node:stream';
import type { Runner, RunnerParts } from '@backsight/usecases/run';
import type { StarterSet } from '@backsight/usecases/firm/setUp';
import type { Config } from '../config.ts';
import type { Planner } from './planner.ts';

/** What the set-up of a new firm needs: the digest of the code that this start printed (null: none), and the examples to begin with. */
export type SetUpParts = { codeSha256: Buffer | null; starter: StarterSet };

export type Services = RunnerParts & {
  runner: Runner;
  config: Config;
  version: string;
  setUp: SetUpParts;
  planner: Planner;
  /** The key of the installation. */
  secretKey: Buffer;
  /** Where log lines go; left out: standard output. */
  logTo?: Writable;
  /** Hears of a job of the clock that failed. */
  failed?: (job: string, error: unknown) => void;
  /** When each job of the clock last ended well. */
  lastRuns?: Map<string, Date>;
  /** Whether the service was told to stop: it ends what it began and begins nothing by the clock. */
  stopping?: () => boolean;
  /** Percent of the demo firm's past that is loaded; null when nothing is being loaded. */
  pastPercent?: () => number | null;
};

/** Something that the clock does again and again, a while after its last run ended. */
export type Job = { name: string; everyMs: number; run: (services: Services) => Promise<unknown> };
