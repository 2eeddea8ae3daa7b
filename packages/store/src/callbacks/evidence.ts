// The evidence of a callback: what was recorded, what the report said, the agreement, the four days.
import type { CorrectionReason, EntryEvidence } from '@backsight/domain/sitework/value';
import type { Reader } from '../database.ts';

export type WorkedStepRow = {
  stepKey: string;
  title: string;
  instruction: string;
  caution: string | null;
  evidence: unknown;
  procedureTitle: string;
  system: string;
  revisionId: string;
  revisionNumber: number;
  itemId: string | null;
  item: string | null;
  packageNumber: number;
  position: number;
  partnerCheck: boolean;
};

/** The steps of the job's packages, in the order of the work. */
export const stepsOfJob = (reader: Reader, jobId: string): Promise<WorkedStepRow[]> =>
  reader.rows<WorkedStepRow>(
    `SELECT s.step_key AS "stepKey", b.body->>'title' AS title, b.body->>'instruction' AS instruction, b.body->>'caution' AS caution, b.body->'evidence' AS evidence, p.title AS "procedureTitle", p.system,
       s.revision_id::text AS "revisionId", r.number AS "revisionNumber", s.item_id::text AS "itemId", i.label AS item, k.number AS "packageNumber", s.position, s.partner_check AS "partnerCheck"
     FROM package_step s JOIN site_package k ON k.id = s.package_id JOIN site_record d ON d.id = k.record_id JOIN visit v ON v.id = d.visit_id
       JOIN procedure_revision r ON r.id = s.revision_id JOIN procedure p ON p.id = r.procedure_id JOIN revision_step b ON b.revision_id = s.revision_id AND b.step_key = s.step_key
       LEFT JOIN record_item i ON i.id = s.item_id
     WHERE v.job_id = $1::uuid ORDER BY v.starts_at, k.number, s.position`,
    [jobId],
  );

export type EntryRow = {
  id: string;
  stepKey: string;
  itemId: string | null;
  outcome: string;
  value: { evidence: EntryEvidence | null; correction?: CorrectionReason };
  match: string;
  note: string | null;
  observedBy: string;
  observerId: string;
  writtenBy: string;
  observedAt: Date;
  observedApprox: boolean;
  recordedAt: Date;
  reason: string | null;
  supersedesId: string | null;
  supersededById: string | null;
  packageNumber: number;
};

/** Every entry at a step of the job's record, also those that a later one replaced. */
export const entriesOfJob = (reader: Reader, jobId: string): Promise<EntryRow[]> =>
  reader.rows<EntryRow>(
    `SELECT e.id::text AS id, e.step_key AS "stepKey", e.item_id::text AS "itemId", e.outcome, e.value, e.match, t.body AS note, o.name AS "observedBy", e.observed_by::text AS "observerId", w.name AS "writtenBy",
       e.observed_at AS "observedAt", e.observed_approx AS "observedApprox", e.recorded_at AS "recordedAt", e.reason, e.supersedes_id::text AS "supersedesId", n.id::text AS "supersededById", k.number AS "packageNumber"
     FROM step_entry e JOIN site_record d ON d.id = e.record_id JOIN visit v ON v.id = d.visit_id JOIN site_package k ON k.id = e.package_id JOIN person o ON o.id = e.observed_by JOIN person w ON w.id = e.written_by
       LEFT JOIN kept_text t ON t.id = e.text_id LEFT JOIN step_entry n ON n.supersedes_id = e.id
     WHERE v.job_id = $1::uuid AND e.value -> 'act' IS NULL ORDER BY e.observed_at, e.device_seq, e.id`,
    [jobId],
  );

export type PhotoRow = {
  id: string;
  recordId: string;
  /** Every entry that names it, first to last. */
  entries: string[];
  /** The act besides the steps that names it; null at a step. */
  act: string | null;
  injury: boolean;
  by: string;
  takenAt: Date | null;
  near: 'yes' | 'no' | 'unknown' | null;
  nearLimitM: number | null;
  spoken: boolean;
  seconds: number | null;
};

