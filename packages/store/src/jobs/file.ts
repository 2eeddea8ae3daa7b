// Files of a job made for a request of records, and what goes into one beside its papers.
import type { Prisma } from '../generated/client.ts';
import type { Reader, Tx } from '../database.ts';

export type FilePartRow = { title: string; page: number; sha256: string | null };
export type HeldBackRow = { what: string; why: string };
export type NewJobFile = {
  id: string;
  jobId: string;
  forWhom: string;
  reason: string;
  opinions: boolean;
  name: string;
  fileSha256: string;
  pages: number;
  parts: FilePartRow[];
  heldBack: HeldBackRow[];
  madeBy: string;
  recordedAt: Date;
};

/** Rule: job_file_says. */
export const saveJobFile = (tx: Tx, { parts, heldBack, ...row }: NewJobFile): Promise<void> =>
  tx.db.jobFile.create({
    data: { ...row, parts: parts as Prisma.InputJsonValue, heldBack: heldBack as Prisma.InputJsonValue },
  });

/** `review`: who reviewed it and when, as an owner said; null = it is for review only. */
export type JobFileRow = Omit<NewJobFile, 'jobId' | 'madeBy'> & {
  jobId: string;
  by: string;
  review: { reviewer: string; on: string; by: string } | null;
};

const FILE = `SELECT f.id::text AS id, f.job_id::text AS "jobId", f.for_whom AS "forWhom", f.reason, f.opinions, f.name, f.file_sha256 AS "fileSha256", f.pages, f.parts, f.held_back AS "heldBack", p.name AS by, f.recorded_at AS "recordedAt",
    (SELECT jsonb_build_object('reviewer', r.reviewer, 'on', r.reviewed_on, 'by', w.name) FROM job_file_review r JOIN person w ON w.id = r.actor_id WHERE r.file_id = f.id) AS review
  FROM job_file f JOIN person p ON p.id = f.made_by`;

/** The newest first. */
export const filesOfJob = (reader: Reader, jobId: string): Promise<JobFileRow[]> =>
  reader.rows<JobFileRow>(`${FILE} WHERE f.job_id = $1::uuid ORDER BY f.recorded_at DESC, f.id DESC`, [jobId]);

export const findJobFile = async (reader: Reader, id: string): Promise<JobFileRow | null> =>
  (await reader.rows<JobFileRow>(`${FILE} WHERE f.id = $1::uuid`, [id]))[0] ?? null;

type NewReview = { fileId: string; reviewer: string; reviewedOn: Date; actorId: string; recordedAt: Date };
/** Constraint: job_file_review_pkey. */
export const saveFileReview = (tx: Tx, row: NewReview): Promise<void> => tx.db.jobFileReview.create({ data: row });

export type FileFacts = {
  jobId: string;
  number: number;
  address: string;
  zone: string;
  parties: { name: string; roles: string; email: string | null; phone: string | null }[];
  services: string[];
  feeLines: { label: string; reason: string; cents: number; withdrawn: boolean }[];
  events: { at: string; kind: string; state: string; by: string | null; words: string | null }[];
  mails: { id: string; at: string; to: string; subject: string; state: string; body: string }[];
  invoices: { number: number | null; state: string; payer: string; totalCents: number; dueOn: string }[];
  payments: { invoice: number | null; cents: number; method: string; reference: string; receivedOn: string }[];
  callbacks: { id: string; number: number; kind: string; ownerOnly: boolean }[];
  /** `seconds` of a spoken note, which has no place; its fingerprint is that of the sound, that of a photo of its copy. */
  photos: { sha256: string; seconds: number | null; takenAt: string; takenBy: string; near: string | null; step: string }[];
};

const iso = (column: string): string => `to_char(${column} AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"')`;
const list = (select: string): string => `coalesce((SELECT jsonb_agg(x) FROM (${select}) x), '[]'::jsonb)`;

