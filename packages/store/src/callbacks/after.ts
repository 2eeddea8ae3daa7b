// What follows a callback: who looks into it, the check after closing, appeals, private links and the client's answer.
import type { AfterRules, CheckOutcome, Severity } from '@backsight/domain/callbacks/after';
import { dayIn, touched, type Reader, type Tx } from '../database.ts';

export type AfterRulesRow = AfterRules & { version: number };

export const afterRules = async (reader: Reader): Promise<AfterRulesRow> =>
  (
    await reader.rows<AfterRulesRow>(
      'SELECT check_days AS "checkDays", appeal_days AS "appealDays", decide_days AS "decideDays", version FROM after_rules WHERE id = 1',
    )
  )[0]!;

/** Changes them where `version` is still theirs; answers how many rows that were. */
export const changeAfterRules = (tx: Tx, r: AfterRulesRow): Promise<number> =>
  touched(
    tx,
    'UPDATE after_rules SET check_days = $1::int, appeal_days = $2::int, decide_days = $3::int, version = version + 1 WHERE id = 1 AND version = $4::int',
    r.checkDays,
    r.appealDays,
    r.decideDays,
    r.version,
  );

export type AssessmentRow = { severity: Severity; atOnce: boolean; assigneeId: string; assignee: string; by: string; at: Date };

/** The newest assessment; null before the first. */
export const assessmentOf = async (reader: Reader, callbackId: string): Promise<AssessmentRow | null> =>
  (
    await reader.rows<AssessmentRow>(
      `SELECT a.severity, a.at_once AS "atOnce", a.assignee_id::text AS "assigneeId", p.name AS assignee, w.name AS by, a.happened_at AS at
         FROM callback_assessment a JOIN person p ON p.id = a.assignee_id JOIN person w ON w.id = a.actor_id WHERE a.callback_id = $1::uuid ORDER BY a.recorded_at DESC, a.id DESC LIMIT 1`,
      [callbackId],
    )
  )[0] ?? null;

export async function saveAssessment(
  tx: Tx,
  { at, ...row }: { id: string; callbackId: string; severity: string; atOnce: boolean; assigneeId: string; actorId: string; at: Date },
): Promise<void> {
  await tx.db.callbackAssessment.create({ data: { ...row, happenedAt: at, recordedAt: at } });
}

/** People who may look into a callback: who is with the firm on the day and is owner, lead inspector or of the office. */
export const deskPeople = (reader: Reader, today: string): Promise<{ id: string; name: string; owner: boolean }[]> =>
  reader.rows(
    `SELECT p.id::text AS id, p.name, EXISTS (SELECT FROM person_role r WHERE r.person_id = p.id AND r.role = 'owner') AS owner FROM person p WHERE (p.ended_on IS NULL OR p.ended_on > $1::date) AND EXISTS (SELECT FROM person_role r WHERE r.person_id = p.id AND r.role IN ('owner', 'lead_inspector', 'office_manager')) ORDER BY p.name`,
    [today],
  );

export type CheckRow = {
  id: string;
  dueOn: string;
  person: string;
  outcome: CheckOutcome | 'reopened' | null;
  words: string | null;
  repeatNumber: number | null;
  doneAt: Date | null;
};

/** Checks of a callback, the newest first. */
export const checksOf = (reader: Reader, callbackId: string): Promise<CheckRow[]> =>
  reader.rows<CheckRow>(
    `SELECT k.id::text AS id, k.due_on::text AS "dueOn", p.name AS person, k.outcome, t.body AS words, c.number AS "repeatNumber", k.done_at AS "doneAt"
       FROM after_check k JOIN person p ON p.id = k.person_id LEFT JOIN kept_text t ON t.id = k.text_id LEFT JOIN callback c ON c.id = k.repeat_id WHERE k.callback_id = $1::uuid ORDER BY k.recorded_at DESC, k.id DESC`,
    [callbackId],
  );

export async function saveCheck(
  tx: Tx,
  { dueOn, at, ...row }: { id: string; callbackId: string; dueOn: string; personId: string; at: Date },
): Promise<void> {
  await tx.db.afterCheck.create({ data: { ...row, dueOn: dayIn(dueOn), recordedAt: at } });
}

/** Answers the check that is open; `reopened` where the callback was opened again before. */
export async function answerCheck(
  tx: Tx,
  callbackId: string,
  a: { outcome: string; textId: string | null; repeatId: string | null; actorId: string | null; at: Date },
): Promise<void> {
  const { at, ...data } = a;
  await tx.db.afterCheck.updateMany({ where: { callbackId, outcome: null }, data: { ...data, doneAt: at } });
}

/** The callback of a number, with its property. */
export const callbackByNumber = async (
  reader: Reader,
  number: number,
): Promise<{ id: string; propertyId: string; ownerOnly: boolean } | null> =>
  (
    await reader.rows<{ id: string; propertyId: string; ownerOnly: boolean }>(
      `SELECT c.id::text AS id, j.property_id::text AS "propertyId", c.owner_only AS "ownerOnly" FROM callback c JOIN job j ON j.id = c.job_id WHERE c.number = $1::int`,
      [number],
    )
  )[0] ?? null;

/** The instant of the newest closing; null while it was never closed. */
export const closedAt = async (reader: Reader, callbackId: string): Promise<Date | null> =>
  (
    await reader.rows<{ at: Date }>(
      `SELECT happened_at AS at FROM callback_event WHERE callback_id = $1::uuid AND kind = 'closed' ORDER BY seq DESC LIMIT 1`,
      [callbackId],
    )
  )[0]?.at ?? null;