/** Photos and spoken notes that the entries and acts of the job's records name; those that have not come have no time. */
export const photosOfJob = (reader: Reader, jobId: string): Promise<PhotoRow[]> =>
  reader.rows<PhotoRow>(
    `SELECT n.id, e.record_id::text AS "recordId", array_agg(e.id::text ORDER BY e.recorded_at, e.device_seq) AS entries, min(e.value -> 'act' ->> 'do') AS act,
       bool_or(coalesce(e.value -> 'act' ->> 'what', '') = 'injury') AS injury, min(w.name) AS by, h.taken_at + coalesce(h.clock_offset_ms, 0) * interval '1 millisecond' AS "takenAt",
       h.near_property AS near, h.near_limit_m AS "nearLimitM", n.spoken, h.seconds
     FROM step_entry e JOIN site_record d ON d.id = e.record_id JOIN visit v ON v.id = d.visit_id JOIN person w ON w.id = e.written_by
       CROSS JOIN LATERAL (SELECT p, false FROM jsonb_array_elements_text(coalesce(e.value -> 'photos', '[]'::jsonb)) p
         UNION ALL SELECT s, true FROM jsonb_array_elements_text(coalesce(e.value -> 'spoken', '[]'::jsonb)) s) n(id, spoken) LEFT JOIN site_photo h ON h.id = n.id::uuid
     WHERE v.job_id = $1::uuid GROUP BY n.id, n.spoken, e.record_id, h.id ORDER BY min(e.recorded_at), n.id`,
    [jobId],
  );

export type RecordRow = {
  recordId: string;
  visitId: string;
  startsAt: Date;
  state: string;
  openedAt: Date;
  sealedAt: Date | null;
  endedAs: string | null;
};
export const recordsOfJob = (reader: Reader, jobId: string): Promise<RecordRow[]> =>
  reader.rows<RecordRow>(
    `SELECT d.id::text AS "recordId", v.id::text AS "visitId", v.starts_at AS "startsAt", d.state, d.opened_at AS "openedAt", d.sealed_at AS "sealedAt", d.ended_as AS "endedAs" FROM site_record d JOIN visit v ON v.id = d.visit_id
     WHERE v.job_id = $1::uuid ORDER BY v.starts_at`,
    [jobId],
  );

export type ReportRow = {
  id: string;
  version: number;
  source: string;
  body: unknown;
  inspectedOn: string;
  completedOn: string;
  reportOn: string;
  deliveredOn: string | null;
};

/** Versions of the report, newest first, with the day on which each first left. */
export const reportsOfJob = (reader: Reader, jobId: string, zone: string): Promise<ReportRow[]> =>
  reader.rows<ReportRow>(
    `SELECT r.id::text AS id, r.version, r.source, r.body, r.inspected_on::text AS "inspectedOn", r.completed_on::text AS "completedOn", r.report_on::text AS "reportOn",
       (SELECT (min(d.delivered_at) AT TIME ZONE $2)::date::text FROM report_delivery d WHERE d.report_id = r.id) AS "deliveredOn"
     FROM report r WHERE r.job_id = $1::uuid ORDER BY r.version DESC`,
    [jobId, zone],
  );

export type AgreementRow = {
  id: string;
  issuedAt: Date;
  body: string;
  textTitle: string;
  attorneyOn: string | null;
  superseded: boolean;
  signers: { partyId: string; name: string; signedAt: string | null }[];
};
export const agreementsOfJob = (reader: Reader, jobId: string): Promise<AgreementRow[]> =>
  reader.rows<AgreementRow>(
    `SELECT g.id::text AS id, g.issued_at AS "issuedAt", g.body, t.title AS "textTitle", t.attorney_on::text AS "attorneyOn", EXISTS (SELECT FROM agreement n WHERE n.supersedes_id = g.id) AS superseded,
       coalesce((SELECT jsonb_agg(jsonb_build_object('partyId', w.id, 'name', w.name, 'signedAt', q.happened_at)) FROM signer s JOIN party w ON w.id = s.party_id LEFT JOIN signature q ON q.signer_id = s.id
         WHERE s.agreement_id = g.id), '[]') AS signers
     FROM agreement g JOIN agreement_text t ON t.id = g.text_id WHERE g.job_id = $1::uuid ORDER BY g.issued_at DESC`,
    [jobId],
  );

export type LicenseRow = { personId: string; kind: string; number: string; untilDay: string };

/** Licenses that the people given held on a day. */
export const licensesOn = (reader: Reader, people: readonly string[], day: string): Promise<LicenseRow[]> =>
  reader.rows<LicenseRow>(
    `SELECT person_id::text AS "personId", kind, number, until_day::text AS "untilDay" FROM license WHERE person_id = ANY ($1::uuid[]) AND $2::date BETWEEN from_day AND until_day ORDER BY kind`,
    [people, day],
  );
