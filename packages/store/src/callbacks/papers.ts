// Legal papers that were not answered yet.
import type { Kind } from '@backsight/domain/callbacks/words';
import type { Reader } from '../database.ts';

export type OpenPaper = { id: string; number: number; kind: Kind; deadlineOn: string };

export const papersOpen = (reader: Reader): Promise<OpenPaper[]> =>
  reader.rows<OpenPaper>(
    `SELECT c.id::text AS id, c.number, c.kind, c.deadline_on::text AS "deadlineOn" FROM callback c WHERE c.deadline_on IS NOT NULL AND c.state <> 'closed'
       AND NOT EXISTS (SELECT FROM callback_event e WHERE e.callback_id = c.id AND e.kind = 'paper_answered'
         AND NOT EXISTS (SELECT FROM callback_event n WHERE n.callback_id = c.id AND n.kind = 'paper_set' AND n.seq > e.seq)) ORDER BY c.deadline_on, c.number`,
  );
