// Who has what opens a house and the numbers of its people, and when.
import { DateTime } from 'luxon';
import { accept, refuse, type Outcome } from '../shared/outcome.ts';

/** `zone`: that of the office. */
export type VisitTimes = { startsAt: Date; endsAt: Date; zone: string };
export type WayInFacts = VisitTimes & { onVisit: boolean; visitState: string };

/**
 * Whether `now` is around a visit: from midnight at which the day before its first day begins until midnight at which the day after its last
 * day ends, by the calendar of the office. A day on which clocks change has 23 or 25 hours, and counts as one day.
 */
export function aroundVisit({ startsAt, endsAt, zone }: VisitTimes, now: Date): boolean {
  const from = DateTime.fromJSDate(startsAt, { zone }).startOf('day').minus({ days: 1 });
  const until = DateTime.fromJSDate(endsAt, { zone }).startOf('day').plus({ days: 2 });
  return now.getTime() >= from.toMillis() && now.getTime() < until.toMillis();
}

/** Only those who go there, around the visit, until it is over. */
export function maySeeCodes(facts: WayInFacts, now: Date): Outcome<null> {
  if (!facts.onVisit) return refuse('not-on-this-visit');
  return ['booked', 'on_site'].includes(facts.visitState) && aroundVisit(facts, now) ? accept(null) : refuse('codes-not-now');
}

/** How the people of a house are reached: those who go there, around the visit, also after it is over: something may have been left there. */
export const mayCall = ({ onVisit, visitState, ...times }: WayInFacts, now: Date): boolean =>
  onVisit && ['booked', 'on_site', 'done', 'ended'].includes(visitState) && aroundVisit(times, now);
