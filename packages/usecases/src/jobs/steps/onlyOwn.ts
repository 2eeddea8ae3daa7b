// Whose jobs alone a list may hold.
import { seesEveryJob } from '@backsight/domain/people/roles';
import type { Actor } from '../../run.ts';

/** The id of an inspector, whose lists hold the jobs that he goes to; null for the desk, which sees every job. */
export const onlyOwn = (actor: Actor): string | null => (actor.kind === 'person' && !seesEveryJob(actor.roles) ? actor.id : null);
