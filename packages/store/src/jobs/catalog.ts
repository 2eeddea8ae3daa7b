// What a quote rests on: services, providers, booking rules and fee schedule in force, kinds of visit, towns.
import type { FeeSchedule } from '@backsight/domain/fees/schedule';
import type { CatalogService, Provider } from '@backsight/domain/jobs/decide';
import type { DeskRules } from '@backsight/domain/jobs/deskRules';
import type { DurationRule } from '@backsight/domain/jobs/duration';
import type { RequirementRule } from '@backsight/domain/schedule/requirements';
import type { Reader } from '../database.ts';
import { asDesk, asRules, asSchedule } from './stored.ts';

export type OfficeRow = {
  id: string;
  name: string;
  zone: string;
  lat: number;
  lon: number;
  hours: Record<string, [number, number] | null>;
};
export type VisitKindRow = { key: string; name: string; crewSize: 1 | 2; minutes: number; reportMinutes: number };
export type TownRow = { name: string; zip: string; lat: number; lon: number };

export type Catalog = {
  firm: { holdMinutes: number; reportDueDays: number; name: string; phone: string };
  office: OfficeRow;
  services: CatalogService[];
  providers: Provider[];
  visitKinds: VisitKindRow[];
  rules: { id: string; body: { durations: DurationRule[]; requirements: RequirementRule[]; desk?: DeskRules } } | null;
  schedule: { id: string; body: FeeSchedule } | null;
};

const CATALOG = `SELECT
  (SELECT json_build_object('holdMinutes', hold_minutes, 'reportDueDays', report_due_days, 'name', name, 'phone', phone) FROM firm) AS firm,
  (SELECT json_build_object('id', id, 'name', name, 'zone', zone, 'lat', lat, 'lon', lon, 'hours', hours) FROM office WHERE $2::uuid IS NULL OR id = $2::uuid ORDER BY id LIMIT 1) AS office,
  (SELECT coalesce(json_agg(json_build_object('key', key, 'name', name, 'searchWords', search_words, 'base', base, 'providerOnly', provider_only, 'offeredWhen', offered_when, 'extraVisit', extra_visit, 'endedOn', ended_on::text) ORDER BY position), '[]') FROM service) AS services,
  (SELECT coalesce(json_agg(json_build_object('id', id, 'serviceKey', service_key, 'name', name, 'licenseUntil', license_until::text, 'insuranceUntil', insurance_until::text, 'offsetMinutes', offset_minutes, 'minutes', minutes, 'costCents', cost_cents, 'contractsWithUs', contracts_with_us) ORDER BY cost_cents, id), '[]')
     FROM provider WHERE ended_on IS NULL) AS providers,
  (SELECT coalesce(json_agg(json_build_object('key', key, 'name', name, 'crewSize', crew_size, 'minutes', minutes, 'reportMinutes', report_minutes) ORDER BY key), '[]') FROM visit_kind) AS "visitKinds",
  (SELECT json_build_object('id', id, 'body', body) FROM booking_rules WHERE in_force_from <= $1::timestamptz ORDER BY in_force_from DESC, number DESC LIMIT 1) AS rules,
  (SELECT json_build_object('id', id, 'body', body) FROM fee_schedule WHERE state = 'in_force' AND in_force_from <= $1::timestamptz ORDER BY in_force_from DESC, number DESC LIMIT 1) AS schedule`;

/** Everything that prices and plans a job at an instant. `officeId` null = the first office. Null before the firm's set-up. */
export async function findCatalog(reader: Reader, at: Date, officeId: string | null = null): Promise<Catalog | null> {
  const [row] = await reader.rows<Catalog>(CATALOG, [at.toISOString(), officeId]);
  return row?.firm && row.office ? { ...row, rules: asRules(row.rules), schedule: asSchedule(row.schedule) } : null;
}

/** The first office with its zone, which is all of the catalog that a calendar needs. Null before the firm's set-up. */
export const findOffice = async (reader: Reader): Promise<Pick<OfficeRow, 'id' | 'zone'> | null> =>
  (
    await reader.rows<Pick<OfficeRow, 'id' | 'zone'>>(
      'SELECT id::text AS id, zone FROM office WHERE EXISTS (SELECT FROM firm) ORDER BY id LIMIT 1',
    )
  )[0] ?? null;

/** What the desk charges and waits for, as one version of the booking rules holds it; null where it sets nothing. */
export const deskRulesIn = (rulesId: string, desk: unknown): DeskRules | null => asDesk({ id: rulesId, body: desk })?.body ?? null;

export const findDeskRules = async (reader: Reader, rulesId: string): Promise<DeskRules | null> => {
  const [row] = await reader.rows<{ desk: unknown }>(`SELECT body->'desk' AS desk FROM booking_rules WHERE id = $1::uuid`, [rulesId]);
  return row ? deskRulesIn(rulesId, row.desk) : null;
};

/** The rules and the schedule under which one job was priced. */
export async function findFrozen(
  reader: Reader,
  ids: { rulesId: string; scheduleId: string },
): Promise<Pick<Catalog, 'rules' | 'schedule'>> {
  const [row] = await reader.rows<Pick<Catalog, 'rules' | 'schedule'>>(
    `SELECT (SELECT json_build_object('id', id, 'body', body) FROM booking_rules WHERE id = $1::uuid) AS rules, (SELECT json_build_object('id', id, 'body', body) FROM fee_schedule WHERE id = $2::uuid) AS schedule`,
    [ids.rulesId, ids.scheduleId],
  );
  return { rules: asRules(row!.rules), schedule: asSchedule(row!.schedule) };
}

export const listTowns = (reader: Reader): Promise<TownRow[]> => reader.rows<TownRow>('SELECT name, zip, lat, lon FROM town ORDER BY name');
