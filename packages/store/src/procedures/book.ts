// Reads procedures and their revisions.
import type { KnownKey } from '@backsight/domain/procedures/editSteps';
import type { Marked, Question } from '@backsight/domain/procedures/questions';
import type { RevisionState } from '@backsight/domain/procedures/revise';
import type { Step } from '@backsight/domain/procedures/step';
import type { Reader, Tx } from '../database.ts';

export type ProcedureRow = { id: string; key: string; title: string; system: string };

export const listProcedures = (reader: Reader): Promise<ProcedureRow[]> =>
  reader.rows<ProcedureRow>('SELECT id::text AS id, key, title, system FROM procedure ORDER BY position, key');

export type RevisionRow = {
  id: string;
  procedureId: string;
  number: number;
  state: RevisionState;
  reason: string;
  basedOnId: string | null;
  authorId: string;
  author: string;
  approver: string | null;
  approvedAt: Date | null;
  inForceFrom: Date | null;
  inForceUntil: Date | null;
  acknowledgeBy: Date | null;
  /** Whether inspectors are asked to acknowledge it. */
  asks: boolean;
  retires: boolean;
  questions: Question[];
  graceReason: string | null;
  version: number;
  recordedAt: Date;
  stepCount: number;
};

const REVISION = `SELECT r.id::text AS id, r.procedure_id::text AS "procedureId", r.number, r.state, r.reason, r.based_on_id::text AS "basedOnId", r.author_id::text AS "authorId",
  a.name AS author, b.name AS approver, r.approved_at AS "approvedAt", r.in_force_from AS "inForceFrom", f.until_at AS "inForceUntil", r.acknowledge_by AS "acknowledgeBy",
  r.asks, r.retires, r.questions, (SELECT body FROM kept_text k WHERE k.id = r.grace_text_id) AS "graceReason", r.version, r.recorded_at AS "recordedAt", (SELECT count(*)::int FROM revision_step s WHERE s.revision_id = r.id) AS "stepCount"
  FROM procedure_revision r JOIN person a ON a.id = r.author_id LEFT JOIN person b ON b.id = r.approver_id LEFT JOIN in_force_period f ON f.revision_id = r.id`;

/** Every revision of the book, newest first within a procedure. */
export const listRevisions = (reader: Reader): Promise<RevisionRow[]> =>
  reader.rows<RevisionRow>(`${REVISION} ORDER BY r.procedure_id, r.number DESC`);

/** The revisions of one procedure, newest first. */
export const revisionsOf = (reader: Reader, procedureId: string): Promise<RevisionRow[]> =>
  reader.rows<RevisionRow>(`${REVISION} WHERE r.procedure_id = $1::uuid ORDER BY r.number DESC`, [procedureId]);

export const findRevision = async (reader: Reader, id: string): Promise<RevisionRow | null> =>
  (await reader.rows<RevisionRow>(`${REVISION} WHERE r.id = $1::uuid`, [id]))[0] ?? null;

/** Steps of a revision in their order; empty for a revision that is not there. */
export const stepsOf = async (reader: Reader, revisionId: string): Promise<Step[]> =>
  (await reader.rows<{ body: Step }>('SELECT body FROM revision_step WHERE revision_id = $1::uuid ORDER BY position', [revisionId])).map(
    ({ body }) => body,
  );

/** What is on file about step keys: where they belong, where they came from, and their step in the newest approved revision. */
export const knownKeys = (reader: Reader, keys: readonly string[]): Promise<KnownKey[]> =>
  reader.rows<KnownKey>(
    `SELECT k.key, k.procedure_id::text AS "procedureId", k.derived_from AS "derivedFrom",
       (SELECT s.body FROM revision_step s JOIN procedure_revision r ON r.id = s.revision_id AND r.state = 'approved' WHERE s.step_key = k.key ORDER BY r.number DESC LIMIT 1) AS last
     FROM step_key k WHERE k.key = ANY($1::text[])`,
    [keys],
  );

