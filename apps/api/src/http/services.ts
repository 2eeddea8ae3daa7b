// What routes may use: the runner, the reader, the clock and the settings that they show.
import type { Runner, RunnerParts } from '@backsight/usecases/run';
import type { Config } from '../config.ts';

export type Services = RunnerParts & { runner: Runner; config: Config; version: string };

/** Something that the clock does again and again, a while after its last run ended. */
export type Job = { name: string; everyMs: number; run: (services: Services) => Promise<unknown> };
