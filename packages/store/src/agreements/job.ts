// What an agreement and the gate need to know of a job.
import type { GateSigner } from '@backsight/domain/agreements/gate';
import type { Terms } from '@backsight/domain/jobs/words';
import type { PropertyFacts } from '@backsight/domain/shared/facts';
import type { Reader } from '../database.ts';
import { STATE_OF, WHOLE_ADDRESS } from '../state.ts';

export type JobForAgreement = {
  id: string;
  number: number;
  kind: 'inspection' | 'reinspection' | 'callback_visit';
  terms: Terms;
  address: string;
  zone: string;
  firm: string;
  firmPhone: string;
  reportDueDays: number;
  visit: { id: string; version: number; startsAt: string; endsAt: string; pair: { name: string; license: string | null }[] } | null;
  services: { name: string; provider: string | null; contractsWithUs: boolean | null }[];
  feeCents: number;
  feeLines: number;
  parties: { partyId: string; name: string; email: string | null; minor: boolean; role: string }[];
};

/** The facts of a job that its agreement names; the visit is the first that still counts. */
export const findJobForAgreement = async (reader: Reader, jobId: string): Promise<JobForAgreement | null> =>
  (
    await reader.rows<JobForAgreement>(
      `SELECT j.id::text AS id, j.number, j.kind, j.terms, ${WHOLE_ADDRESS} AS address, o.zone, f.name AS firm, f.phone AS "firmPhone", f.report_due_days AS "reportDueDays",
         (SELECT jsonb_build_object('id', v.id, 'version', v.version, 'startsAt', v.starts_at, 'endsAt', v.ends_at, 'pair',
            coalesce((SELECT jsonb_agg(jsonb_build_object('name', p.name, 'license', (SELECT l.number FROM license l WHERE l.person_id = p.id AND l.from_day <= (v.starts_at AT TIME ZONE o.zone)::date
              AND l.until_day >= (v.starts_at AT TIME ZONE o.zone)::date ORDER BY l.kind = 'home_inspector' DESC, l.id LIMIT 1)) ORDER BY s.place)
              FROM assignment s JOIN person p ON p.id = s.person_id WHERE s.visit_id = v.id), '[]'::jsonb))
          FROM visit v WHERE v.job_id = j.id AND v.live ORDER BY v.state = 'ended', v.starts_at LIMIT 1) AS visit,
         coalesce((SELECT jsonb_agg(jsonb_build_object('name', s.name, 'provider', w.name, 'contractsWithUs', w.contracts_with_us) ORDER BY s.base DESC, s.position)
           FROM job_service x JOIN service s ON s.key = x.service_key LEFT JOIN provider w ON w.id = x.provider_id WHERE x.job_id = j.id), '[]'::jsonb) AS services,
         coalesce((SELECT sum(l.cents) FROM job_fee_line l WHERE l.job_id = j.id AND l.withdrawn_at IS NULL), 0)::int AS "feeCents",
         (SELECT count(*) FROM job_fee_line l WHERE l.job_id = j.id AND l.withdrawn_at IS NULL)::int AS "feeLines",
         coalesce((SELECT jsonb_agg(jsonb_build_object('partyId', p.id, 'name', p.name, 'email', p.email, 'minor', p.minor, 'role', r.role) ORDER BY r.id)
           FROM job_party r JOIN party p ON p.id = r.party_id WHERE r.job_id = j.id), '[]'::jsonb) AS parties
       FROM job j JOIN office o ON o.id = j.office_id JOIN property a ON a.id = j.property_id CROSS JOIN firm f WHERE j.id = $1::uuid`,
      [jobId],
    )
  )[0] ?? null;

export type JobForText = {
  facts: PropertyFacts;
  serviceKeys: string[];
  /** State of the property. */
  jurisdiction: string;
  hours: unknown;
  items: string[];
  firstJob: number | null;
  rulesId: string;
  scheduleId: string;
  /** Of the booking rules, as it is stored. */ desk: unknown;
  /** Whose rules the firm has taken up. */ firmStates: string[];
};

