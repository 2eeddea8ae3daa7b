// What clients can order: added and changed by the owner, no longer offered from a day on.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { addService, changeService, listServices, type ServiceInput } from '@backsight/store/jobs/services';
import type { Reader } from '@backsight/store/database';
import { FIRM_THING, localDay } from '../firm/steps/localDay.ts';
import type { Act, Work } from '../run.ts';

export const readServices = async (reader: Reader) => ({ items: await listServices(reader) });

export type NewService = ServiceInput & { key: string };

/** Refusals: service-key-taken. */
export const createService: Act<NewService, { key: string; version: number }> = { operation: 'jobs.add-service', run: add };

async function add(work: Work, { key, ...service }: NewService): Promise<Outcome<{ key: string; version: number }>> {
  if ((await listServices(work.tx)).some((one) => one.key === key)) return refuse('service-key-taken', {}, 'key');
  await addService(work.tx, key, service);
  await work.did('firm', FIRM_THING, { serviceAdded: key });
  return accept({ key, version: 1 });
}

export type ServiceChange = ServiceInput & { key: string; version: number; offered: boolean };

/** Jobs that ordered it keep it. Refusals: base-service-stays. */
export const editService: Act<ServiceChange, { key: string; version: number }> = { operation: 'jobs.change-service', run: edit };

async function edit(work: Work, { key, version, offered, ...service }: ServiceChange): Promise<Outcome<{ key: string; version: number }>> {
  const before = (await listServices(work.tx)).find((one) => one.key === key);
  if (!before) return refuse('not-found', { thing: 'service' });
  if (before.base && !offered) return refuse('base-service-stays', {}, 'offered');
  const { today } = await localDay(work.tx, work.now);
  const endedOn = offered ? null : (before.endedOn ?? today);
  if (!(await changeService(work.tx, key, version, { ...service, endedOn }))) return refuse('changed-meanwhile');
  await work.did('firm', FIRM_THING, { service: key, offered });
  return accept({ key, version: version + 1 });
}
