// Puts an outside provider on a service of a job, with what is agreed, and books his part of the visit that lies ahead.
import { wallTime } from '@backsight/domain/schedule/wallClock';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { outsideSaid, providerFree } from '@backsight/scheduling/outside';
import { lockJob } from '@backsight/store/jobs/jobs';
import { chooseForJob, dropParts, findProvider, lockProviders, saveParts, type ProviderRow } from '@backsight/store/schedule/providers';
import { findVisitsOfJob, type VisitRow } from '@backsight/store/schedule/visits';
import type { Act, Work } from '../run.ts';
import { loadWorld, without } from '../schedule/steps/loadWorld.ts';
import { jobContext, noteJob, type JobContext } from './steps/loadJob.ts';

/** `agreedCents` and `contractsWithUs` are the provider's own where nothing else was agreed. */
export type ChooseInput = {
  jobId: string;
  version: number;
  service: string;
  providerId: string;
  agreedCents?: number | undefined;
  contractsWithUs?: boolean | undefined;
};

export const chooseProvider: Act<ChooseInput, { id: string; version: number }> = { operation: 'jobs.choose-provider', run: choose };

async function choose(work: Work, input: ChooseInput): Promise<Outcome<{ id: string; version: number }>> {
  const context = await jobContext(work.tx, input.jobId, work.now);
  if (!context.ok) return context;
  const provider = await ofService(work, context.value, input);
  if (!provider.ok) return provider;
  await lockProviders(work.tx, [input.providerId]);
  const job = (await lockJob(work.tx, input.jobId))!;
  if (job.version !== input.version) return refuse('changed-meanwhile');
  const visit = (await findVisitsOfJob(work.tx, job.id)).find(
    ({ kind, state }) => kind === 'inspection' && (state === 'held' || state === 'booked'),
  );
  if (!visit) return refuse('job-is', { state: job.state.replaceAll('_', ' ') });
  const free = await isFree(work, context.value, provider.value, visit);
  if (!free.ok) return free;
  const { id: providerId, costCents, contractsWithUs, offsetMinutes, minutes } = provider.value;
  const agreedCents = input.agreedCents ?? costCents;
  await dropParts(work.tx, job.id, input.service);
  await chooseForJob(work.tx, job.id, input.service, {
    providerId,
    agreedCents,
    contractsWithUs: input.contractsWithUs ?? contractsWithUs,
  });
  await saveParts(work.tx, { ...visit, live: true }, [{ service: input.service, providerId, offsetMinutes, minutes }]);
  const version = await noteJob(work, job.id, job.state, {
    kind: 'provider_chosen',
    details: { service: input.service, providerId, agreedCents },
  });
  await work.did('job', job.id, { service: input.service, providerId, agreedCents });
  return accept({ id: job.id, version });
}

async function ofService(work: Work, { catalog, services }: JobContext, input: ChooseInput): Promise<Outcome<ProviderRow>> {
  const service = catalog.services.find(({ key }) => key === input.service);
  if (!service?.providerOnly || !services.includes(input.service)) return refuse('service-not-outside', {}, 'service');
  const provider = await findProvider(work.tx, input.providerId, work.now);
  if (!provider) return refuse('not-found', { thing: 'provider' }, 'providerId');
  if (provider.serviceKey !== input.service) return refuse('provider-other-service', { name: provider.name }, 'providerId');
  return provider.endedOn === null ? accept(provider) : refuse('provider-ended', { name: provider.name }, 'providerId');
}

/** His papers hold on the day of the visit, and he is nowhere else during his part of it. */
async function isFree(work: Work, { catalog: { office } }: JobContext, provider: ProviderRow, visit: VisitRow): Promise<Outcome<null>> {
  const { day, minute } = wallTime(visit.startsAt, office.zone);
  const world = without(await loadWorld(work.tx, { from: day, to: day, now: work.now, officeId: office.id, zone: office.zone }), visit.id);
  const outside = {
    id: provider.id,
    name: provider.name,
    offset: provider.offsetMinutes,
    minutes: provider.minutes,
    licensedUntil: provider.licenseUntil,
    insuredUntil: provider.insuranceUntil,
    busy: world.outside.filter(({ providerId }) => providerId === provider.id),
  };
  if (providerFree(outside, day, minute)) return accept(null);
  return refuse('provider-not-free', { sentence: outsideSaid({ service: provider.serviceName, providers: [outside] }, day) }, 'providerId');
}
