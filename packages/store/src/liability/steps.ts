// Times that steps applied and failures traced to them, by the step's line of descent and by revision.
import type { Reader } from '../database.ts';
import { LINEAGE } from '../lineage.ts';

export type AppliedRow = { root: string; revisionId: string; times: number; jobs: number; firstAt: Date };

/** One application is one record and, for steps done per item, one item of it. A callback visit looks again at what was counted before. */
export const timesApplied = (reader: Reader): Promise<AppliedRow[]> =>
  reader.rows<AppliedRow>(
    `${LINEAGE} SELECT l.root, s.revision_id::text AS "revisionId", count(DISTINCT (k.record_id, s.item_id))::int AS times, count(DISTINCT v.job_id)::int AS jobs, min(k.issued_at) AS "firstAt"
     FROM package_step s JOIN line l ON l.key = s.step_key JOIN site_package k ON k.id = s.package_id JOIN site_record d ON d.id = k.record_id JOIN visit v ON v.id = d.visit_id
       JOIN job j ON j.id = v.job_id AND j.kind <> 'callback_visit' GROUP BY 1, 2`,
  );

export type FailureRow = { root: string; revisionId: string; failures: number; nearMisses: number };

/** Newest conclusions that blame a step; near-misses are counted apart. */
export const failuresByStep = (reader: Reader): Promise<FailureRow[]> =>
  reader.rows<FailureRow>(
    `${LINEAGE}, newest AS (SELECT DISTINCT ON (callback_id) callback_id, cause, step_key, revision_id FROM conclusion ORDER BY callback_id, happened_at DESC, id DESC)
     SELECT l.root, n.revision_id::text AS "revisionId", count(*) FILTER (WHERE c.kind <> 'near_miss')::int AS failures, count(*) FILTER (WHERE c.kind = 'near_miss')::int AS "nearMisses"
     FROM newest n JOIN callback c ON c.id = n.callback_id JOIN line l ON l.key = n.step_key WHERE n.cause IN ('skipped', 'done_wrongly', 'not_in_procedure', 'unclear') AND c.kind <> 'question' GROUP BY 1, 2`,
  );

export type LineRow = { root: string; title: string; procedureId: string; procedureTitle: string; system: string };

/** The name of each line: the title of its first step in the newest revision that has it. */
export const stepLines = (reader: Reader): Promise<LineRow[]> =>
  reader.rows<LineRow>(
    `SELECT k.key AS root, coalesce((SELECT s.body->>'title' FROM revision_step s JOIN procedure_revision r ON r.id = s.revision_id AND r.state = 'approved' WHERE s.step_key = k.key ORDER BY r.number DESC LIMIT 1), k.key) AS title,
       p.id::text AS "procedureId", p.title AS "procedureTitle", p.system FROM step_key k JOIN procedure p ON p.id = k.procedure_id WHERE k.derived_from IS NULL ORDER BY p.position, k.key`,
  );

export type RevisionRow = { id: string; procedureId: string; number: number };
export const revisionNumbers = (reader: Reader): Promise<RevisionRow[]> =>
  reader.rows<RevisionRow>('SELECT id::text AS id, procedure_id::text AS "procedureId", number FROM procedure_revision');

export type ChangeRow = {
  actionId: string;
  actionNumber: number;
  revisionId: string;
  revisionNumber: number;
  procedureId: string;
  inForceFrom: Date;
  root: string;
};

/** Revisions in force that corrective actions brought, with the lines of steps that their callbacks were traced to and that they hold. */
export const changesInForce = (reader: Reader, at: Date): Promise<ChangeRow[]> =>
  reader.rows<ChangeRow>(
    `${LINEAGE}, newest AS (SELECT DISTINCT ON (callback_id) callback_id, step_key FROM conclusion ORDER BY callback_id, happened_at DESC, id DESC)
     SELECT DISTINCT a.id::text AS "actionId", a.number AS "actionNumber", r.id::text AS "revisionId", r.number AS "revisionNumber", r.procedure_id::text AS "procedureId", f.from_at AS "inForceFrom", l.root
     FROM corrective_action a JOIN procedure_revision r ON r.id = a.revision_id JOIN in_force_period f ON f.revision_id = r.id AND f.from_at <= $1::timestamptz
       JOIN corrective_action_callback x ON x.action_id = a.id JOIN newest n ON n.callback_id = x.callback_id JOIN line l ON l.key = n.step_key
     WHERE EXISTS (SELECT FROM revision_step s JOIN line m ON m.key = s.step_key AND m.root = l.root WHERE s.revision_id = r.id) ORDER BY "inForceFrom"`,
    [at.toISOString()],
  );

/**
 * Among sealed records that worked by a revision: how many times its steps of a line applied, and how often every one of them has a
 * standing entry that was not cut short and whose count does not differ.
 */
export async function evidenceMet(reader: Reader, root: string, revisionId: string): Promise<{ met: number; total: number }> {
  const [row] = await reader.rows<{ met: number; total: number }>(
    `${LINEAGE}, asked AS (SELECT DISTINCT k.record_id, s.item_id, s.step_key FROM package_step s JOIN line l ON l.key = s.step_key AND l.root = $1 JOIN site_package k ON k.id = s.package_id
         JOIN site_record d ON d.id = k.record_id AND d.state = 'sealed' WHERE s.revision_id = $2::uuid),
       judged AS (SELECT a.record_id, a.item_id, bool_and(EXISTS (SELECT FROM step_entry e WHERE e.record_id = a.record_id AND e.step_key = a.step_key AND e.item_id IS NOT DISTINCT FROM a.item_id
           AND e.outcome <> 'ended_before' AND e.match <> 'differs' AND NOT EXISTS (SELECT FROM step_entry n WHERE n.supersedes_id = e.id))) AS met FROM asked a GROUP BY 1, 2)
     SELECT count(*) FILTER (WHERE met)::int AS met, count(*)::int AS total FROM judged`,
    [root, revisionId],
  );
  return row ?? { met: 0, total: 0 };
}
