// Whether a callback visit may be booked, and who goes.
import { accept, refuse, type Outcome, type Warning } from '../shared/outcome.ts';
import { REMEDY_STATES, type RemedyState } from './words.ts';

/** An approved re-visit that is not booked yet; `booked` is the job number of a visit that still stands. */
export function mayBookVisit(remedy: { kind: string; state: RemedyState; booked: number | null }): Outcome<null> {
  if (remedy.kind !== 'revisit') return refuse('remedy-is-no-visit');
  if (remedy.state !== 'approved')
    return remedy.state === 'done' ? refuse('remedy-state', { state: REMEDY_STATES.done }) : refuse('remedy-not-approved');
  return remedy.booked === null ? accept(null) : refuse('visit-booked-already', { number: remedy.booked });
}

/** The original pair never goes alone: at least one of those who go was not on the job (person ids). */
export function mayGo(pair: readonly string[], originalPair: readonly string[]): Outcome<null> {
  const strangers = pair.filter((person) => !originalPair.includes(person));
  if (strangers.length === 0) return refuse('original-pair-alone', {}, 'pair');
  const warnings: Warning[] =
    strangers.length === pair.length
      ? [{ code: 'nobody-knows-the-house', text: 'Nobody of this pair was at the inspection: give them the record beforehand.' }]
      : [];
  return accept(null, warnings);
}
