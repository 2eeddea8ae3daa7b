// What is on file already of the people, clients, properties and jobs that a spreadsheet names; each asked for once for the whole of it.
import type { Reader } from '../database.ts';

export type KnownPerson = { id: string; name: string; email: string; startedOn: string; endedOn: string | null };
export const knownPeople = (reader: Reader): Promise<KnownPerson[]> =>
  reader.rows('SELECT id::text AS id, name, email, started_on::text AS "startedOn", ended_on::text AS "endedOn" FROM person ORDER BY id');

export type KnownParty = { id: string; name: string; email: string | null; phone: string | null };
/** Clients with one of the addresses or names, which are in small letters; the oldest first. */
export const knownParties = (
  reader: Reader,
  { emails, names }: { emails: readonly string[]; names: readonly string[] },
): Promise<KnownParty[]> =>
  reader.rows(
    'SELECT id::text AS id, name, email, phone FROM party WHERE lower(email) = ANY ($1::text[]) OR lower(name) = ANY ($2::text[]) ORDER BY recorded_at, id',
    [emails, names],
  );

export type KnownPlace = { id: string; key: string };
export const knownProperties = (reader: Reader, keys: readonly string[]): Promise<KnownPlace[]> =>
  reader.rows('SELECT id::text AS id, address_key AS key FROM property WHERE address_key = ANY ($1::text[])', [keys]);

/** Days on which there was or is to be a visit at properties, where the office is. */
export const jobDaysOf = (reader: Reader, propertyIds: readonly string[]): Promise<{ propertyId: string; day: string; number: number }[]> =>
  reader.rows(
    `SELECT j.property_id::text AS "propertyId", (v.starts_at AT TIME ZONE o.zone)::date::text AS day, j.number FROM job j JOIN office o ON o.id = j.office_id
       JOIN visit v ON v.job_id = j.id AND v.state NOT IN ('cancelled', 'lapsed') WHERE j.property_id = ANY ($1::uuid[]) AND j.kind = 'inspection'`,
    [propertyIds],
  );

export type KnownService = { key: string; name: string; words: string[]; base: boolean };
export const knownServices = (reader: Reader): Promise<KnownService[]> =>
  reader.rows('SELECT key, name, search_words AS words, base FROM service ORDER BY position, key');

export type Frame = {
  officeId: string;
  zone: string;
  lat: number;
  lon: number;
  address: string;
  minutes: number;
  crewSize: number;
  scheduleId: string | null;
  rulesId: string | null;
};
/** What records of the firm's first office hang on: its place, the visit of an inspection, and the schedule and rules in force. Null before set-up. */
export const findFrame = async (reader: Reader, now: Date): Promise<Frame | null> =>
  (
    await reader.rows<Frame>(
      `SELECT o.id::text AS "officeId", o.zone, o.lat, o.lon, o.address, k.minutes, k.crew_size AS "crewSize",
         (SELECT id::text FROM fee_schedule WHERE state = 'in_force' AND in_force_from <= $1::timestamptz ORDER BY in_force_from DESC, number DESC LIMIT 1) AS "scheduleId",
         (SELECT id::text FROM booking_rules WHERE in_force_from <= $1::timestamptz ORDER BY in_force_from DESC, number DESC LIMIT 1) AS "rulesId"
       FROM office o JOIN visit_kind k ON k.key = 'inspection' ORDER BY o.id LIMIT 1`,
      [now.toISOString()],
    )
  )[0] ?? null;
