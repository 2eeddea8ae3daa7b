// What clients can order, as the owner sets it up.
import type { Applicability } from '@backsight/domain/shared/applicability';
import type { Prisma } from '../generated/client.ts';
import { dayIn, type Reader, type Tx } from '../database.ts';

export type ServiceInput = {
  name: string;
  searchWords: string[];
  providerOnly: boolean;
  offeredWhen: Applicability;
  extraVisit: string | null;
};
export type ServiceRow = ServiceInput & {
  key: string;
  base: boolean;
  position: number;
  endedOn: string | null;
  version: number;
  jobs: number;
};

/** Every service, also those that are no longer offered. */
export const listServices = (reader: Reader): Promise<ServiceRow[]> =>
  reader.rows(
    `SELECT key, name, search_words AS "searchWords", position, base, provider_only AS "providerOnly", offered_when AS "offeredWhen", extra_visit AS "extraVisit", ended_on::text AS "endedOn", version,
      (SELECT count(*)::int FROM job_service WHERE service_key = service.key) AS jobs FROM service ORDER BY position, key`,
  );

const json = (rule: Applicability): Prisma.InputJsonValue => rule as unknown as Prisma.InputJsonValue;

/** Constraint: service_pkey. */
export async function addService(tx: Tx, key: string, { offeredWhen, ...service }: ServiceInput): Promise<void> {
  const [last] = await tx.rows<{ at: number }>('SELECT coalesce(max(position), 0)::int AS at FROM service');
  await tx.db.service.create({ data: { ...service, key, position: last!.at + 1, offeredWhen: json(offeredWhen) } });
}

/** Answers false when somebody else changed it meanwhile. `endedOn` null = offered (again). */
export async function changeService(
  tx: Tx,
  key: string,
  version: number,
  { offeredWhen, endedOn, ...service }: ServiceInput & { endedOn: string | null },
): Promise<boolean> {
  const { count } = await tx.db.service.updateMany({
    where: { key, version },
    data: { ...service, offeredWhen: json(offeredWhen), endedOn: endedOn === null ? null : dayIn(endedOn), version: version + 1 },
  });
  return count === 1;
}
