// Who sees the codes of a house, and when.
import { accept, refuse, type Outcome } from '../shared/outcome.ts';

export type CodesFacts = { onVisit: boolean; visitState: string; startsAt: Date; endsAt: Date };

const HOUR = 3_600_000;
/** Hours before the start from which on, and after the end until which, the people of a visit see the codes. */
const BEFORE = 24;
const AFTER = 4;

/** Only those who go there, from the day before until shortly after, while the visit is booked or under way. */
export function maySeeCodes(facts: CodesFacts, now: Date): Outcome<null> {
  if (!facts.onVisit) return refuse('not-on-this-visit');
  const around = now.getTime() >= facts.startsAt.getTime() - BEFORE * HOUR && now.getTime() <= facts.endsAt.getTime() + AFTER * HOUR;
  return around && ['booked', 'on_site'].includes(facts.visitState) ? accept(null) : refuse('codes-not-now');
}
