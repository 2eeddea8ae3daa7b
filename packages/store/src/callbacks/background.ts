// What stands around a callback: licenses and acknowledgements of the pair, what the agreement says, and what was traced to the same steps before.
import type { Reader } from '../database.ts';
import { isFilledIn } from '../filled.ts';
import { firstEntry } from '../firstEntry.ts';

export type HeldLicense = { personId: string; kind: string; number: string; fromDay: string; untilDay: string; inForce: boolean };

/** Every license of the people given, with whether it was in force on the day; those that were come first. */
export const licensesAround = (reader: Reader, people: readonly string[], day: string): Promise<HeldLicense[]> =>
  reader.rows<HeldLicense>(
    `SELECT person_id::text AS "personId", kind, number, from_day::text AS "fromDay", until_day::text AS "untilDay", $2::date BETWEEN from_day AND until_day AS "inForce"
     FROM license WHERE person_id = ANY ($1::uuid[]) ORDER BY "inForce" DESC, kind, until_day DESC`,
    [people, day],
  );

export type AcknowledgedRow = {
  personId: string;
  procedure: string;
  system: string;
  revision: number;
  where: string | null;
  at: Date | null;
};

/** For each revision that the job was worked by and that asks for it: when each of the people acknowledged it; null where they never did. */
export const acknowledgementsAround = (reader: Reader, jobId: string, people: readonly string[]): Promise<AcknowledgedRow[]> =>
  reader.rows<AcknowledgedRow>(
    `SELECT w.id::text AS "personId", p.title AS procedure, p.system, r.number AS revision, a."where", a.happened_at AS at
     FROM (SELECT DISTINCT s.revision_id FROM package_step s JOIN site_package k ON k.id = s.package_id JOIN site_record d ON d.id = k.record_id JOIN visit v ON v.id = d.visit_id WHERE v.job_id = $1::uuid) x
       JOIN procedure_revision r ON r.id = x.revision_id JOIN procedure p ON p.id = r.procedure_id CROSS JOIN unnest($2::uuid[]) w(id)
       LEFT JOIN acknowledgement a ON a.revision_id = r.id AND a.person_id = w.id WHERE r.asks ORDER BY p.position, r.number`,
    [jobId, people],
  );

export type TermsRow = {
  id: string;
  body: string;
  number: number;
  title: string;
  inForceFrom: Date | null;
  clauses: unknown;
  limits: unknown;
};

/** The newest agreement about the inspection with the text that it was made from. */
export const termsOfJob = async (reader: Reader, jobId: string): Promise<TermsRow | null> =>
  (
    await reader.rows<TermsRow>(
      `SELECT g.id::text AS id, g.body, t.number, t.title, t.in_force_from AS "inForceFrom", t.clauses, t.limits FROM agreement g JOIN agreement_text t ON t.id = g.text_id
       WHERE g.job_id = $1::uuid AND g.remedy_id IS NULL AND NOT EXISTS (SELECT FROM agreement n WHERE n.supersedes_id = g.id) ORDER BY g.issued_at DESC LIMIT 1`,
      [jobId],
    )
  )[0] ?? null;

export const feeOfJob = async (reader: Reader, jobId: string): Promise<number> =>
  (
    await reader.rows<{ cents: number }>(
      'SELECT coalesce(sum(cents), 0)::int AS cents FROM job_fee_line WHERE job_id = $1::uuid AND withdrawn_at IS NULL',
      [jobId],
    )
  )[0]!.cents;

export type SameStepRow = {
  id: string;
  number: number;
  kind: string;
  state: string;
  ownerOnly: boolean;
  stepKey: string;
  cause: string;
  revision: number;
  receivedAt: Date;
  where: string;
};

/** Other callbacks, of any property, whose newest conclusion names a step that was worked on this job. */
export const callbacksOfSteps = (reader: Reader, callbackId: string, jobId: string): Promise<SameStepRow[]> =>
  reader.rows<SameStepRow>(
    `WITH newest AS (SELECT DISTINCT ON (callback_id) callback_id, cause, step_key, revision_id FROM conclusion ORDER BY callback_id, happened_at DESC, id DESC)
     SELECT c.id::text AS id, c.number, c.kind, c.state, c.owner_only AS "ownerOnly", n.step_key AS "stepKey", n.cause, r.number AS revision, c.received_at AS "receivedAt", a.address || ', ' || a.town AS "where"
     FROM newest n JOIN callback c ON c.id = n.callback_id JOIN procedure_revision r ON r.id = n.revision_id JOIN job j ON j.id = c.job_id JOIN property a ON a.id = j.property_id
     WHERE c.id <> $1::uuid AND c.kind <> 'question' AND n.step_key IN (SELECT s.step_key FROM package_step s JOIN site_package k ON k.id = s.package_id JOIN site_record d ON d.id = k.record_id
       JOIN visit v ON v.id = d.visit_id WHERE v.job_id = $2::uuid) ORDER BY c.number DESC LIMIT 100`,
    [callbackId, jobId],
  );

export type TwoLooksRow = {
  stepKey: string;
  asked: unknown;
  firstOutcome: string;
  first: unknown;
  secondOutcome: string;
  second: unknown;
  count: number;
};

/** What somebody of the pair (`a`) first put down at a place (`s`), and whether it was the service that did. */
const FIRST_WORD = firstEntry(`x.outcome, x.value -> 'evidence' AS evidence, ${isFilledIn('x')} AS filled`, {
  record: 's.record_id',
  place: 's.step_key, s.item_id',
  person: 'a.person_id',
});

/**
 * First answers of the two of a pair at partner-checked places of sealed records, for the steps of a job, counted by what they were, over so many of
 * the newest sealed records. Names nobody. Whoever's first entry was written by the service (the visit ended, or danger closed the step) did not look on
 * his own there: a later look of his may know the partner's.
 */
export const twoLooksOfSteps = (reader: Reader, jobId: string, records: number): Promise<TwoLooksRow[]> =>
  reader.rows<TwoLooksRow>(
    `WITH mine AS (SELECT DISTINCT s.step_key FROM package_step s JOIN site_package k ON k.id = s.package_id JOIN site_record d ON d.id = k.record_id JOIN visit v ON v.id = d.visit_id WHERE v.job_id = $1::uuid AND s.partner_check),
     newest AS MATERIALIZED (SELECT id, visit_id FROM site_record WHERE state = 'sealed' ORDER BY recorded_at DESC, id DESC LIMIT $2::int),
     asked AS MATERIALIZED (SELECT r.id AS record_id, r.visit_id, s.* FROM newest r JOIN site_package k ON k.record_id = r.id CROSS JOIN LATERAL (SELECT id, step_key, item_id, revision_id FROM package_step WHERE package_id = k.id AND partner_check OFFSET 0) s
       WHERE s.step_key IN (SELECT step_key FROM mine)),
     looked AS MATERIALIZED (SELECT s.step_key, s.id AS at, a.place, b.body -> 'evidence' AS asked, e.outcome, e.evidence FROM asked s JOIN revision_step b ON b.revision_id = s.revision_id AND b.step_key = s.step_key JOIN assignment a ON a.visit_id = s.visit_id
       CROSS JOIN LATERAL (${FIRST_WORD}) e WHERE NOT e.filled)
     SELECT f.step_key AS "stepKey", f.asked, f.outcome AS "firstOutcome", f.evidence AS first, g.outcome AS "secondOutcome", g.evidence AS second, count(*)::int AS count
     FROM looked f JOIN looked g ON g.at = f.at AND f.place = 'first' AND g.place = 'second' GROUP BY 1, 2, 3, 4, 5, 6`,
    [jobId, records],
  );
