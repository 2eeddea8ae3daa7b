// Callbacks of the special jobs.
import type { Stage } from '../stage.ts';
import type { DemoContext, PlayedJob } from './context.ts';

export function callbackMayCome(_demo: DemoContext, _stage: Stage, _job: PlayedJob, _recordId: string): void {}
