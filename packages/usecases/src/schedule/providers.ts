// Keeps the outside providers of the firm.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import {
  findProvider,
  listProviders,
  providerServices,
  saveProvider,
  updateProvider,
  type ProviderEdit,
} from '@backsight/store/schedule/providers';
import type { Act, Work } from '../run.ts';

export const readProviders = async (reader: Reader, now: Date) => ({
  providers: await listProviders(reader, now),
  services: await providerServices(reader),
});

export type NewProvider = ProviderEdit & { id: string; serviceKey: string };

export const addProvider: Act<NewProvider, { id: string }> = { operation: 'schedule.add-provider', run: add };

async function add(work: Work, { id, serviceKey, ...provider }: NewProvider): Promise<Outcome<{ id: string }>> {
  if (!(await providerServices(work.tx)).some(({ key }) => key === serviceKey))
    return refuse('not-found', { thing: 'service' }, 'serviceKey');
  await saveProvider(work.tx, id, serviceKey, provider);
  const { costCents, minutes, licenseUntil, insuranceUntil } = provider;
  await work.did('provider', id, { serviceKey, costCents, minutes, licenseUntil, insuranceUntil });
  return accept({ id });
}

export type ProviderChange = { id: string; version: number; edit: Partial<ProviderEdit> };

export const changeProvider: Act<ProviderChange, { id: string; version: number }> = { operation: 'schedule.change-provider', run: change };

/** What was agreed for a job stays as it was. */
async function change(work: Work, { id, version, edit }: ProviderChange): Promise<Outcome<{ id: string; version: number }>> {
  const known = await findProvider(work.tx, id, work.now);
  if (!known) return refuse('not-found', { thing: 'provider' });
  const { name, phone, contractsWithUs, costCents, minutes, offsetMinutes, licenseUntil, insuranceUntil, endedOn } = known;
  const before = { name, phone, contractsWithUs, costCents, minutes, offsetMinutes, licenseUntil, insuranceUntil, endedOn };
  if (!(await updateProvider(work.tx, id, version, { ...before, ...edit }))) return refuse('changed-meanwhile');
  await work.did('provider', id, {
    changed: Object.keys(edit),
    costCents: edit.costCents ?? costCents,
    licenseUntil: edit.licenseUntil === undefined ? licenseUntil : edit.licenseUntil,
    insuranceUntil: edit.insuranceUntil === undefined ? insuranceUntil : edit.insuranceUntil,
    endedOn: edit.endedOn === undefined ? endedOn : edit.endedOn,
  });
  return accept({ id, version: version + 1 });
}
