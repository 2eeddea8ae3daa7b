// Corrective actions and the callbacks that they come from.
import type { ActionKind } from '@backsight/domain/callbacks/words';
import type { ActionState } from '@backsight/domain/callbacks/action';
import { dayIn, type Reader, type Tx } from '../database.ts';

export type ActionRow = {
  id: string;
  number: number;
  kind: ActionKind;
  state: ActionState;
  title: string;
  why: string;
  ownerId: string;
  owner: string;
  dueOn: string;
  revisionId: string | null;
  revisionNumber: number | null;
  revisionState: string | null;
  procedureId: string | null;
  procedureTitle: string | null;
  inForceFrom: Date | null;
  recordedAt: Date;
  doneAt: Date | null;
  version: number;
  /** From when the change counts: its revision in force (also one to come), else when it was done. */
  changedAt: Date | null;
  reopenedAt: Date | null;
  reviewOn: string | null;
  reviewerId: string | null;
  reviewer: string | null;
  callbacks: { id: string; number: number; stepKey: string | null; ownerOnly: boolean }[];
};

const ACTION = `SELECT a.id::text AS id, a.number, a.kind, a.state, a.title, a.why, a.owner_id::text AS "ownerId", w.name AS owner, a.due_on::text AS "dueOn", a.revision_id::text AS "revisionId",
  r.number AS "revisionNumber", r.state AS "revisionState", p.id::text AS "procedureId", p.title AS "procedureTitle", (SELECT f.from_at FROM in_force_period f WHERE f.revision_id = a.revision_id) AS "inForceFrom",
  a.recorded_at AS "recordedAt", a.done_at AS "doneAt", a.version, coalesce((SELECT f.from_at FROM in_force_period f WHERE f.revision_id = a.revision_id), a.changed_at) AS "changedAt",
  a.reopened_at AS "reopenedAt", a.review_on::text AS "reviewOn", a.reviewer_id::text AS "reviewerId", v.name AS reviewer,
  coalesce((SELECT jsonb_agg(jsonb_build_object('id', c.id, 'number', c.number, 'ownerOnly', c.owner_only, 'stepKey', (SELECT x.step_key FROM conclusion x WHERE x.callback_id = c.id ORDER BY x.happened_at DESC, x.id DESC LIMIT 1)) ORDER BY c.number)
    FROM corrective_action_callback l JOIN callback c ON c.id = l.callback_id WHERE l.action_id = a.id), '[]') AS callbacks
  FROM corrective_action a JOIN person w ON w.id = a.owner_id LEFT JOIN person v ON v.id = a.reviewer_id LEFT JOIN procedure_revision r ON r.id = a.revision_id LEFT JOIN procedure p ON p.id = r.procedure_id`;

/** Open ones first, the soonest due first; of one revision when it is given. */
export const listActions = (reader: Reader, revisionId: string | null = null): Promise<ActionRow[]> =>
  reader.rows<ActionRow>(
    `${ACTION} WHERE $1::uuid IS NULL OR a.revision_id = $1::uuid ORDER BY a.state <> 'open', a.due_on, a.number LIMIT 1000`,
    [revisionId],
  );
export const actionsOfCallback = (reader: Reader, callbackId: string): Promise<ActionRow[]> =>
  reader.rows<ActionRow>(
    `${ACTION} WHERE a.id IN (SELECT action_id FROM corrective_action_callback WHERE callback_id = $1::uuid) ORDER BY a.number`,
    [callbackId],
  );
export const findAction = async (reader: Reader, id: string): Promise<ActionRow | null> =>
  (await reader.rows<ActionRow>(`${ACTION} WHERE a.id = $1::uuid`, [id]))[0] ?? null;
/** Those whose change counted by an instant, the newest change first. */
export const changedActions = (reader: Reader, by: Date, most: number): Promise<ActionRow[]> =>
  reader.rows<ActionRow>(
    `SELECT * FROM (${ACTION}) a WHERE a."changedAt" <= $1::timestamptz ORDER BY a."changedAt" DESC, a.number DESC LIMIT $2::int`,
    [by.toISOString(), most],
  );
