// The current row of a callback, told again from its events alone.
import type { Kind, State } from './words.ts';

export type StoredEvent = { seq: number; kind: string; state: string; details: unknown; words: string | null };

/** The columns of a callback that events tell. Instants are ISO, days ISO days. */
export type CallbackFacts = {
  number: number;
  jobId: string;
  partyId: string | null;
  speaker: string;
  kind: Kind;
  state: State;
  safety: boolean;
  system: string;
  place: string;
  remedySought: string;
  receivedAt: string;
  discoveredOn: string | null;
  servedOn: string | null;
  serviceWay: string | null;
  deadlineOn: string | null;
  binding: boolean;
  policyId: string | null;
  textId: string;
  ownerOnly: boolean;
  version: number;
  duplicateOfId: string | null;
  repeatOfId: string | null;
};

/** Events whose details are the columns that they changed. */
const CHANGES_COLUMNS = [
  'became_callback',
  'policy_named',
  'linked',
  'unlinked',
  'danger_added',
  'safety_marked',
  'safety_lifted',
  'paper_set',
  'job_changed',
];

/** What stands in the words of the first event: it is personal, so it can be erased with them. */
export type IntakeWords = { place: string; remedySought: string };

/** Folds the events, in order of `seq`. @throws Error when the first is not the intake */
export function rebuildCallback(events: readonly StoredEvent[]): CallbackFacts {
  const [first, ...later] = [...events].sort((a, b) => a.seq - b.seq);
  if (!first || first.kind !== 'received') throw new Error('A callback begins with its intake.');
  const words = JSON.parse(first.words ?? '{"place":"","remedySought":""}') as IntakeWords;
  let row: CallbackFacts = { ...(first.details as CallbackFacts), ...words, state: first.state as State, version: 1 };
  for (const event of later) {
    // A move to another job names the one before too, which is no column.
    const { fromJobId: _, ...changes } = (CHANGES_COLUMNS.includes(event.kind) ? event.details : {}) as Partial<CallbackFacts> & {
      fromJobId?: string;
    };
    row = { ...row, ...changes, state: event.state as State, version: row.version + 1 };
  }
  return row;
}
