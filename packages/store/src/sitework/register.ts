// The register of reports in sequence, consents to other recipients, and overrides of the hand-over.
import { dayIn, type Reader, type Tx } from '../database.ts';
import { PEOPLE, type ReportPerson } from './report.ts';

export type RegisterRow = {
  no: number;
  jobId: string;
  jobNumber: number;
  clients: string[];
  address: string;
  inspectedOn: string;
  /** Date of the first report, and of every revision since. */
  reportOn: string;
  revisedOn: string[];
  people: ReportPerson[];
  deliveredAt: Date | null;
  deliveredTo: string[];
  /** Fingerprints of the files that left, by version. */
  sha256: string[];
};

/** Lines of the register in their sequence, by the day of the inspection, both days included; those after a number of it, as many as `limit`, or all. */
export const registerLines = (
  reader: Reader,
  days: { from: string; to: string },
  { after = 0, limit = null }: { after?: number; limit?: number | null } = {},
): Promise<RegisterRow[]> =>
  reader.rows<RegisterRow>(
    `SELECT r.register_no AS no, j.id::text AS "jobId", j.number AS "jobNumber", p.address || ', ' || p.town AS address, r.inspected_on::text AS "inspectedOn", r.report_on::text AS "reportOn", ${PEOPLE} AS people,
       coalesce((SELECT array_agg(c.name ORDER BY c.name) FROM job_party o JOIN party c ON c.id = o.party_id WHERE o.job_id = j.id AND o.role = 'client'), '{}') AS clients,
       coalesce((SELECT array_agg(n.revised_on::text ORDER BY n.version) FROM report n WHERE n.job_id = j.id AND n.revised_on IS NOT NULL), '{}') AS "revisedOn",
       (SELECT min(d.delivered_at) FROM report n JOIN report_delivery d ON d.report_id = n.id WHERE n.job_id = j.id) AS "deliveredAt",
       coalesce((SELECT array_agg(DISTINCT c.name ORDER BY c.name) FROM report n JOIN report_delivery d ON d.report_id = n.id JOIN party c ON c.id = d.party_id WHERE n.job_id = j.id), '{}') AS "deliveredTo",
       coalesce((SELECT array_agg(coalesce(n.file_sha256, s.sha256) ORDER BY n.version) FROM report n LEFT JOIN sealed_paper s ON s.report_id = n.id WHERE n.job_id = j.id AND coalesce(n.file_sha256, s.sha256) IS NOT NULL), '{}') AS sha256
     FROM report r JOIN job j ON j.id = r.job_id JOIN property p ON p.id = j.property_id WHERE r.version = 1 AND r.inspected_on BETWEEN $1::date AND $2::date AND r.register_no > $3::int ORDER BY r.register_no LIMIT $4::int`,
    [days.from, days.to, after, limit],
  );

export type ConsentKind = 'given' | 'withdrawn';
export type ConsentHow = 'mail' | 'paper' | 'agreement';
export type NewConsent = {
  id: string;
  jobId: string;
  partyId: string;
  clientId: string;
  kind: ConsentKind;
  how: ConsentHow;
  note: string;
  givenOn: string;
  takenBy: string;
  at: Date;
};

/** Keeps the consent and lets the recipient's roles on the job follow it. */
export async function saveConsent(tx: Tx, { at, givenOn, ...row }: NewConsent): Promise<void> {
  await tx.db.reportConsent.create({ data: { ...row, givenOn: dayIn(givenOn), recordedAt: at } });
  const given = row.kind === 'given';
  await tx.db.jobParty.updateMany({
    where: { jobId: row.jobId, partyId: row.partyId },
    data: { mayReceiveReport: given, consentAt: given ? at : null },
  });
}

export type ConsentRow = Omit<NewConsent, 'jobId' | 'clientId' | 'takenBy' | 'at'> & { client: string; takenBy: string; recordedAt: Date };

export const consentsOfJob = (reader: Reader, jobId: string): Promise<ConsentRow[]> =>
  reader.rows<ConsentRow>(
    `SELECT c.id::text AS id, c.party_id::text AS "partyId", c.kind, c.how, c.note, c.given_on::text AS "givenOn", w.name AS client, q.name AS "takenBy", c.recorded_at AS "recordedAt"
     FROM report_consent c JOIN party w ON w.id = c.client_id JOIN person q ON q.id = c.taken_by WHERE c.job_id = $1::uuid ORDER BY c.recorded_at, c.id`,
    [jobId],
  );

export type HandOverOverride = { id: string; missing: string[]; reason: string; by: string; happenedAt: Date };

export const handOverOverrides = (reader: Reader, jobId: string): Promise<HandOverOverride[]> =>
  reader.rows<HandOverOverride>(
    `SELECT o.id::text AS id, o.missing, o.reason, p.name AS by, o.happened_at AS "happenedAt" FROM hand_over_override o JOIN person p ON p.id = o.actor_id WHERE o.job_id = $1::uuid ORDER BY o.id`,
    [jobId],
  );

/** Rule: hand_over_override_says. */
export async function saveHandOverOverride(
  tx: Tx,
  { at, ...row }: { id: string; jobId: string; missing: string[]; reason: string; actorId: string; at: Date },
): Promise<void> {
  await tx.db.handOverOverride.create({ data: { ...row, happenedAt: at, recordedAt: at } });
}

export type ReportAwaited = { jobId: string; number: number; where: string; endsAt: Date };

/** Inspections that are over and whose report nobody got yet. */
export const reportsAwaited = (reader: Reader): Promise<ReportAwaited[]> =>
  reader.rows<ReportAwaited>(
    `SELECT j.id::text AS "jobId", j.number, p.address || ', ' || p.town AS where, max(v.ends_at) AS "endsAt" FROM visit v JOIN job j ON j.id = v.job_id JOIN property p ON p.id = j.property_id
     WHERE j.state = 'visited' AND j.kind = 'inspection' AND v.state IN ('done', 'ended') AND NOT EXISTS (SELECT FROM report r JOIN report_delivery d ON d.report_id = r.id WHERE r.job_id = j.id) GROUP BY j.id, p.id`,
  );
