// Appeals of decisions, the private links that open them, and what clients say of how we handled it.
import type { ClientAnswer } from '@backsight/domain/callbacks/after';
import { dayIn, type Reader, type Tx } from '../database.ts';

export type AppealRow = {
  id: string;
  way: 'link' | 'office';
  words: string | null;
  dueOn: string;
  receivedAt: Date;
  result: 'upheld' | 'changed' | null;
  resultWords: string | null;
  decidedBy: string | null;
  involved: boolean | null;
  reviewer: string;
  decidedAt: Date | null;
};

/** The newest first. */
export const appealsOf = (reader: Reader, callbackId: string): Promise<AppealRow[]> =>
  reader.rows<AppealRow>(
    `SELECT a.id::text AS id, a.way, t.body AS words, a.due_on::text AS "dueOn", a.received_at AS "receivedAt", a.result, r.body AS "resultWords", p.name AS "decidedBy", a.involved, a.reviewer, a.decided_at AS "decidedAt"
       FROM appeal a JOIN kept_text t ON t.id = a.text_id LEFT JOIN kept_text r ON r.id = a.result_text_id LEFT JOIN person p ON p.id = a.decided_by WHERE a.callback_id = $1::uuid ORDER BY a.received_at DESC, a.id DESC`,
    [callbackId],
  );

/** Constraint: appeal_one_open. */
export async function saveAppeal(
  tx: Tx,
  { dueOn, at, ...row }: { id: string; callbackId: string; way: 'link' | 'office'; textId: string; dueOn: string; at: Date },
): Promise<void> {
  await tx.db.appeal.create({ data: { ...row, dueOn: dayIn(dueOn), receivedAt: at, recordedAt: at } });
}

export async function decideOnAppeal(
  tx: Tx,
  id: string,
  d: { result: string; resultTextId: string; decidedBy: string; involved: boolean; reviewer: string; at: Date },
): Promise<void> {
  const { at, ...data } = d;
  await tx.db.appeal.update({ where: { id }, data: { ...data, decidedAt: at } });
}

/** Owners with the firm on the day, and whether each concluded the callback, decided an appeal of it, or was on its job. */
export const ownersFor = (reader: Reader, callbackId: string, today: string): Promise<{ id: string; name: string; involved: boolean }[]> =>
  reader.rows(
    `SELECT p.id::text AS id, p.name, (EXISTS (SELECT FROM conclusion c WHERE c.callback_id = $1::uuid AND c.actor_id = p.id)
        OR EXISTS (SELECT FROM appeal a WHERE a.callback_id = $1::uuid AND a.decided_by = p.id)
        OR EXISTS (SELECT FROM callback b JOIN visit v ON v.job_id = b.job_id AND v.state IN ('on_site', 'done', 'before') JOIN assignment s ON s.visit_id = v.id WHERE b.id = $1::uuid AND s.person_id = p.id)) AS involved
       FROM person p WHERE (p.ended_on IS NULL OR p.ended_on > $2::date) AND EXISTS (SELECT FROM person_role r WHERE r.person_id = p.id AND r.role = 'owner') ORDER BY p.name`,
    [callbackId, today],
  );

export async function saveAnswerLink(
  tx: Tx,
  { at, ...row }: { id: string; callbackId: string; partyId: string; tokenHash: string; endsAt: Date; at: Date },
): Promise<void> {
  await tx.db.answerLink.create({ data: { ...row, recordedAt: at } });
}

export type AnswerLinkRow = { callbackId: string; partyId: string; name: string; endsAt: Date };
export const answerLinkOf = async (reader: Reader, tokenHash: string): Promise<AnswerLinkRow | null> =>
  (
    await reader.rows<AnswerLinkRow>(
      `SELECT l.callback_id::text AS "callbackId", l.party_id::text AS "partyId", p.name, l.ends_at AS "endsAt" FROM answer_link l JOIN party p ON p.id = l.party_id WHERE l.token_hash = $1`,
      [tokenHash],
    )
  )[0] ?? null;

export type ClientAnswerRow = { answer: ClientAnswer; words: string | null; at: Date };

/** What the client says now; null before the first answer. */
export const clientAnswerOf = async (reader: Reader, callbackId: string): Promise<ClientAnswerRow | null> =>
  (
    await reader.rows<ClientAnswerRow>(
      `SELECT a.answer, t.body AS words, a.happened_at AS at FROM client_answer a LEFT JOIN kept_text t ON t.id = a.text_id WHERE a.callback_id = $1::uuid ORDER BY a.recorded_at DESC, a.id DESC LIMIT 1`,
      [callbackId],
    )
  )[0] ?? null;

export async function saveClientAnswer(
  tx: Tx,
  { at, ...row }: { id: string; callbackId: string; answer: string; textId: string | null; at: Date },
): Promise<void> {
  await tx.db.clientAnswer.create({ data: { ...row, happenedAt: at, recordedAt: at } });
}

export type AnswerCount = { month: string; answer: string; count: number };

/**
 * Callbacks that were closed and whose client was asked, counted by the month of their newest closing in the firm's zone and by what the client
 * says now; 'none' where nothing came. It names nobody.
 */
export const answerCounts = (reader: Reader, zone: string): Promise<AnswerCount[]> =>
  reader.rows<AnswerCount>(
    `WITH asked AS (SELECT c.id, (SELECT max(e.happened_at) FROM callback_event e WHERE e.callback_id = c.id AND e.kind = 'closed') AS closed FROM callback c WHERE EXISTS (SELECT FROM answer_link l WHERE l.callback_id = c.id))
     SELECT to_char(k.closed AT TIME ZONE $1, 'YYYY-MM') AS month, coalesce((SELECT a.answer FROM client_answer a WHERE a.callback_id = k.id ORDER BY a.recorded_at DESC, a.id DESC LIMIT 1), 'none') AS answer, count(*)::int AS count
       FROM asked k WHERE k.closed IS NOT NULL GROUP BY 1, 2 ORDER BY 1 DESC, 2`,
    [zone],
  );
