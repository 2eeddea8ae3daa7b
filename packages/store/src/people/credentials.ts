// Licenses and qualifications of people, with the days on which they count.
import { dayIn, type Reader, type Tx } from '../database.ts';

export type LicenseRow = { id: string; kind: string; number: string; fromDay: string; untilDay: string };
export type QualificationRow = { id: string; kind: string; name: string; fromDay: string; untilDay: string | null };

/** Licenses of a person, newest first. */
export const licensesOf = (reader: Reader, personId: string): Promise<LicenseRow[]> =>
  reader.rows<LicenseRow>(
    `SELECT id::text AS id, kind, number, from_day::text AS "fromDay", until_day::text AS "untilDay" FROM license WHERE person_id = $1::uuid ORDER BY until_day DESC, kind`,
    [personId],
  );

/** Adds a license. Constraints: license_once_at_a_time, license_kind_number_from_day_key. */
export async function saveLicense(tx: Tx, license: LicenseRow & { personId: string }): Promise<void> {
  await tx.db.license.create({ data: { ...license, fromDay: dayIn(license.fromDay), untilDay: dayIn(license.untilDay) } });
}

export const findLicense = async (reader: Reader, id: string): Promise<(LicenseRow & { personId: string }) | null> =>
  (
    await reader.rows<LicenseRow & { personId: string }>(
      `SELECT id::text AS id, person_id::text AS "personId", kind, number, from_day::text AS "fromDay", until_day::text AS "untilDay" FROM license WHERE id = $1::uuid`,
      [id],
    )
  )[0] ?? null;

export async function setLicenseEnd(tx: Tx, id: string, untilDay: string): Promise<void> {
  await tx.db.license.update({ where: { id }, data: { untilDay: dayIn(untilDay) } });
}

/** Kinds of qualification that the firm knows. */
export const qualificationKinds = (reader: Reader): Promise<{ key: string; name: string }[]> =>
  reader.rows<{ key: string; name: string }>('SELECT key, name FROM qualification_kind ORDER BY name');

export const qualificationsOf = (reader: Reader, personId: string): Promise<QualificationRow[]> =>
  reader.rows<QualificationRow>(
    `SELECT q.id::text AS id, q.kind, k.name, q.from_day::text AS "fromDay", q.until_day::text AS "untilDay" FROM person_qualification q JOIN qualification_kind k ON k.key = q.kind WHERE q.person_id = $1::uuid ORDER BY k.name, q.from_day DESC`,
    [personId],
  );

/** Adds a qualification. Constraint: person_qualification_person_id_kind_from_day_key. */
export async function saveQualification(
  tx: Tx,
  q: { id: string; personId: string; kind: string; fromDay: string; untilDay: string | null },
): Promise<void> {
  await tx.db.personQualification.create({
    data: { ...q, fromDay: dayIn(q.fromDay), untilDay: q.untilDay === null ? null : dayIn(q.untilDay) },
  });
}

export const findQualification = async (reader: Reader, id: string): Promise<{ personId: string; kind: string; fromDay: string } | null> =>
  (
    await reader.rows<{ personId: string; kind: string; fromDay: string }>(
      `SELECT person_id::text AS "personId", kind, from_day::text AS "fromDay" FROM person_qualification WHERE id = $1::uuid`,
      [id],
    )
  )[0] ?? null;

export async function setQualificationEnd(tx: Tx, id: string, untilDay: string): Promise<void> {
  await tx.db.personQualification.update({ where: { id }, data: { untilDay: dayIn(untilDay) } });
}
