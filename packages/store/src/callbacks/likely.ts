// What the likely steps of a callback are worked out from: words of steps, earlier callbacks, what was recorded.
import type { Applicability } from '@backsight/domain/shared/applicability';
import type { Reader } from '../database.ts';

/** A step of a revision, and the place of its text. */
export type StepText = { stepKey: string; revisionId: string };
/** That an asked word stands in a step: `place` A title, B instruction, C why or answers, D name of the procedure; `near` 1, or how alike the spelling is. */
export type WordHit = { stepKey: string; n: number; place: 'A' | 'B' | 'C' | 'D'; near: number };

/** Spelling that is less alike than this is another word. */
const ALIKE_ENOUGH = 0.45;

/**
 * Which of the asked words (`n` counts them from 0) stand in which of the steps. Words are compared as stems of the english dictionary,
 * which also leaves out those that say nothing. A word of four letters and more that stands in none of the steps is taken for a misspelled
 * one: those that begin alike and share most three-letter pieces (`similarity`) take its place.
 */
export const wordHits = (reader: Reader, steps: readonly StepText[], words: readonly string[]): Promise<WordHit[]> =>
  reader.rows<WordHit>(
    `WITH asked AS MATERIALIZED (SELECT a.n - 1 AS n, l.lexeme FROM unnest($3::text[]) WITH ORDINALITY a(word, n), unnest(ts_lexize('english_stem', a.word)) l(lexeme)),
       held AS MATERIALIZED (SELECT w.key, u.lexeme, coalesce(u.weights[1], 'D') AS place FROM unnest($1::text[], $2::uuid[]) w(key, revision)
         JOIN revision_step b ON b.step_key = w.key AND b.revision_id = w.revision JOIN procedure_revision r ON r.id = b.revision_id JOIN procedure p ON p.id = r.procedure_id,
         unnest(b.words || to_tsvector('english', p.title || ' ' || translate(p.system, '_', ' '))) u),
       known AS MATERIALIZED (SELECT DISTINCT lexeme FROM held),
       meant AS (SELECT n, lexeme, 1::real AS near FROM asked
         UNION ALL SELECT a.n, k.lexeme, similarity(a.lexeme, k.lexeme) FROM asked a JOIN known k ON left(k.lexeme, 1) = left(a.lexeme, 1) AND abs(length(k.lexeme) - length(a.lexeme)) <= 2
           WHERE length(a.lexeme) >= 4 AND NOT EXISTS (SELECT FROM known x WHERE x.lexeme = a.lexeme) AND similarity(a.lexeme, k.lexeme) >= $4::real)
     SELECT h.key AS "stepKey", m.n::int AS n, min(h.place) AS place, max(m.near) AS near FROM meant m JOIN held h ON h.lexeme = m.lexeme GROUP BY h.key, m.n`,
    [steps.map(({ stepKey }) => stepKey), steps.map(({ revisionId }) => revisionId), words, ALIKE_ENOUGH],
  );

export type TracedRow = { number: number; stepKey: string; words: number[] };

/**
 * Other callbacks whose newest conclusion names a step, newest first, with the asked words that stand in what was said, in its place or in
 * the conclusion. Those that only the owner sees are left out unless `seeOwnerOnly`.
 */
export const tracedBefore = (
  reader: Reader,
  { callbackId, words, seeOwnerOnly, limit }: { callbackId: string; words: readonly string[]; seeOwnerOnly: boolean; limit: number },
): Promise<TracedRow[]> =>
  reader.rows<TracedRow>(
    `WITH asked AS MATERIALIZED (SELECT (a.n - 1)::int AS n, l.lexeme FROM unnest($2::text[]) WITH ORDINALITY a(word, n), unnest(ts_lexize('english_stem', a.word)) l(lexeme)),
       traced AS MATERIALIZED (SELECT c.number, c.place, c.text_id, x.step_key, x.text_id AS why_id FROM callback c
         CROSS JOIN LATERAL (SELECT n.step_key, n.text_id FROM conclusion n WHERE n.callback_id = c.id ORDER BY n.happened_at DESC, n.id DESC LIMIT 1) x
         WHERE x.step_key IS NOT NULL AND c.id <> $1::uuid AND ($3::boolean OR NOT c.owner_only) ORDER BY c.number DESC LIMIT $4::int)
     SELECT c.number, c.step_key AS "stepKey", coalesce((SELECT array_agg(DISTINCT a.n) FROM unnest(to_tsvector('english', concat_ws(' ', c.place, t.body, w.body))) u JOIN asked a ON a.lexeme = u.lexeme), '{}') AS words
     FROM traced c LEFT JOIN kept_text t ON t.id = c.text_id LEFT JOIN kept_text w ON w.id = c.why_id ORDER BY c.number DESC`,
    [callbackId, words, seeOwnerOnly, limit],
  );

export type LaterStepRow = {
  stepKey: string;
  revisionId: string;
  title: string;
  system: string;
  procedureTitle: string;
  applies: Applicability;
};

/** Steps in force at an instant that no revision held which was in force when the first package of the job was issued. */
export const stepsSince = (reader: Reader, jobId: string, at: Date): Promise<LaterStepRow[]> =>
  reader.rows<LaterStepRow>(
    `WITH issued AS MATERIALIZED (SELECT min(k.issued_at) AS at FROM site_package k JOIN site_record d ON d.id = k.record_id JOIN visit v ON v.id = d.visit_id WHERE v.job_id = $1::uuid)
     SELECT s.step_key AS "stepKey", s.revision_id::text AS "revisionId", s.body ->> 'title' AS title, p.system, p.title AS "procedureTitle", s.body -> 'applies' AS applies
     FROM issued i JOIN in_force_period f ON f.from_at > i.at AND f.from_at <= $2::timestamptz AND (f.until_at IS NULL OR f.until_at > $2::timestamptz)
       JOIN revision_step s ON s.revision_id = f.revision_id JOIN procedure p ON p.id = f.procedure_id
     WHERE NOT EXISTS (SELECT FROM in_force_period g JOIN revision_step o ON o.revision_id = g.revision_id WHERE o.step_key = s.step_key AND g.from_at <= i.at AND (g.until_at IS NULL OR g.until_at > i.at))
     ORDER BY p.position, s.position`,
    [jobId, at.toISOString()],
  );

/** Keys of the services that were ordered with the job. */
export const servicesOfJob = async (reader: Reader, jobId: string): Promise<string[]> =>
  (await reader.rows<{ key: string }>('SELECT service_key AS key FROM job_service WHERE job_id = $1::uuid ORDER BY 1', [jobId])).map(
    ({ key }) => key,
  );