export const lockAction = async (tx: Tx, id: string): Promise<ActionRow | null> =>
  (await tx.rows<ActionRow>(`${ACTION} WHERE a.id = $1::uuid FOR UPDATE OF a`, [id]))[0] ?? null;

export type NewAction = {
  id: string;
  number: number;
  kind: ActionKind;
  title: string;
  why: string;
  ownerId: string;
  dueOn: string;
  state: ActionState;
  changedAt: Date | null;
  doneAt: Date | null;
  reviewOn: string | null;
  reviewerId: string | null;
  recordedAt: Date;
  callbackIds: readonly string[];
};
export async function saveAction(tx: Tx, { callbackIds, dueOn, reviewOn, ...a }: NewAction): Promise<void> {
  await tx.db.correctiveAction.create({
    data: {
      ...a,
      dueOn: dayIn(dueOn),
      reviewOn: reviewOn === null ? null : dayIn(reviewOn),
      callbacks: { create: callbackIds.map((callbackId) => ({ callbackId })) },
    },
  });
}

export type ActionChange = {
  state?: ActionState;
  doneAt?: Date | null;
  changedAt?: Date;
  reopenedAt?: Date;
  revisionId?: string;
  ownerId?: string;
  dueOn?: Date;
  reviewOn?: Date | null;
  reviewerId?: string | null;
};
export const changeAction = (tx: Tx, id: string, data: ActionChange): Promise<void> =>
  tx.db.correctiveAction.update({ where: { id }, data: { ...data, version: { increment: 1 } } });

export type NewActionEvent = {
  id: string;
  actionId: string;
  seq: number;
  kind: string;
  details: object;
  textId: string | null;
  conclusionId: string | null;
  actorId: string | null;
  happenedAt: Date;
};
export const saveActionEvent = (tx: Tx, event: NewActionEvent): Promise<void> => tx.db.correctiveActionEvent.create({ data: event });

/** Open actions whose revision is in force at an instant; one that was reopened waits for a revision that came after that. */
const READY = `FROM corrective_action a JOIN in_force_period f ON f.revision_id = a.revision_id AND f.from_at <= $1::timestamptz WHERE a.kind = 'revision' AND a.state = 'open' AND (a.reopened_at IS NULL OR f.from_at > a.reopened_at)`;
export const readyActions = (tx: Tx, at: Date): Promise<{ id: string; revisionId: string; version: number }[]> =>
  tx.rows(`SELECT a.id::text AS id, a.revision_id::text AS "revisionId", a.version ${READY} ORDER BY a.number FOR UPDATE OF a`, [
    at.toISOString(),
  ]);
export const countReadyActions = async (reader: Reader, at: Date): Promise<number> =>
  (await reader.rows<{ n: number }>(`SELECT count(*)::int AS n ${READY}`, [at.toISOString()]))[0]!.n;

/** How many of the callbacks given have a conclusion. */
export const concludedAmong = async (reader: Reader, ids: readonly string[]): Promise<number> =>
  (
    await reader.rows<{ n: number }>('SELECT count(DISTINCT callback_id)::int AS n FROM conclusion WHERE callback_id = ANY ($1::uuid[])', [
      ids,
    ])
  )[0]?.n ?? 0;

export type RevisionStanding = { number: number; state: string; inForce: boolean };
/** Whether a revision exists, its state, and whether it is the one in force at an instant. */
export const revisionStanding = async (reader: Reader, revisionId: string, at: Date): Promise<RevisionStanding | null> =>
  (
    await reader.rows<RevisionStanding>(
      `SELECT r.number, r.state, EXISTS (SELECT FROM in_force_period f WHERE f.revision_id = r.id AND f.from_at <= $2::timestamptz) AS "inForce" FROM procedure_revision r WHERE r.id = $1::uuid`,
      [revisionId, at.toISOString()],
    )
  )[0] ?? null;