/** Titles of all steps of the book by key, newest wording last on a par; for sentences that name a step of another procedure. */
export const stepTitles = async (reader: Reader): Promise<Record<string, string>> => {
  const rows = await reader.rows<{ key: string; title: string }>(
    `SELECT s.step_key AS key, s.body->>'title' AS title FROM revision_step s JOIN procedure_revision r ON r.id = s.revision_id WHERE r.state = 'approved' ORDER BY r.number`,
  );
  return Object.fromEntries(rows.map(({ key, title }) => [key, title]));
};

/** Lets only one transaction at a time draft, approve or withdraw within a procedure. Answers whether there is such a procedure. */
export const lockProcedure = async (tx: Tx, id: string): Promise<boolean> =>
  (await tx.rows('SELECT 1 AS one FROM procedure WHERE id = $1::uuid FOR UPDATE', [id])).length === 1;

export type AcknowledgedRow = { personId: string; name: string; email: string; happenedAt: Date | null; where: string | null };

/** Every inspector who is still here, with the acknowledgement of a revision or without; besides, everybody who gave one. */
export const acknowledgementsOf = (reader: Reader, revisionId: string, at: Date): Promise<AcknowledgedRow[]> =>
  reader.rows<AcknowledgedRow>(
    `SELECT w.id::text AS "personId", w.name, w.email, k.happened_at AS "happenedAt", k."where" FROM person w LEFT JOIN acknowledgement k ON k.person_id = w.id AND k.revision_id = $1::uuid
     WHERE k.person_id IS NOT NULL OR ((w.ended_on IS NULL OR w.ended_on > $2::timestamptz::date) AND EXISTS (SELECT FROM person_role g WHERE g.person_id = w.id AND g.role = 'inspector'))
     ORDER BY w.name COLLATE "en-x-icu"`,
    [revisionId, at.toISOString()],
  );

export type ToAcknowledge = { revisionId: string; procedureTitle: string; number: number; inForceFrom: Date; acknowledgeBy: Date };

/** Revisions, in force or to come, that one inspector has not acknowledged. */
export const toAcknowledge = (reader: Reader, personId: string, at: Date): Promise<ToAcknowledge[]> =>
  reader.rows<ToAcknowledge>(
    `SELECT r.id::text AS "revisionId", p.title AS "procedureTitle", r.number, f.from_at AS "inForceFrom", r.acknowledge_by AS "acknowledgeBy"
     FROM in_force_period f JOIN procedure_revision r ON r.id = f.revision_id AND r.asks JOIN procedure p ON p.id = f.procedure_id
     WHERE (f.until_at IS NULL OR f.until_at > $2::timestamptz) AND EXISTS (SELECT FROM person_role g WHERE g.person_id = $1::uuid AND g.role = 'inspector')
       AND NOT EXISTS (SELECT FROM acknowledgement k WHERE k.revision_id = r.id AND k.person_id = $1::uuid) ORDER BY r.acknowledge_by`,
    [personId, at.toISOString()],
  );

/** The answers that one person has given to the questions of a revision, in the order given. */
export const answersOf = (reader: Reader, revisionId: string, personId: string): Promise<Marked[]> =>
  reader.rows<Marked>(
    'SELECT question, option, correct FROM revision_answer WHERE revision_id = $1::uuid AND person_id = $2::uuid ORDER BY recorded_at, id',
    [revisionId, personId],
  );

export type AnsweredRow = { personId: string; wrong: number; rounds: number };

/** How many wrong answers each person has given to the questions of a revision, and in how many rounds. */
export const roundsOf = (reader: Reader, revisionId: string): Promise<AnsweredRow[]> =>
  reader.rows<AnsweredRow>(
    `SELECT person_id::text AS "personId", (count(*) FILTER (WHERE NOT correct))::int AS wrong, count(DISTINCT recorded_at)::int AS rounds FROM revision_answer WHERE revision_id = $1::uuid GROUP BY person_id`,
    [revisionId],
  );