/** What decides which clauses belong into the agreement of a job, and which rules of which state. */
export const findJobForText = async (reader: Reader, jobId: string): Promise<JobForText | null> =>
  (
    await reader.rows<JobForText>(
      `SELECT j.facts, coalesce((SELECT array_agg(s.service_key ORDER BY s.service_key) FROM job_service s WHERE s.job_id = j.id), '{}') AS "serviceKeys", ${STATE_OF} AS jurisdiction, o.hours,
         coalesce((SELECT array_agg(i.item ORDER BY i.position) FROM reinspection_item i WHERE i.job_id = j.id), '{}') AS items, (SELECT number FROM job WHERE id = j.parent_id) AS "firstJob",
         j.rules_id::text AS "rulesId", j.schedule_id::text AS "scheduleId",
         (SELECT body->'desk' FROM booking_rules WHERE id = j.rules_id) AS desk, (SELECT f.states FROM firm f) AS "firmStates"
       FROM job j JOIN property a ON a.id = j.property_id JOIN office o ON o.id = j.office_id WHERE j.id = $1::uuid`,
      [jobId],
    )
  )[0] ?? null;

export const findJobIdByNumber = async (reader: Reader, number: number): Promise<string | null> =>
  (await reader.rows<{ id: string }>('SELECT id::text AS id FROM job WHERE number = $1::int', [number]))[0]?.id ?? null;

/** Names and addresses of everybody who works for the firm. */
export const staffAddresses = (reader: Reader): Promise<{ name: string; email: string }[]> =>
  reader.rows('SELECT name, email FROM person WHERE ended_on IS NULL');

export type VisitForGate = { jobId: string; state: string; startsAt: Date; personIds: string[] };

export const findVisitForGate = async (reader: Reader, visitId: string): Promise<VisitForGate | null> =>
  (
    await reader.rows<VisitForGate>(
      `SELECT job_id::text AS "jobId", state, starts_at AS "startsAt", coalesce((SELECT array_agg(person_id::text ORDER BY place) FROM assignment WHERE visit_id = v.id), '{}') AS "personIds"
       FROM visit v WHERE id = $1::uuid`,
      [visitId],
    )
  )[0] ?? null;

export type GateFactsRow = {
  jobKind: 'inspection' | 'reinspection' | 'callback_visit';
  terms: Terms;
  everySigner: boolean;
  feeCents: number;
  signers: GateSigner[] | null;
};

/** Terms, fee, and the signers of the newest agreement of a job (null when none was issued). */
export const findGateFacts = async (reader: Reader, jobId: string): Promise<GateFactsRow> => {
  const [row] = await reader.rows<GateFactsRow>(
    `SELECT j.kind AS "jobKind", j.terms, f.every_signer AS "everySigner",
       coalesce((SELECT sum(l.cents) FROM job_fee_line l WHERE l.job_id = j.id AND l.withdrawn_at IS NULL), 0)::int AS "feeCents",
       (SELECT jsonb_agg(jsonb_build_object('name', p.name, 'signed', g.id IS NOT NULL, 'answer', (SELECT jsonb_build_object('kind', x.kind, 'reason', w.body) FROM signer_answer x JOIN kept_text w ON w.id = x.reason_text_id
            WHERE x.signer_id = s.id ORDER BY x.recorded_at DESC, x.id DESC LIMIT 1)) ORDER BY s.id) FROM agreement a JOIN signer s ON s.agreement_id = a.id JOIN party p ON p.id = s.party_id
          LEFT JOIN signature g ON g.signer_id = s.id WHERE a.job_id = j.id AND a.remedy_id IS NULL AND NOT EXISTS (SELECT FROM agreement n WHERE n.supersedes_id = a.id)) AS signers
     FROM job j CROSS JOIN firm f WHERE j.id = $1::uuid`,
    [jobId],
  );
  if (!row) throw new Error('a visit without a job');
  return row;
};

/** Whether a person is on a visit of the job. */
export const isOnJob = async (reader: Reader, jobId: string, personId: string): Promise<boolean> =>
  (
    await reader.rows(
      'SELECT 1 FROM assignment s JOIN visit v ON v.id = s.visit_id WHERE v.job_id = $1::uuid AND s.person_id = $2::uuid LIMIT 1',
      [jobId, personId],
    )
  ).length > 0;