/** `about_id` of the mails of a job: itself and everything that hangs on it, callbacks for the owner alone besides. */
const ABOUT = `m.about_id IN (SELECT j.id UNION SELECT id FROM agreement WHERE job_id = j.id UNION SELECT id FROM report WHERE job_id = j.id UNION SELECT id FROM invoice WHERE job_id = j.id
  UNION SELECT id FROM visit WHERE job_id = j.id UNION SELECT id FROM callback WHERE job_id = j.id AND NOT owner_only)`;

/** Mail to people of the firm is inside business and left out, as are private links. */
const SQL = `SELECT j.id::text AS "jobId", j.number, a.address || ', ' || a.town || ', ' || substr(coalesce(nullif(a.state, ''), o.jurisdiction), 4) || ' ' || a.zip AS address, o.zone,
  ${list(`SELECT p.name, string_agg(replace(x.role, '_', ' '), ', ' ORDER BY x.role) AS roles, p.email, p.phone FROM job_party x JOIN party p ON p.id = x.party_id WHERE x.job_id = j.id GROUP BY p.id ORDER BY p.name`)} AS parties,
  coalesce((SELECT array_agg(s.name ORDER BY s.base DESC, s.position) FROM job_service x JOIN service s ON s.key = x.service_key WHERE x.job_id = j.id), '{}') AS services,
  ${list(`SELECT l.label, l.reason, l.cents, l.withdrawn_at IS NOT NULL AS withdrawn FROM job_fee_line l WHERE l.job_id = j.id ORDER BY l.recorded_at, l.position`)} AS "feeLines",
  ${list(`SELECT ${iso('e.happened_at')} AS at, e.kind, e.state, p.name AS by, t.body AS words FROM job_event e LEFT JOIN person p ON p.id = e.actor_id LEFT JOIN kept_text t ON t.id = e.text_id WHERE e.job_id = j.id ORDER BY e.seq`)} AS events,
  ${list(`SELECT m.id, ${iso('coalesce(m.sent_at, m.recorded_at)')} AS at, m.to_name || ' <' || m.to_address || '>' AS "to", m.subject, m.state, regexp_replace(m.body, '/client/[A-Za-z0-9_-]{43}', '/client/(private link)', 'g') AS body
    FROM outgoing_mail m WHERE ${ABOUT} AND NOT EXISTS (SELECT FROM person w WHERE lower(w.email) = lower(m.to_address)) ORDER BY m.recorded_at, m.id`)} AS mails,
  ${list(`SELECT i.number, i.state, p.name AS payer, i.total_cents AS "totalCents", i.due_on::text AS "dueOn" FROM invoice i JOIN party p ON p.id = i.payer_id WHERE i.job_id = j.id ORDER BY i.number`)} AS invoices,
  ${list(`SELECT i.number AS invoice, y.cents, y.method, y.reference, y.received_on::text AS "receivedOn" FROM payment y JOIN invoice i ON i.id = y.invoice_id WHERE i.job_id = j.id ORDER BY y.received_on, y.id`)} AS payments,
  ${list(`SELECT c.id, c.number, c.kind, c.owner_only AS "ownerOnly" FROM callback c WHERE c.job_id = j.id ORDER BY c.number`)} AS callbacks,
  ${list(`SELECT coalesce(h.copy_sha256, h.original_sha256) AS sha256, h.seconds, ${iso('h.taken_at')} AS "takenAt", w.name AS "takenBy", h.near_property || ' (within ' || h.near_limit_m || ' m)' AS near, e.step_key AS step FROM site_photo h JOIN site_record r ON r.id = h.record_id JOIN visit v ON v.id = r.visit_id
    JOIN person w ON w.id = h.taken_by JOIN step_entry e ON e.id = h.entry_id WHERE v.job_id = j.id AND r.state = 'sealed' AND coalesce(e.value -> 'act' ->> 'what', '') <> 'injury' ORDER BY h.taken_at, h.id`)} AS photos
  FROM job j JOIN property a ON a.id = j.property_id JOIN office o ON o.id = j.office_id WHERE j.id = $1::uuid`;

export const findFileFacts = async (reader: Reader, jobId: string): Promise<FileFacts | null> =>
  (await reader.rows<FileFacts>(SQL, [jobId]))[0] ?? null;
