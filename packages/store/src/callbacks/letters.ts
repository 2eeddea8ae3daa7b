// Letters about a callback as they were written: those that went out by mail, and those for paper.
import type { Reader } from '../database.ts';

export type LetterKind = 'acknowledgement' | 'decision';
export type LetterRow = {
  letter: LetterKind;
  way: 'mail' | 'paper';
  to: string;
  subject: string;
  /** null once the words were erased. */
  body: string | null;
  at: Date;
};

/** The newest first. */
export const lettersOf = (reader: Reader, callbackId: string): Promise<LetterRow[]> =>
  reader.rows<LetterRow>(
    `SELECT CASE m.kind WHEN 'decision' THEN 'decision' ELSE 'acknowledgement' END AS letter, 'mail' AS way, m.to_name AS to, m.subject, m.body, m.recorded_at AS at
       FROM outgoing_mail m WHERE m.about_kind = 'callback' AND m.about_id = $1::uuid AND m.kind IN ('callback_acknowledgement', 'question_acknowledgement', 'decision')
     UNION ALL SELECT e.details->>'letter', 'paper', e.details->>'to', e.details->>'subject', t.body, e.recorded_at
       FROM callback_event e LEFT JOIN kept_text t ON t.id = e.text_id WHERE e.callback_id = $1::uuid AND e.kind = 'letter'
     ORDER BY at DESC`,
    [callbackId],
  );
