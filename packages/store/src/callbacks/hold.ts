// Holds on the evidence of a job. What erases or takes away is refused by the database while one stands (rule: evidence_held).
import type { Reader, Tx } from '../database.ts';

/** Why nothing of the job may be erased now, by the one function that the database itself asks; null when nothing holds it. */
export const heldBecause = async (reader: Reader, jobId: string): Promise<string | null> =>
  (await reader.rows<{ why: string | null }>('SELECT evidence_held_because($1::uuid) AS why', [jobId]))[0]!.why;

export type HoldRow = {
  id: string;
  jobId: string;
  reason: string | null;
  by: string;
  at: Date;
  liftReason: string | null;
  liftedBy: string | null;
  liftedAt: Date | null;
};

const HOLD = `SELECT h.id::text AS id, h.job_id::text AS "jobId", t.body AS reason, p.name AS by, h.happened_at AS at, lt.body AS "liftReason", lp.name AS "liftedBy", l.happened_at AS "liftedAt"
  FROM evidence_hold h JOIN kept_text t ON t.id = h.text_id JOIN person p ON p.id = h.actor_id LEFT JOIN evidence_hold_lift l ON l.hold_id = h.id LEFT JOIN kept_text lt ON lt.id = l.text_id
  LEFT JOIN person lp ON lp.id = l.actor_id`;

/** Holds that were set by hand, the newest first, lifted ones too. */
export const holdsOfJob = (reader: Reader, jobId: string): Promise<HoldRow[]> =>
  reader.rows<HoldRow>(`${HOLD} WHERE h.job_id = $1::uuid ORDER BY h.happened_at DESC, h.id DESC`, [jobId]);
export const findHold = async (reader: Reader, id: string): Promise<HoldRow | null> =>
  (await reader.rows<HoldRow>(`${HOLD} WHERE h.id = $1::uuid`, [id]))[0] ?? null;

/** Numbers of the callbacks that hold the job now. */
export const holdingCallbacks = (reader: Reader, jobId: string): Promise<{ number: number; ownerOnly: boolean }[]> =>
  reader.rows(
    `SELECT number, owner_only AS "ownerOnly" FROM callback WHERE job_id = $1::uuid AND state <> 'closed' AND kind <> 'question' ORDER BY number`,
    [jobId],
  );

type NewHold = { id: string; jobId: string; textId: string; actorId: string; at: Date };
export async function saveHold(tx: Tx, { at, ...row }: NewHold): Promise<void> {
  await tx.db.evidenceHold.create({ data: { ...row, happenedAt: at, recordedAt: at } });
}

/** Constraint: evidence_hold_lift_pkey. */
export async function saveLift(tx: Tx, { at, ...row }: { holdId: string; textId: string; actorId: string; at: Date }): Promise<void> {
  await tx.db.evidenceHoldLift.create({ data: { ...row, happenedAt: at, recordedAt: at } });
}
