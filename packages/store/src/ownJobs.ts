// Which jobs somebody goes to, and of which job a thing is.
import type { Reader } from './database.ts';

/**
 * Ids of the jobs on whose visits a person goes or went, as one of the pair or along; `person` is a parameter. Of held and lapsed visits nobody
 * was ever told. Of all visits of the firm those of the person are looked up one by one: they are few beside the others.
 */
export const JOBS_OF = (
  person: string,
): string => `SELECT v.job_id FROM (SELECT visit_id FROM assignment WHERE person_id = ${person} UNION SELECT visit_id FROM observer WHERE person_id = ${person}) g
  CROSS JOIN LATERAL (SELECT job_id FROM visit WHERE id = g.visit_id AND state NOT IN ('held', 'lapsed') OFFSET 0) v`;

/** The same of one job. */
export const GOES_TO = (
  job: string,
  person: string,
): string => `EXISTS (SELECT FROM visit g WHERE g.job_id = ${job} AND g.state NOT IN ('held', 'lapsed')
  AND (EXISTS (SELECT FROM assignment a WHERE a.visit_id = g.id AND a.person_id = ${person}) OR EXISTS (SELECT FROM observer b WHERE b.visit_id = g.id AND b.person_id = ${person})))`;

/** The job of a thing whose id is the first parameter. */
const JOB_OF = {
  job: '$1::uuid',
  visit: '(SELECT job_id FROM visit WHERE id = $1::uuid)',
  record: '(SELECT v.job_id FROM site_record r JOIN visit v ON v.id = r.visit_id WHERE r.id = $1::uuid)',
  report: '(SELECT job_id FROM report WHERE id = $1::uuid)',
  agreement: '(SELECT job_id FROM agreement WHERE id = $1::uuid)',
  signer: '(SELECT a.job_id FROM signer s JOIN agreement a ON a.id = s.agreement_id WHERE s.id = $1::uuid)',
  test_item: '(SELECT job_id FROM test_item WHERE id = $1::uuid)',
} as const;
export type ThingOfJob = keyof typeof JOB_OF;

/** Whether a person goes or went to the job of a thing, or was handed a site record of it, or what opens one without signal; null where there is no such thing. */
export const goesToJobOf = async (reader: Reader, of: ThingOfJob, id: string, personId: string): Promise<boolean | null> =>
  (
    await reader.rows<{ goes: boolean }>(
      `SELECT ${GOES_TO('j.id', '$2::uuid')}
         OR EXISTS (SELECT FROM visit v JOIN site_record r ON r.visit_id = v.id JOIN site_package k ON k.record_id = r.id
         WHERE v.job_id = j.id AND k.body @> jsonb_build_object('pair', jsonb_build_array(jsonb_build_object('personId', $2::text))))
         OR EXISTS (SELECT FROM visit v JOIN site_offer k ON k.visit_id = v.id WHERE v.job_id = j.id AND k.person_id = $2::uuid) AS goes
       FROM job j WHERE j.id = ${JOB_OF[of]}`,
      [id, personId],
    )
  )[0]?.goes ?? null;

/** The visits of a job on which a person goes or went, with what decides whether its people may be called. */
export const ownVisitsOf = (
  reader: Reader,
  jobId: string,
  personId: string,
): Promise<{ visitState: string; startsAt: Date; endsAt: Date; zone: string }[]> =>
  reader.rows(
    `SELECT v.state AS "visitState", v.starts_at AS "startsAt", v.ends_at AS "endsAt", o.zone FROM visit v JOIN job j ON j.id = v.job_id JOIN office o ON o.id = j.office_id
     WHERE v.job_id = $1::uuid AND (EXISTS (SELECT FROM assignment a WHERE a.visit_id = v.id AND a.person_id = $2::uuid) OR EXISTS (SELECT FROM observer b WHERE b.visit_id = v.id AND b.person_id = $2::uuid))`,
    [jobId, personId],
  );
