// Who comes to the visits of a job: when the client is there, who comes along, and the outside providers.
import { accept, refuse } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import { findJob } from '@backsight/store/jobs/jobs';
import { findCrew } from '@backsight/store/schedule/crew';
import type { Actor } from '../run.ts';
import { mayCallPeople } from './steps/mayCallPeople.ts';
import { listProviders } from '@backsight/store/schedule/providers';

export async function readCrew(reader: Reader, { now, jobId, actor }: { now: Date; jobId: string; actor: Actor }) {
  const job = await findJob(reader, jobId);
  if (!job) return refuse('not-found', { thing: 'job' });
  const { visits, observers, services, items } = await findCrew(reader, jobId);
  const providers = services.length === 0 ? [] : await listProviders(reader, now);
  const reached = await mayCallPeople(reader, jobId, { actor, now });
  return accept({
    version: job.version,
    visits: visits.map(({ startsAt, endsAt, walkThroughMinutes, ...visit }) => ({
      ...visit,
      startsAt: startsAt.toISOString(),
      endsAt: endsAt.toISOString(),
      clientComesAt:
        job.clientAttends && walkThroughMinutes > 0 ? new Date(endsAt.getTime() - walkThroughMinutes * 60_000).toISOString() : null,
      observers: observers.filter(({ visitId }) => visitId === visit.id).map(({ visitId: _, ...one }) => one),
    })),
    services: services.map((one) => ({
      ...one,
      phone: reached ? one.phone : null,
      choices: providers
        .filter(({ serviceKey, endedOn }) => serviceKey === one.service && endedOn === null)
        .map(({ id, name, costCents, contractsWithUs, licenseUntil, insuranceUntil }) => ({
          id,
          name,
          costCents,
          contractsWithUs,
          licenseUntil,
          insuranceUntil,
        })),
    })),
    items,
    reinspects: job.kind === 'reinspection',
    mayReinspect: job.kind === 'inspection' && (job.state === 'visited' || job.state === 'reported'),
  });
}
