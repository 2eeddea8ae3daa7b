// Keeps a held time once more for as long as it was held, while the caller still makes up his mind.
import { extendHold as extend } from '@backsight/domain/schedule/crew';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { findCatalog } from '@backsight/store/jobs/catalog';
import { lockJob } from '@backsight/store/jobs/jobs';
import { extendHoldOf, findHold } from '@backsight/store/schedule/crew';
import type { Act, Work } from '../run.ts';
import { noteJob } from './steps/loadJob.ts';

type Extended = { id: string; version: number; holdEndsAt: string };

export const extendHold: Act<{ id: string; version: number }, Extended> = { operation: 'jobs.extend-hold', run };

async function run(work: Work, input: { id: string; version: number }): Promise<Outcome<Extended>> {
  const job = await lockJob(work.tx, input.id);
  if (!job) return refuse('not-found', { thing: 'job' });
  if (job.version !== input.version) return refuse('changed-meanwhile');
  const hold = await findHold(work.tx, job.id);
  const catalog = await findCatalog(work.tx, work.now, job.officeId);
  if (!hold || !catalog) return refuse('hold-over');
  const until = extend(hold, { now: work.now, holdMinutes: catalog.firm.holdMinutes });
  if (!until.ok) return until;
  if (!(await extendHoldOf(work.tx, hold.id, until.value))) return refuse('hold-extended');
  const holdEndsAt = until.value.toISOString();
  const version = await noteJob(work, job.id, job.state, { kind: 'hold_extended', details: { visitId: hold.id, until: holdEndsAt } });
  await work.did('job', job.id, { holdExtendedUntil: holdEndsAt });
  return accept({ id: job.id, version, holdEndsAt });
}
