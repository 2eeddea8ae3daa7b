// How far a new firm has come on its way to the first signed agreement, from what stands in the database.
import { execute, type Reader, type Tx } from '../database.ts';

export type FirstFacts = {
  inspectors: number;
  /** Names of those who lack it today. */
  unlicensed: string[];
  withoutHours: string[];
  withoutSize: string[];
  /** Names of the kinds of shared kit that an inspection alone may need, of which no piece is in service; of what is worn, less than two people can have. */
  kitMissing: string[];
  leads: number;
  policies: number;
  reviewed: boolean;
  onCall: boolean;
  withoutFactor: string[];
  mailSent: boolean;
  booked: boolean;
  /** It is the invented firm. */
  demo: boolean;
};

/** Whether a client ever signed an agreement here. */
export const everSigned = async (reader: Reader): Promise<boolean> => (await reader.rows('SELECT 1 FROM signature LIMIT 1')).length > 0;

/** Which steps an owner left. */
export const stepsLeft = async (reader: Reader): Promise<string[]> =>
  (await reader.rows<{ step: string }>('SELECT step FROM first_step_left ORDER BY step')).map(({ step }) => step);

/** These and no others are left. Constraint: first_step_left_known. */
export async function setStepsLeft(tx: Tx, steps: readonly string[], by: { leftBy: string; recordedAt: Date }): Promise<void> {
  await execute(tx, 'DELETE FROM first_step_left WHERE step <> ALL ($1::text[])', steps);
  await tx.db.firstStepLeft.createMany({ data: steps.map((step) => ({ step, ...by })), skipDuplicates: true });
}

const names = (where: string): string => `coalesce((SELECT json_agg(i.name ORDER BY i.name) FROM inspector i WHERE ${where}), '[]')`;

/** `today` is the firm's day. Meant for a firm that has steps open: the tables that it reads whole are small in any. */
export const firstFacts = async (reader: Reader, today: string): Promise<FirstFacts> =>
  (
    await reader.rows<FirstFacts>(
      `WITH active AS (SELECT p.id, p.name, p.trainee FROM person p WHERE p.ended_on IS NULL OR p.ended_on > $1::date),
         rule AS (SELECT r.value FROM (SELECT body FROM booking_rules ORDER BY in_force_from DESC, number DESC LIMIT 1) b, jsonb_array_elements(b.body -> 'requirements') r),
         needed AS (SELECT coalesce(k.of_kind, k.key) AS key FROM rule r JOIN kit_kind k ON k.key = r.value -> 'need' ->> 'kit'
           WHERE NOT EXISTS (SELECT FROM service s WHERE NOT s.base AND jsonb_path_exists(r.value -> 'applies', '$.**.service ? (@ == $key)', jsonb_build_object('key', s.key)))),
         piece AS (SELECT t.* FROM kit_item t WHERE t.ended_on IS NULL OR t.ended_on > $1::date),
         inspector AS (SELECT a.* FROM active a JOIN person_role r ON r.person_id = a.id AND r.role = 'inspector')
       SELECT (SELECT count(*)::int FROM inspector) AS inspectors,
         ${names('NOT i.trainee AND NOT EXISTS (SELECT FROM license l WHERE l.person_id = i.id AND l.from_day <= $1::date AND l.until_day >= $1::date)')} AS unlicensed,
         ${names('NOT EXISTS (SELECT FROM work_pattern w WHERE w.person_id = i.id AND (w.until_day IS NULL OR w.until_day >= $1::date))')} AS "withoutHours",
         ${names('EXISTS (SELECT FROM kit_kind k WHERE k.worn AND NOT EXISTS (SELECT FROM person_size s WHERE s.person_id = i.id AND s.kind = k.key))')} AS "withoutSize",
         coalesce((SELECT json_agg(CASE WHEN k.worn THEN k.name || ' for two people, in their sizes' ELSE k.name END ORDER BY k.name)
           FROM kit_kind k WHERE NOT k.carried_by_all AND k.key IN (SELECT key FROM needed) AND CASE WHEN k.worn
             THEN (SELECT coalesce(sum(least(w.people, w.pieces)), 0) FROM (SELECT count(*) AS people,
               (SELECT count(*) FROM piece t WHERE t.kind = k.key AND t.size = s.size) AS pieces
               FROM inspector i JOIN person_size s ON s.person_id = i.id AND s.kind = k.key GROUP BY s.size) w) < 2
             ELSE NOT EXISTS (SELECT FROM piece t WHERE t.kind = k.key) END), '[]') AS "kitMissing",
         (SELECT count(*)::int FROM active a JOIN person_role r ON r.person_id = a.id AND r.role = 'lead_inspector') AS leads,
         (SELECT count(*)::int FROM insurance_policy y WHERE y.ends_on >= $1::date) AS policies,
         EXISTS (SELECT FROM agreement_text t WHERE t.kind = 'inspection' AND t.state = 'approved' AND t.attorney IS NOT NULL) AS reviewed,
         EXISTS (SELECT FROM on_call_duty d WHERE d.is_on AND d.ended_at IS NULL) AS "onCall",
         coalesce((SELECT json_agg(a.name ORDER BY a.name) FROM active a JOIN person_role r ON r.person_id = a.id AND r.role = 'owner'
           WHERE NOT EXISTS (SELECT FROM second_factor f WHERE f.person_id = a.id AND f.confirmed_at IS NOT NULL)), '[]') AS "withoutFactor",
         EXISTS (SELECT FROM outgoing_mail m WHERE m.state = 'sent') AS "mailSent",
         EXISTS (SELECT FROM job j WHERE j.state NOT IN ('held', 'lapsed') AND j.bring_in_id IS NULL) AS booked,
         EXISTS (SELECT FROM firm WHERE demo) AS demo`,
      [today],
    )
  )[0]!;
