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

export type ListFilter = {
  which: 'open' | 'closed' | 'all';
  kind: Kind | null;
  seeOwnerOnly: boolean;
  before: number | null;
  limit: number;
};

const LINE = `SELECT c.id::text AS id, c.number, c.job_id::text AS "jobId", j.number AS "jobNumber", a.address, a.town, c.speaker, c.kind, c.state, c.safety, c.system, c.place, c.received_at AS "receivedAt",
  c.deadline_on::text AS "deadlineOn", c.owner_only AS "ownerOnly", n.clock, n.due_at AS "dueAt", w.name AS party
  FROM callback c JOIN job j ON j.id = c.job_id JOIN property a ON a.id = j.property_id LEFT JOIN party w ON w.id = c.party_id
  LEFT JOIN LATERAL (${NEXT_CLOCK}) n ON true`;

/** One page by number, newest first. Open ones are few: they come whole (up to the limit) and are put in order by the reader. */
export const listCallbacks = (reader: Reader, f: ListFilter): Promise<CallbackLine[]> =>
  reader.rows<CallbackLine>(
    `${LINE} WHERE ($1 = 'all' OR (c.state = 'closed') = ($1 = 'closed')) AND ($2::text IS NULL OR c.kind = $2) AND ($3::boolean OR NOT c.owner_only) AND ($4::int IS NULL OR c.number < $4::int)
     ORDER BY c.number DESC LIMIT $5::int`,
    [f.which, f.kind, f.seeOwnerOnly, f.before, f.limit],
  );
