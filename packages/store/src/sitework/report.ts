// The register of the client's report: versions with their dates, files taken in, and to whom it was handed over.
import type { Prisma } from '../generated/client.ts';
import { dayIn, type Reader, type Tx } from '../database.ts';

export type ReportPerson = { name: string; did: 'inspected' | 'prepared'; license: string | null; until: string | null };

export type ReportRow = {
  id: string;
  jobId: string;
  version: number;
  source: 'drafted' | 'taken_in';
  body: Record<string, unknown>;
  fileSha256: string | null;
  fileName: string | null;
  fileBytes: number | null;
  inspectedOn: string;
  completedOn: string;
  reportOn: string;
  revisedOn: string | null;
  inspectedBy: string[];
  preparedBy: string;
  preparedByName: string;
  /** Who inspected and who prepared it, each with the license on the day of the inspection. */
  people: ReportPerson[];
  registerNo: number | null;
  /** The file as it was handed over; null for one not handed over, or taken in. */
  sealed: { sha256: string; at: string } | null;
  recordedAt: Date;
  deliveries: { id: string; name: string; partyId: string; deliveredAt: string; method: string }[];
};

/** People of a report with the license that was valid on the day; the inspector's own kind before any other. */
export const PEOPLE = `(SELECT coalesce(jsonb_agg(jsonb_build_object('name', w.name, 'did', w.did, 'license', l.number, 'until', l.until_day::text) ORDER BY w.did, w.name), '[]'::jsonb)
    FROM (SELECT id, name, 'inspected' AS did FROM person WHERE id = ANY(r.inspected_by) UNION ALL SELECT id, name, 'prepared' FROM person WHERE id = r.prepared_by) w
    LEFT JOIN LATERAL (SELECT number, until_day FROM license l WHERE l.person_id = w.id AND l.from_day <= r.inspected_on AND l.until_day >= r.inspected_on ORDER BY l.kind = 'home_inspector' DESC, l.id LIMIT 1) l ON true)`;

const REPORT = `SELECT r.id::text AS id, r.job_id::text AS "jobId", r.version, r.source, r.body, r.file_sha256 AS "fileSha256", f.name AS "fileName", f.bytes AS "fileBytes", r.inspected_on::text AS "inspectedOn",
    r.completed_on::text AS "completedOn", r.report_on::text AS "reportOn", r.revised_on::text AS "revisedOn",
    coalesce((SELECT array_agg(w.name ORDER BY w.name) FROM person w WHERE w.id = ANY(r.inspected_by)), '{}') AS "inspectedBy", r.prepared_by::text AS "preparedBy", q.name AS "preparedByName", ${PEOPLE} AS people, r.register_no AS "registerNo", r.recorded_at AS "recordedAt",
    (SELECT jsonb_build_object('sha256', s.sha256, 'at', s.recorded_at) FROM sealed_paper s WHERE s.report_id = r.id) AS sealed,
    coalesce((SELECT jsonb_agg(jsonb_build_object('id', d.id, 'name', p.name, 'partyId', d.party_id, 'deliveredAt', d.delivered_at, 'method', d.method) ORDER BY d.delivered_at)
      FROM report_delivery d JOIN party p ON p.id = d.party_id WHERE d.report_id = r.id), '[]'::jsonb) AS deliveries
  FROM report r JOIN person q ON q.id = r.prepared_by LEFT JOIN stored_file f ON f.sha256 = r.file_sha256`;

/** Versions of a job's report, newest first. */
export const reportsOfJob = (reader: Reader, jobId: string): Promise<ReportRow[]> =>
  reader.rows<ReportRow>(`${REPORT} WHERE r.job_id = $1::uuid ORDER BY r.version DESC`, [jobId]);

export const findReport = async (reader: Reader, id: string): Promise<ReportRow | null> =>
  (await reader.rows<ReportRow>(`${REPORT} WHERE r.id = $1::uuid`, [id]))[0] ?? null;

export type NewReport = {
  id: string;
  jobId: string;
  version: number;
  source: 'drafted' | 'taken_in';
  body: unknown;
  fileSha256: string | null;
  inspectedOn: string;
  completedOn: string;
  reportOn: string;
  revisedOn: string | null;
  inspectedBy: string[];
  preparedBy: string;
  /** The job's number in the register, on version 1. */
  registerNo: number | null;
  at: Date;
};

