// Lists of callbacks for the desk.
import type { Clock } from '@backsight/domain/callbacks/clocks';
import type { Kind, Speaker, State } from '@backsight/domain/callbacks/words';
import type { Reader } from '../database.ts';
import { NEXT_CLOCK } from './clocks.ts';

export type CallbackLine = {
  id: string;
  number: number;
  jobId: string;
  jobNumber: number;
  address: string;
  town: string;
  speaker: Speaker;
  kind: Kind;
  state: State;
  safety: boolean;
  system: string;
  place: string;
  receivedAt: Date;
  deadlineOn: string | null;
  ownerOnly: boolean;
  /** The clock that is due next; null when none runs. */
  clock: Exclude<Clock, 'insurer'> | null;
  dueAt: Date | null;
  party: string | null;
};

const LINE = `SELECT c.id::text AS id, c.number, c.job_id::text AS "jobId", j.number AS "jobNumber", a.address, a.town, c.speaker, c.kind, c.state, c.safety, c.system, c.place, c.received_at AS "receivedAt",
  c.deadline_on::text AS "deadlineOn", c.owner_only AS "ownerOnly", n.clock, n.due_at AS "dueAt", w.name AS party
  FROM callback c JOIN job j ON j.id = c.job_id JOIN property a ON a.id = j.property_id LEFT JOIN party w ON w.id = c.party_id
  LEFT JOIN LATERAL (${NEXT_CLOCK}) n ON true`;

/** The callbacks with these numbers, newest first. */
export const listCallbacks = (reader: Reader, numbers: readonly number[]): Promise<CallbackLine[]> =>
  reader.rows<CallbackLine>(`${LINE} WHERE c.number = ANY ($1::int[]) ORDER BY c.number DESC`, [numbers]);
