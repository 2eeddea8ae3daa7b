// Letters about a callback as they were written: those that went out by mail, and those for paper.
import type { Reader } from '../database.ts';

export type LetterRow = {
  id: string;
  letter: string;
  way: 'mail' | 'paper';
  to: string;
  subject: string;
  /** null once the words were erased. */
  body: string | null;
  at: Date;
  by: string | null;
  /** How far its mail got; null for paper. */
  mailState: string | null;
  mailError: string | null;
};

const BY_ITSELF = `m.about_kind = 'callback' AND m.about_id = $1::uuid AND m.kind IN ('callback_acknowledgement', 'question_acknowledgement', 'decision')`;

/** The newest first; mails that the service sends by itself are among them. */
export const lettersOf = (reader: Reader, callbackId: string): Promise<LetterRow[]> =>
  reader.rows<LetterRow>(
    `SELECT e.id::text AS id, e.details->>'letter' AS letter, coalesce(e.details->>'way', 'paper') AS way, e.details->>'to' AS to, e.details->>'subject' AS subject, t.body, e.recorded_at AS at,
       p.name AS by, m.state AS "mailState", m.last_error AS "mailError"
       FROM callback_event e LEFT JOIN kept_text t ON t.id = e.text_id LEFT JOIN person p ON p.id = e.actor_id LEFT JOIN outgoing_mail m ON m.message_key = e.details->>'key'
      WHERE e.callback_id = $1::uuid AND e.kind = 'letter'
     UNION ALL SELECT m.id::text, CASE m.kind WHEN 'decision' THEN 'decision' ELSE 'acknowledgement' END, 'mail', m.to_name, m.subject, m.body, m.recorded_at, NULL, m.state, m.last_error
       FROM outgoing_mail m WHERE ${BY_ITSELF} AND NOT EXISTS (SELECT FROM callback_event e WHERE e.callback_id = $1::uuid AND e.kind = 'letter' AND e.details->>'key' = m.message_key)
     ORDER BY at DESC, id DESC`,
    [callbackId],
  );

export type VisitToTell = { id: string; version: number; startsAt: Date; endsAt: Date; pair: string[] };

/** The next visit that a remedy of the callback brought and that is still to come; null when none is booked. */
export const visitToTell = async (reader: Reader, callbackId: string): Promise<VisitToTell | null> =>
  (
    await reader.rows<VisitToTell>(
      `SELECT v.id::text AS id, v.version, v.starts_at AS "startsAt", v.ends_at AS "endsAt", ARRAY(SELECT p.name FROM assignment a JOIN person p ON p.id = a.person_id WHERE a.visit_id = v.id ORDER BY a.place) AS pair
         FROM remedy_visit x JOIN remedy r ON r.id = x.remedy_id JOIN visit v ON v.job_id = x.job_id AND v.state = 'booked' WHERE r.callback_id = $1::uuid ORDER BY v.starts_at LIMIT 1`,
      [callbackId],
    )
  )[0] ?? null;

/** The instant of the newest letter that told a decision; null when none did. */
export const decisionToldAt = async (reader: Reader, callbackId: string): Promise<Date | null> =>
  (await lettersOf(reader, callbackId)).find(({ letter }) => letter === 'decision')?.at ?? null;
