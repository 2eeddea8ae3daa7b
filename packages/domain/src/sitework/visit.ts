// Starting and ending a visit: who may, and what becomes of visit and job.
import type { JobState } from '../jobs/words.ts';
import { accept, refuse, type Outcome } from '../shared/outcome.ts';

export type StartFacts = {
  visitState: string;
  recordOpen: boolean;
  /** Missing codes of the gate and their sentences; empty when it is open. */
  gate: { missing: readonly string[]; sentences: readonly string[] };
  /** What a person who may has let pass, with a reason on file. */
  overridden: readonly string[];
  /** Revisions that members of the pair have not acknowledged and do not acknowledge now. */
  unacknowledged: readonly { person: string; title: string }[];
};

/** A visit that is booked starts once; a closed gate stops it unless what misses was let pass. */
export function mayStart(facts: StartFacts): Outcome<{ despiteGate: boolean }> {
  if (facts.recordOpen || facts.visitState === 'on_site') return refuse('record-already-open');
  if (facts.visitState !== 'booked') return refuse('visit-not-booked', { state: facts.visitState });
  const first = facts.unacknowledged[0];
  if (first && !facts.overridden.includes('acknowledgement'))
    return refuse('acknowledgement-first', { person: first.person, title: first.title });
  const missing = facts.gate.missing.filter((code) => code !== 'acknowledgement');
  const shut = missing.filter((code) => !facts.overridden.includes(code));
  if (shut.length > 0) return refuse('gate-closed', { missing: shut, why: facts.gate.sentences.join(' ') });
  return accept({ despiteGate: missing.length > 0 });
}

/** The state of a job when one of its visits starts; a later pick-up does not take a job back. */
export const jobStarted = (state: JobState): JobState => (state === 'booked' ? 'on_site' : state);
/** The state of a job when one of its visits has ended. */
export const jobVisited = (state: JobState): JobState => (state === 'on_site' || state === 'booked' ? 'visited' : state);

/** The state of a job when a visit ended early: visited where a report is owed, else ended until somebody decides or books again. */
export const jobEnded =
  (reportOwed: 'yes' | 'no' | 'later') =>
  (state: JobState): JobState =>
    state === 'booked' || state === 'on_site' ? (reportOwed === 'yes' ? 'visited' : 'ended') : state;

/** The whole book is for inspections; other visits take the steps at the door and those of the systems that are looked at again. */
export const systemsOf = (visitKind: string, chosen: readonly string[]): readonly string[] | null =>
  visitKind === 'inspection' ? null : ['arrival', 'leaving', ...chosen];
