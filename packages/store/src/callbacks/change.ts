// What a corrective action means to change: the steps that its callbacks were traced to, its history, and failures that came after it.
import type { ActionState } from '@backsight/domain/callbacks/action';
import type { Kind } from '@backsight/domain/callbacks/words';
import type { Reader, Tx } from '../database.ts';
import { LINEAGE } from '../lineage.ts';

export type ActionEventRow = {
  seq: number;
  kind: string;
  details: Record<string, unknown>;
  words: string | null;
  callbackId: string | null;
  callbackNumber: number | null;
  callbackOwnerOnly: boolean | null;
  by: string | null;
  happenedAt: Date;
};
export const actionEvents = (reader: Reader, actionId: string): Promise<ActionEventRow[]> =>
  reader.rows<ActionEventRow>(
    `SELECT e.seq, e.kind, e.details, t.body AS words, c.id::text AS "callbackId", c.number AS "callbackNumber", c.owner_only AS "callbackOwnerOnly", p.name AS by, e.happened_at AS "happenedAt"
     FROM corrective_action_event e LEFT JOIN kept_text t ON t.id = e.text_id LEFT JOIN conclusion x ON x.id = e.conclusion_id LEFT JOIN callback c ON c.id = x.callback_id LEFT JOIN person p ON p.id = e.actor_id
     WHERE e.action_id = $1::uuid ORDER BY e.seq`,
    [actionId],
  );

/** One step to which callbacks of the action were traced: the revision that the pair worked by then. */
export type TracedRow = {
  root: string;
  stepKey: string;
  title: string;
  revisionId: string;
  revisionNumber: number;
  procedureTitle: string;
  callbackId: string;
  jobId: string;
};
export const tracedSteps = (reader: Reader, actionId: string): Promise<TracedRow[]> =>
  reader.rows<TracedRow>(
    `${LINEAGE}, newest AS (SELECT DISTINCT ON (x.callback_id) x.callback_id, x.step_key, x.revision_id FROM conclusion x JOIN corrective_action_callback a ON a.callback_id = x.callback_id AND a.action_id = $1::uuid
       ORDER BY x.callback_id, x.happened_at DESC, x.id DESC)
     SELECT l.root, n.step_key AS "stepKey", s.body->>'title' AS title, n.revision_id::text AS "revisionId", r.number AS "revisionNumber", p.title AS "procedureTitle", c.id::text AS "callbackId", c.job_id::text AS "jobId"
     FROM newest n JOIN line l ON l.key = n.step_key JOIN revision_step s ON s.revision_id = n.revision_id AND s.step_key = n.step_key JOIN procedure_revision r ON r.id = n.revision_id JOIN procedure p ON p.id = r.procedure_id
       JOIN callback c ON c.id = n.callback_id ORDER BY c.number`,
    [actionId],
  );

export type CaseRow = { kind: Kind; ownerOnly: boolean; address: string; names: string[] };
/** Who and where the callbacks of an action are, so that no text names them. */
export const casesOf = (reader: Reader, callbackIds: readonly string[]): Promise<CaseRow[]> =>
  reader.rows<CaseRow>(
    `SELECT c.kind, c.owner_only AS "ownerOnly", a.address, coalesce((SELECT jsonb_agg(w.name ORDER BY w.name) FROM job_party x JOIN party w ON w.id = x.party_id WHERE x.job_id = j.id), '[]') AS names
     FROM callback c JOIN job j ON j.id = c.job_id JOIN property a ON a.id = j.property_id WHERE c.id = ANY ($1::uuid[])`,
    [callbackIds],
  );

export type ConcernedRow = {
  id: string;
  number: number;
  state: ActionState;
  version: number;
  changedAt: Date | null;
  /** Who sees to it; a lead inspector, else an owner, when that person has left the firm. */
  toName: string;
  toEmail: string;
  owner: string;
  inspectedAt: Date | null;
};
/** Actions because of other callbacks that were traced to the line of this step, and when the job of this callback was inspected. Locked. */
export const actionsOnStep = (tx: Tx, stepKey: string, callbackId: string, now: Date): Promise<ConcernedRow[]> =>
  tx.rows<ConcernedRow>(
    `${LINEAGE}, newest AS (SELECT DISTINCT ON (callback_id) callback_id, step_key FROM conclusion ORDER BY callback_id, happened_at DESC, id DESC)
     SELECT a.id::text AS id, a.number, a.state, a.version, coalesce((SELECT f.from_at FROM in_force_period f WHERE f.revision_id = a.revision_id), a.changed_at) AS "changedAt", t.name AS "toName", t.email AS "toEmail", w.name AS owner,
       (SELECT min(v.starts_at) FROM visit v JOIN callback c ON c.job_id = v.job_id WHERE c.id = $2::uuid AND v.state IN ('on_site', 'done')) AS "inspectedAt"
     FROM corrective_action a JOIN person w ON w.id = a.owner_id
       JOIN LATERAL (SELECT p.name, p.email FROM person p WHERE (p.ended_on IS NULL OR p.ended_on > $3::timestamptz::date)
         AND (p.id = a.owner_id OR EXISTS (SELECT FROM person_role r WHERE r.person_id = p.id AND r.role IN ('lead_inspector', 'owner')))
         ORDER BY p.id <> a.owner_id, NOT EXISTS (SELECT FROM person_role r WHERE r.person_id = p.id AND r.role = 'lead_inspector'), p.started_on, p.id LIMIT 1) t ON true
     WHERE a.state <> 'dropped' AND NOT EXISTS (SELECT FROM corrective_action_callback m WHERE m.action_id = a.id AND m.callback_id = $2::uuid)
       AND EXISTS (SELECT FROM corrective_action_callback x JOIN newest n ON n.callback_id = x.callback_id JOIN line l ON l.key = n.step_key
         WHERE x.action_id = a.id AND l.root = (SELECT root FROM line WHERE key = $1)) ORDER BY a.number FOR UPDATE OF a`,
    [stepKey, callbackId, now],
  );

export type ConcludedRow = {
  id: string;
  number: number;
  cause: string;
  step: string | null;
  stepKey: string | null;
  ownerOnly: boolean;
  actions: number;
};
/** Callbacks with a conclusion, newest first, with the step of the newest one and how many actions there are because of them. */
export const concludedCallbacks = (reader: Reader): Promise<ConcludedRow[]> =>
  reader.rows<ConcludedRow>(
    `SELECT c.id::text AS id, c.number, n.cause, n.step_key AS "stepKey", s.body->>'title' AS step, c.owner_only AS "ownerOnly", (SELECT count(*)::int FROM corrective_action_callback x WHERE x.callback_id = c.id) AS actions
     FROM (SELECT DISTINCT ON (callback_id) callback_id, cause, step_key, revision_id FROM conclusion ORDER BY callback_id, happened_at DESC, id DESC) n JOIN callback c ON c.id = n.callback_id
       LEFT JOIN revision_step s ON s.revision_id = n.revision_id AND s.step_key = n.step_key ORDER BY c.number DESC LIMIT 200`,
  );