/** Constraint: report_job_id_version_key. */
export async function saveReport(tx: Tx, r: NewReport): Promise<void> {
  const { at, body, inspectedOn, completedOn, reportOn, revisedOn, ...row } = r;
  const days = {
    inspectedOn: dayIn(inspectedOn),
    completedOn: dayIn(completedOn),
    reportOn: dayIn(reportOn),
    revisedOn: revisedOn === null ? null : dayIn(revisedOn),
  };
  await tx.db.report.create({ data: { ...row, ...days, body: body as Prisma.InputJsonObject, recordedAt: at } });
}

export async function noteFile(tx: Tx, f: { sha256: string; mediaType: string; bytes: number; name: string; at: Date }): Promise<void> {
  const { at, ...row } = f;
  await tx.db.storedFile.createMany({ data: [{ ...row, recordedAt: at }], skipDuplicates: true });
  await tx.db.storedFile.updateMany({ where: { sha256: row.sha256, erasedAt: { not: null } }, data: { erasedAt: null, name: row.name } });
}

export async function addDelivery(tx: Tx, d: { id: string; reportId: string; partyId: string; method: string; at: Date }): Promise<void> {
  const { at, ...row } = d;
  await tx.db.reportDelivery.create({ data: { ...row, deliveredAt: at, recordedAt: at } });
}

export type ReportJob = {
  jobId: string;
  number: number;
  state: string;
  terms: string;
  address: string;
  zip: string;
  /** State of the property. */
  jurisdiction: string;
  zone: string;
  hours: Record<string, [number, number] | null>;
  reportDueDays: number;
  firm: string;
  needs: Record<string, string>;
  parties: { partyId: string; name: string; email: string | null; roles: string[]; consentAt: string | null }[];
  visits: {
    id: string;
    kind: string;
    day: string;
    endsAt: string;
    state: string;
    recordId: string | null;
    recordState: string | null;
    pair: { personId: string; name: string }[];
  }[];
};

/** What the report's page and its rules need to know of a job. */
export const findReportJob = async (reader: Reader, jobId: string): Promise<ReportJob | null> =>
  (await findReportJobs(reader, [jobId]))[0] ?? null;

/** The same of several jobs. */
export const findReportJobs = (reader: Reader, jobIds: readonly string[]): Promise<ReportJob[]> =>
  reader.rows<ReportJob>(
    `SELECT j.id::text AS "jobId", j.number, j.state, j.terms, p.address || ', ' || p.town AS address, p.zip, coalesce(nullif(p.state, ''), o.jurisdiction) AS jurisdiction, o.zone, o.hours, f.report_due_days AS "reportDueDays", f.name AS firm,
         coalesce((SELECT jsonb_object_agg(n.kind, n.state) FROM job_need n WHERE n.job_id = j.id), '{}'::jsonb) AS needs,
         coalesce((SELECT jsonb_agg(x.row ORDER BY x.name) FROM (SELECT q.name, jsonb_build_object('partyId', q.id, 'name', q.name, 'email', q.email, 'roles', jsonb_agg(r.role ORDER BY r.role),
           'consentAt', max(r.consent_at) FILTER (WHERE r.may_receive_report)) AS row FROM job_party r JOIN party q ON q.id = r.party_id WHERE r.job_id = j.id GROUP BY q.id, q.name, q.email) x), '[]'::jsonb) AS parties,
         coalesce((SELECT jsonb_agg(jsonb_build_object('id', v.id, 'kind', v.kind, 'day', (v.starts_at AT TIME ZONE o.zone)::date::text, 'endsAt', v.ends_at, 'state', v.state, 'recordId', s.id, 'recordState', s.state,
           'pair', coalesce((SELECT jsonb_agg(jsonb_build_object('personId', w.id, 'name', w.name) ORDER BY a.place) FROM assignment a JOIN person w ON w.id = a.person_id WHERE a.visit_id = v.id), '[]'::jsonb)) ORDER BY v.starts_at)
           FROM visit v LEFT JOIN site_record s ON s.visit_id = v.id WHERE v.job_id = j.id AND v.live AND NOT (v.state = 'ended' AND s.id IS NULL)), '[]'::jsonb) AS visits
       FROM job j JOIN property p ON p.id = j.property_id JOIN office o ON o.id = j.office_id CROSS JOIN firm f WHERE j.id = ANY($1::uuid[])`,
    [jobIds],
  );
