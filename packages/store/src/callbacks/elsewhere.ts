// Other jobs that worked by the same step and revision: what their records hold there, who looked at them, and who was told.
import type { Gap, Verdict } from '@backsight/domain/callbacks/words';
import type { Evidence } from '@backsight/domain/procedures/step';
import type { EntryEvidence } from '@backsight/domain/sitework/value';
import type { Reader, Tx } from '../database.ts';
import { isFilledIn } from '../filled.ts';

export type PlaceRow = {
  jobId: string;
  jobNumber: number;
  inspectedAt: Date;
  item: string | null;
  asked: Evidence;
  ownExtra: boolean;
  followed: boolean;
  entries: {
    outcome: string;
    match: string;
    noted: boolean;
    /** By the service, for somebody who had put down nothing. */
    filled: boolean;
    observerId: string;
    observer: string;
    evidence: EntryEvidence | null;
    reason: string | null;
  }[];
};

const PLACES = `SELECT j.id::text AS "jobId", j.number AS "jobNumber", x.at AS "inspectedAt", i.label AS item, b.body->'evidence' AS asked, b.body->'basis'->>'kind' = 'own_extra' AS "ownExtra",
    EXISTS (SELECT FROM step_entry f WHERE f.record_id = x.record_id AND NOT EXISTS (SELECT FROM step_entry n WHERE n.supersedes_id = f.id) AND ((f.item_id IS NOT DISTINCT FROM x.item_id AND f.step_key <> $1 AND f.match IN ('as_expected', 'differs'))
      OR (f.value->'act'->>'do' = 'power_back' AND f.value->'act'->>'device' = x.item_id::text))) AS followed,
    coalesce((SELECT jsonb_agg(jsonb_build_object('outcome', e.outcome, 'match', e.match, 'noted', e.text_id IS NOT NULL, 'filled', ${isFilledIn('e')}, 'observerId', e.observed_by, 'observer', o.name, 'evidence', e.value->'evidence', 'reason', e.reason)
        ORDER BY e.observed_at, e.device_seq, e.id) FROM step_entry e JOIN person o ON o.id = e.observed_by
      WHERE e.record_id = x.record_id AND e.step_key = $1 AND e.item_id IS NOT DISTINCT FROM x.item_id AND NOT EXISTS (SELECT FROM step_entry n WHERE n.supersedes_id = e.id)), '[]') AS entries
  FROM (SELECT DISTINCT ON (v.job_id, k.record_id, s.item_id) v.job_id, k.record_id, s.item_id, k.issued_at AS at FROM package_step s JOIN site_package k ON k.id = s.package_id JOIN site_record d ON d.id = k.record_id
      JOIN visit v ON v.id = d.visit_id WHERE s.step_key = $1 AND s.revision_id = $2::uuid AND (v.state = 'done' OR d.state = 'sealed') AND v.job_id = ANY ($3::uuid[]) ORDER BY v.job_id, k.record_id, s.item_id, k.issued_at) x
    JOIN job j ON j.id = x.job_id JOIN revision_step b ON b.revision_id = $2::uuid AND b.step_key = $1 LEFT JOIN record_item i ON i.id = x.item_id`;

/** Places of jobs at which a step of a revision was to be done, by number of the job, newest first. */
export const placesOfJobs = (
  reader: Reader,
  step: { stepKey: string; revisionId: string },
  jobIds: readonly string[],
): Promise<PlaceRow[]> => reader.rows<PlaceRow>(`${PLACES} ORDER BY j.number DESC, i.label`, [step.stepKey, step.revisionId, jobIds]);

/** Jobs below a number that worked by the step of the revision, newest first; those of the callbacks themselves and callback visits left out. */
export const jobsBySameStep = async (
  reader: Reader,
  step: { stepKey: string; revisionId: string },
  { before, not, limit }: { before: number | null; not: readonly string[]; limit: number },
): Promise<string[]> =>
  (
    await reader.rows<{ id: string }>(
      `SELECT j.id::text AS id FROM job j WHERE j.kind <> 'callback_visit' AND ($3::int IS NULL OR j.number < $3::int) AND j.id <> ALL ($4::uuid[])
         AND EXISTS (SELECT FROM visit v JOIN site_record d ON d.visit_id = v.id JOIN site_package k ON k.record_id = d.id JOIN package_step s ON s.package_id = k.id AND s.step_key = $1 AND s.revision_id = $2::uuid
           WHERE v.job_id = j.id AND (v.state = 'done' OR d.state = 'sealed')) ORDER BY j.number DESC LIMIT $5::int`,
      [step.stepKey, step.revisionId, before, not, limit],
    )
  ).map(({ id }) => id);

export type LookRow = { jobId: string; gap: Gap; verdict: Verdict; words: string | null; by: string; happenedAt: Date };
/** The newest look at each job. */
export const looksOf = (reader: Reader, actionId: string): Promise<LookRow[]> =>
  reader.rows<LookRow>(
    `SELECT DISTINCT ON (k.job_id) k.job_id::text AS "jobId", k.gap, k.verdict, t.body AS words, p.name AS by, k.happened_at AS "happenedAt"
     FROM elsewhere_look k JOIN kept_text t ON t.id = k.text_id JOIN person p ON p.id = k.actor_id WHERE k.action_id = $1::uuid ORDER BY k.job_id, k.happened_at DESC, k.id DESC`,
    [actionId],
  );

export type ToldRow = {
  jobId: string;
  decision: 'tell' | 'not_tell';
  danger: boolean;
  insurerWord: string;
  attorneyWord: string;
  told: { name: string; way: 'mail' | 'call' }[];
  words: string | null;
  by: string;
  happenedAt: Date;
};
/** The newest decision about each job. */
export const decisionsOf = (reader: Reader, actionId: string): Promise<ToldRow[]> =>
  reader.rows<ToldRow>(
    `SELECT DISTINCT ON (d.job_id) d.job_id::text AS "jobId", d.decision, d.danger, d.insurer_word AS "insurerWord", d.attorney_word AS "attorneyWord", d.told, t.body AS words, p.name AS by, d.happened_at AS "happenedAt"
     FROM elsewhere_decision d JOIN kept_text t ON t.id = d.text_id JOIN person p ON p.id = d.actor_id WHERE d.action_id = $1::uuid ORDER BY d.job_id, d.happened_at DESC, d.id DESC`,
    [actionId],
  );

export type NewLook = {
  id: string;
  actionId: string;
  jobId: string;
  gap: Gap;
  verdict: Verdict;
  textId: string;
  actorId: string;
  happenedAt: Date;
};
export const saveLook = (tx: Tx, look: NewLook): Promise<void> => tx.db.elsewhereLook.create({ data: look });
export type NewDecision = Omit<ToldRow, 'words' | 'by'> & { id: string; actionId: string; textId: string; actorId: string };
export const saveDecision = (tx: Tx, decision: NewDecision): Promise<void> => tx.db.elsewhereDecision.create({ data: decision });
