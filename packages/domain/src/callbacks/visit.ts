// Who goes to a callback visit.
import { accept, refuse, type Outcome, type Warning } from '../shared/outcome.ts';

/** The original pair never goes alone: at least one of those who go was not on the job (person ids). */
export function mayGo(pair: readonly string[], originalPair: readonly string[]): Outcome<null> {
  const strangers = pair.filter((person) => !originalPair.includes(person));
  if (strangers.length === 0) return refuse('original-pair-alone', {}, 'pair');
  const warnings: Warning[] = strangers.length === pair.length
    ? [{ code: 'nobody-knows-the-house', text: 'Nobody of this pair was at the inspection: give them the record beforehand.' }]
    : [];
  return accept(null, warnings);
}
