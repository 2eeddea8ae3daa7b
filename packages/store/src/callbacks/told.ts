// Events of a callback whose details say what was done about a legal paper or an injury.
import type { Reader } from '../database.ts';

const TOLD = ['insurer_told', 'same_day_done', 'paper_set', 'paper_answered', 'work_injury', 'work_injury_reported'];
export type ToldRow = { kind: string; details: unknown; words: string | null; actor: string | null; at: Date };

/** In their order. */
export const detailsOf = (reader: Reader, callbackId: string): Promise<ToldRow[]> =>
  reader.rows<ToldRow>(
    `SELECT e.kind, e.details, t.body AS words, p.name AS actor, e.happened_at AS at FROM callback_event e LEFT JOIN kept_text t ON t.id = e.text_id LEFT JOIN person p ON p.id = e.actor_id
     WHERE e.callback_id = $1::uuid AND e.kind = ANY ($2::text[]) ORDER BY e.seq`,
    [callbackId, TOLD],
  );
