// Usual hours and absences. Booked visits stay booked; the reply warns of each one that is hit.
import { accept, refuse, type Outcome, type Warning } from '@backsight/domain/shared/outcome';
import { absenceFits, daysTouched, hitWarnings, spansFit, visitsOutside, type WorkSpan } from '@backsight/domain/people/times';
import { endPatterns, findAbsence, saveAbsence, savePattern, visitsOfPerson, withdrawAbsenceRow } from '@backsight/store/people/times';
import { findPerson } from '@backsight/store/people';
import { lockDays } from '@backsight/store/schedule/visits';
import { localDay } from '../firm/steps/localDay.ts';
import type { Act, Actor, Work } from '../run.ts';

/** The owner, the leads and the office enter absences of everybody; everybody enters his own. */
const mayEnterFor = (actor: Actor, personId: string): boolean =>
  actor.kind === 'person' && (actor.id === personId || actor.roles.some((role) => role !== 'inspector'));

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

export type AbsenceInput = { id: string; personId: string; startsAt: string; endsAt: string; reason: string };

export const addAbsence: Act<AbsenceInput, WithWarnings> = { operation: 'people.add-absence', run: absence };

async function absence(work: Work, input: AbsenceInput): Promise<Outcome<WithWarnings>> {
  const { id, personId, reason } = input;
  if (!mayEnterFor(work.actor, personId)) return refuse('not-allowed');
  if (!(await findPerson(work.tx, personId))) return refuse('not-found', { thing: 'person' });
  const [startsAt, endsAt] = [new Date(input.startsAt), new Date(input.endsAt)];
  const fits = absenceFits(startsAt, endsAt);
  if (!fits.ok) return fits;
  const { zone } = await localDay(work.tx, work.now);
  await lockDays(work.tx, { people: daysTouched(startsAt, endsAt, zone).map((day) => ({ id: personId, day })), kit: [] });
  await saveAbsence(work.tx, { id, personId, startsAt, endsAt, reason, recordedAt: work.now });
  const hit = await visitsOfPerson(work.tx, personId, startsAt, endsAt, work.now);
  await work.did('person', personId, {
    absenceId: id,
    startsAt: startsAt.toISOString(),
    endsAt: endsAt.toISOString(),
    visitsHit: hit.map(({ visitId }) => visitId),
  });
  return accept({ id, warnings: hitWarnings(hit, zone) });
}

export const withdrawAbsence: Act<{ id: string }, { id: string }> = { operation: 'people.withdraw-absence', run: withdraw };

async function withdraw(work: Work, { id }: { id: string }): Promise<Outcome<{ id: string }>> {
  const found = await findAbsence(work.tx, id);
  if (!found) return refuse('not-found', { thing: 'absence' });
  if (!mayEnterFor(work.actor, found.personId)) return refuse('not-allowed');
  const { zone } = await localDay(work.tx, work.now);
  await lockDays(work.tx, { people: daysTouched(found.startsAt, found.endsAt, zone).map((day) => ({ id: found.personId, day })), kit: [] });
  if (!(await withdrawAbsenceRow(work.tx, id, work.now))) return refuse('absence-withdrawn');
  await work.did('person', found.personId, { absenceId: id });
  return accept({ id });
}
