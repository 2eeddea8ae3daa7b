// What a bank or card company asks for when a payment is disputed: everything on file about a job, in the order in which it happened.
import type { Reader } from '../database.ts';
import { CAME_BACK } from '../home/cameBack.ts';

export type EvidenceFacts = {
  agreements: { id: string; issuedAt: string; sha256: string; body: string; superseded: boolean }[];
  signatures: {
    signer: string;
    name: string;
    capacity: string;
    at: string;
    method: string;
    device: string;
    sha256: string;
    consentSha256: string;
  }[];
  mails: { at: string; to: string; subject: string; state: string; key: string }[];
  contacts: { id: string; at: string; who: string; channel: string; outcome: string; words: string | null; by: string }[];
  visits: {
    startsAt: string;
    endsAt: string;
    state: string;
    pair: string;
    openedAt: string | null;
    sealedAt: string | null;
    seal: string | null;
    endedAs: string | null;
    steps: number;
  }[];
  deliveries: { at: string; to: string; method: string; version: number; reportOn: string }[];
};

const iso = (column: string): string => `to_char(${column} AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"')`;
const list = (select: string): string => `coalesce((SELECT jsonb_agg(x) FROM (${select}) x), '[]'::jsonb)`;

const SQL = `SELECT
  ${list(`SELECT a.id, ${iso('a.issued_at')} AS "issuedAt", a.sha256, a.body, EXISTS (SELECT FROM agreement n WHERE n.supersedes_id = a.id) AS superseded FROM agreement a WHERE a.job_id = $1::uuid AND a.remedy_id IS NULL ORDER BY a.issued_at`)} AS agreements,
  ${list(`SELECT p.name AS signer, coalesce(k.body, 'erased') AS name, s.capacity, ${iso('g.happened_at')} AS at, g.method, g.device, g.sha256, g.consent_sha256 AS "consentSha256" FROM signature g
    JOIN signer s ON s.id = g.signer_id JOIN agreement a ON a.id = s.agreement_id JOIN party p ON p.id = s.party_id JOIN kept_text k ON k.id = g.name_text_id WHERE a.job_id = $1::uuid AND a.remedy_id IS NULL ORDER BY g.happened_at`)} AS signatures,
  ${list(`SELECT ${iso('coalesce(m.sent_at, m.recorded_at)')} AS at, m.to_name || ' <' || m.to_address || '>' AS "to", m.subject, m.state, m.message_key AS key FROM outgoing_mail m WHERE
    m.about_id IN (SELECT $1::uuid UNION SELECT id FROM agreement WHERE job_id = $1::uuid UNION SELECT id FROM report WHERE job_id = $1::uuid UNION SELECT id FROM invoice WHERE job_id = $1::uuid UNION SELECT id FROM visit WHERE job_id = $1::uuid)
    ORDER BY m.recorded_at`)} AS mails,
  ${list(`SELECT c.id, ${iso('c.happened_at')} AS at, p.name AS who, c.channel, c.outcome, k.body AS words, w.name AS by FROM contact_note c JOIN party p ON p.id = c.party_id JOIN person w ON w.id = c.actor_id LEFT JOIN kept_text k ON k.id = c.text_id
    WHERE c.job_id = $1::uuid ORDER BY c.happened_at`)} AS contacts,
  ${list(`SELECT ${iso('v.starts_at')} AS "startsAt", ${iso('v.ends_at')} AS "endsAt", v.state, (SELECT string_agg(w.name, ' and ' ORDER BY s.place) FROM assignment s JOIN person w ON w.id = s.person_id WHERE s.visit_id = v.id) AS pair,
    ${iso('r.opened_at')} AS "openedAt", ${iso('r.sealed_at')} AS "sealedAt", r.seal_sha256 AS seal, r.ended_as AS "endedAs", (SELECT count(*)::int FROM step_entry e WHERE e.record_id = r.id) AS steps
    FROM visit v LEFT JOIN site_record r ON r.visit_id = v.id WHERE v.job_id = $1::uuid AND v.state NOT IN ('held', 'lapsed') ORDER BY v.starts_at`)} AS visits,
  ${list(`SELECT ${iso('d.delivered_at')} AS at, p.name AS "to", d.method, r.version, r.report_on::text AS "reportOn" FROM report_delivery d JOIN report r ON r.id = d.report_id JOIN party p ON p.id = d.party_id
    WHERE r.job_id = $1::uuid ORDER BY d.delivered_at`)} AS deliveries`;

export const findEvidence = async (reader: Reader, jobId: string): Promise<EvidenceFacts> =>
  (await reader.rows<EvidenceFacts>(SQL, [jobId]))[0]!;

/** The day on which the report was handed over, where a payment of the invoice came back after it was recorded as paid; else null. */
export const handedOverUnpaid = async (reader: Reader, invoiceId: string): Promise<string | null> =>
  (
    await reader.rows<{ day: string | null }>(
      `SELECT min((d.delivered_at AT TIME ZONE o.zone)::date)::text AS day FROM invoice i JOIN job j ON j.id = i.job_id JOIN office o ON o.id = j.office_id JOIN report r ON r.job_id = j.id JOIN report_delivery d ON d.report_id = r.id
       WHERE i.id = $1::uuid AND EXISTS (SELECT FROM payment p JOIN ledger_entry b ON b.reverses_id = p.entry_id AND ${CAME_BACK} WHERE p.invoice_id = i.id AND d.delivered_at < b.recorded_at)`,
      [invoiceId],
    )
  )[0]?.day ?? null;

export type CameBack = {
  paymentId: string;
  invoiceId: string;
  number: number;
  cents: number;
  /** How it came back, as the ledger says it. */
  memo: string;
  on: string;
  openCents: number;
  handedOverOn: string | null;
};

/** Payments of a job that came back while something of their invoice is open, newest first; with the hand-over that was made before. */
export const cameBackOfJob = (reader: Reader, jobId: string): Promise<CameBack[]> =>
  reader.rows<CameBack>(
    `SELECT y.id::text AS "paymentId", i.id::text AS "invoiceId", i.number, y.cents, b.memo, b.happened_on::text AS "on", open.cents AS "openCents",
       (SELECT min((d.delivered_at AT TIME ZONE o.zone)::date)::text FROM report r JOIN report_delivery d ON d.report_id = r.id WHERE r.job_id = i.job_id AND d.delivered_at < b.recorded_at) AS "handedOverOn"
     FROM invoice i JOIN job j ON j.id = i.job_id JOIN office o ON o.id = j.office_id JOIN payment y ON y.invoice_id = i.id JOIN ledger_entry b ON b.reverses_id = y.entry_id AND ${CAME_BACK}
     CROSS JOIN LATERAL (SELECT coalesce(sum(m.cents), 0)::int AS cents FROM invoice_money m WHERE m.invoice_id = i.id) open
     WHERE i.job_id = $1::uuid AND i.state = 'issued' AND open.cents > 0 ORDER BY b.recorded_at DESC`,
    [jobId],
  );
