// Outside providers of the firm, who of them a job has, and their part of each visit.
import { dayIn, execute, type Reader, type Tx } from '../database.ts';

export type ProviderRow = {
  id: string;
  name: string;
  phone: string;
  serviceKey: string;
  serviceName: string;
  contractsWithUs: boolean;
  costCents: number;
  minutes: number;
  offsetMinutes: number;
  licenseUntil: string | null;
  insuranceUntil: string | null;
  endedOn: string | null;
  version: number;
  /** Visits ahead on which this provider is booked. */
  ahead: number;
};

const PROVIDER = `SELECT p.id::text AS id, p.name, p.phone, p.service_key AS "serviceKey", s.name AS "serviceName", p.contracts_with_us AS "contractsWithUs", p.cost_cents AS "costCents", p.minutes, p.offset_minutes AS "offsetMinutes",
  p.license_until::text AS "licenseUntil", p.insurance_until::text AS "insuranceUntil", p.ended_on::text AS "endedOn", p.version,
  (SELECT count(*)::int FROM provider_visit w WHERE w.provider_id = p.id AND w.live AND w.starts_at > $1::timestamptz) AS ahead FROM provider p JOIN service s ON s.key = p.service_key`;

/** Every provider, those who still work for the firm first. */
export const listProviders = (reader: Reader, now: Date): Promise<ProviderRow[]> =>
  reader.rows<ProviderRow>(`${PROVIDER} ORDER BY p.ended_on IS NOT NULL, s.position, p.cost_cents, p.id`, [now.toISOString()]);

export const findProvider = async (reader: Reader, id: string, now: Date): Promise<ProviderRow | null> =>
  (await reader.rows<ProviderRow>(`${PROVIDER} WHERE p.id = $2::uuid`, [now.toISOString(), id]))[0] ?? null;

export const providerServices = (reader: Reader): Promise<{ key: string; name: string }[]> =>
  reader.rows('SELECT key, name FROM service WHERE provider_only ORDER BY position');

export type ProviderEdit = {
  name: string;
  phone: string;
  contractsWithUs: boolean;
  costCents: number;
  minutes: number;
  offsetMinutes: number;
  licenseUntil: string | null;
  insuranceUntil: string | null;
  endedOn: string | null;
};

const dated = ({ licenseUntil, insuranceUntil, endedOn, ...edit }: ProviderEdit) => {
  const date = (day: string | null) => (day === null ? null : dayIn(day));
  return { ...edit, licenseUntil: date(licenseUntil), insuranceUntil: date(insuranceUntil), endedOn: date(endedOn) };
};

/** Adds a provider. Constraint: provider_sane. */
export async function saveProvider(tx: Tx, id: string, serviceKey: string, provider: ProviderEdit): Promise<void> {
  await tx.db.provider.create({ data: { id, serviceKey, ...dated(provider) } });
}

/** Changes a provider if the version is still the one that was seen; answers whether it was. */
export const updateProvider = async (tx: Tx, id: string, version: number, edit: ProviderEdit): Promise<boolean> =>
  (await tx.db.provider.updateMany({ where: { id, version }, data: { ...dated(edit), version: { increment: 1 } } })).count > 0;

/** Locks providers in one order, so that whoever is about to book them comes one after the other. */
export async function lockProviders(tx: Tx, ids: readonly string[]): Promise<void> {
  if (ids.length > 0) await tx.rows('SELECT id::text FROM provider WHERE id = ANY($1::uuid[]) ORDER BY id FOR UPDATE', [ids]);
}

/** Puts a provider on a service of a job, with what was agreed. */
export async function chooseForJob(
  tx: Tx,
  jobId: string,
  service: string,
  chosen: { providerId: string; agreedCents: number; contractsWithUs: boolean },
): Promise<void> {
  await tx.db.jobService.updateMany({ where: { jobId, serviceKey: service }, data: chosen });
}

type Timed = { id: string; startsAt: Date; endsAt: Date; live: boolean };

/** Writes the providers' parts of a visit. Constraint: provider_taken. */
export async function saveParts(
  tx: Tx,
  visit: Timed,
  parts: readonly { service: string; providerId: string; offsetMinutes: number; minutes: number }[],
): Promise<void> {
  const { id: visitId, startsAt, endsAt, live } = visit;
  const data = parts.map(({ service: serviceKey, ...part }) => ({ visitId, serviceKey, ...part, startsAt, endsAt, live }));
  if (data.length > 0) await tx.db.providerVisit.createMany({ data });
}

/** Takes away the part of a service on the visits of a job that are still ahead; answers the visits. */
export const dropParts = (tx: Tx, jobId: string, service: string): Promise<void> =>
  execute(
    tx,
    `DELETE FROM provider_visit w USING visit v WHERE v.id = w.visit_id AND v.job_id = $1::uuid AND v.state IN ('held', 'booked') AND w.service_key = $2`,
    jobId,
    service,
  );
