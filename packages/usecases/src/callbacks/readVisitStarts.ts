// When the firm can come again for a callback: ranked starts without those of the original pair alone.
import type { Role } from '@backsight/domain/people/roles';
import { instantOf } from '@backsight/domain/schedule/wallClock';
import { accept, refuse } from '@backsight/domain/shared/outcome';
import { findCallback, findRemedy } from '@backsight/store/callbacks';
import { findJobForCallback } from '@backsight/store/callbacks/job';
import type { Reader } from '@backsight/store/database';
import { rankStarts } from '../schedule/steps/rankStarts.ts';
import { isOwner } from './steps/callback.ts';
import { visitDemand } from './steps/visitDemand.ts';

const DAYS = 14;
const SHOWN = 8;
const NOON = 720;

/** `originalPair`: names of those who did the inspection and do not come alone. */
export async function readVisitStarts(reader: Reader, input: { remedyId: string; fromDay: string; roles: readonly Role[]; now: Date }) {
  const remedy = await findRemedy(reader, input.remedyId);
  const callback = remedy && (await findCallback(reader, remedy.callbackId));
  if (!callback || (callback.ownerOnly && !isOwner(input.roles))) return refuse('not-found', { thing: 'remedy' });
  const job = (await findJobForCallback(reader, callback.jobId))!;
  const noon = instantOf(input.fromDay, NOON, job.zone);
  if (!noon.ok) return noon;
  const asked = await visitDemand(reader, job, { now: input.now, startsAt: noon.value });
  if (!asked.ok) return asked;
  const { context, demand } = asked.value;
  const starts = await rankStarts(reader, input.now, {
    office: context.catalog.office,
    demand,
    fromDay: input.fromDay,
    days: DAYS,
    limit: SHOWN,
    withoutVisit: null,
  });
  return accept({ starts, originalPair: [...new Set(job.pair.map(({ name }) => name))] });
}
