// The planner's thread out of its sources: a thread's first file cannot be TypeScript in every version of Node.
import { register } from 'tsx/esm/api';

register();
await import('../../apps/api/src/jobs/planner-worker.ts');
