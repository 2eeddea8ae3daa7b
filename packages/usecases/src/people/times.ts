// Usual hours and days with other hours. Booked visits stay booked; the reply warns of each one that is hit.
import { accept, refuse, type Outcome, type Warning } from '@backsight/domain/shared/outcome';
import {
  daysTouched,
  exceptionFits,
  hitWarnings,
  spansFit,
  visitsOutside,
  visitsOutsideDay,
  type WorkSpan,
} from '@backsight/domain/people/times';
import { shiftDay } from '@backsight/domain/shared/calendar';
import {
  endPatterns,
  findException,
  saveException,
  savePattern,
  visitsOfPerson,
  withdrawExceptionRow,
} from '@backsight/store/people/times';
import { findPerson } from '@backsight/store/people';
import { lockDays } from '@backsight/store/schedule/visits';
import { localDay } from '../firm/steps/localDay.ts';
import type { Act, Work } from '../run.ts';
import { startOfDay } from '../schedule/steps/loadWorld.ts';

const FAR = new Date('9000-01-01T00:00:00Z');

export type HoursInput = { personId: string; fromDay: string; spans: WorkSpan[] };
type WithWarnings = { id: string; warnings: Warning[] };

/** Sets the usual hours from a day on: what counted until then ends, what was to come later is replaced. */
export const setHours: Act<HoursInput, WithWarnings> = { operation: 'people.set-hours', run: hours };

async function hours(work: Work, { personId, fromDay, spans }: HoursInput): Promise<Outcome<WithWarnings>> {
  if (!(await findPerson(work.tx, personId))) return refuse('not-found', { thing: 'person' });
  const fits = spansFit(spans);
  if (!fits.ok) return fits;
  await endPatterns(work.tx, personId, fromDay);
  await savePattern(
    work.tx,
    personId,
    fromDay,
    spans.map((span) => ({ ...span, id: work.newId() })),
  );
  const { zone } = await localDay(work.tx, work.now);
  const booked = await visitsOfPerson(work.tx, personId, work.now, FAR, work.now);
  const hit = visitsOutside(
    spans,
    booked.filter((visit) => daysTouched(visit.startsAt, visit.endsAt, zone)[0]! >= fromDay),
    zone,
  );
  await work.did('person', personId, {
    fromDay,
    weekdays: [...new Set(spans.map(({ weekday }) => String(weekday)))],
    visitsHit: hit.length,
  });
  return accept({ id: personId, warnings: hitWarnings(hit, zone) });
}

export type ExceptionInput = {
  id: string;
  personId: string;
  day: string;
  startMinute: number | null;
  endMinute: number | null;
  note: string;
};

/** Other hours on one day, or none: they count in place of the usual ones. */
export const addException: Act<ExceptionInput, WithWarnings> = { operation: 'people.add-exception', run: exception };

async function exception(work: Work, input: ExceptionInput): Promise<Outcome<WithWarnings>> {
  const { id, personId, day, startMinute, endMinute } = input;
  if (!(await findPerson(work.tx, personId))) return refuse('not-found', { thing: 'person' });
  const fits = exceptionFits(startMinute, endMinute);
  if (!fits.ok) return fits;
  await lockDays(work.tx, { people: [{ id: personId, day }], kit: [] });
  await saveException(work.tx, { ...input, withdrawn: false }, work.now);
  const { zone } = await localDay(work.tx, work.now);
  const booked = await visitsOfPerson(work.tx, personId, startOfDay(day, zone), startOfDay(shiftDay(day, 1), zone), work.now);
  const hit = visitsOutsideDay(startMinute === null || endMinute === null ? null : { start: startMinute, end: endMinute }, booked, zone);
  await work.did('person', personId, { exceptionId: id, day, startMinute, endMinute, visitsHit: hit.length });
  return accept({ id, warnings: hitWarnings(hit, zone) });
}

export const withdrawException: Act<{ id: string }, { id: string }> = { operation: 'people.withdraw-exception', run: usualAgain };

async function usualAgain(work: Work, { id }: { id: string }): Promise<Outcome<{ id: string }>> {
  const found = await findException(work.tx, id);
  if (!found) return refuse('not-found', { thing: 'day with other hours' });
  await lockDays(work.tx, { people: [{ id: found.personId, day: found.day }], kit: [] });
  if (!(await withdrawExceptionRow(work.tx, id, work.now))) return refuse('work-exception-withdrawn');
  await work.did('person', found.personId, { exceptionId: id, day: found.day });
  return accept({ id });
}
