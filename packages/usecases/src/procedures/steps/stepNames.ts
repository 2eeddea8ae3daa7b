// Names that sentences about steps point at.
import type { StepNames } from '@backsight/domain/procedures/stepWords';
import type { Reader } from '@backsight/store/database';
import { findCatalog } from '@backsight/store/jobs/catalog';
import { stepTitles } from '@backsight/store/procedures/book';

/** Names of services and titles of steps, for sentences that point at them. */
export async function stepNames(reader: Reader, now: Date): Promise<StepNames> {
  const services = (await findCatalog(reader, now))?.services ?? [];
  return { services: Object.fromEntries(services.map(({ key, name }) => [key, name])), steps: await stepTitles(reader) };
}
