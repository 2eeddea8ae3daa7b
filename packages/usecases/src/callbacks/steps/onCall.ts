// Whom to alert of a danger at an instant.
import { chainAt, type OnCallFacts } from '@backsight/domain/callbacks/onCall';
import { awayAt, listDuties } from '@backsight/store/callbacks/danger';
import type { Reader } from '@backsight/store/database';
import { listPeople, type PersonRow } from '@backsight/store/people';
import { dayAt } from './day.ts';
import { shiftDay } from '@backsight/domain/shared/calendar';
import { localDay } from '../../firm/steps/localDay.ts';

/** Everybody who is still here, their duties and who is away. */
export async function onCallFacts(reader: Reader, now: Date): Promise<Omit<OnCallFacts, 'people'> & { people: PersonRow[] }> {
  const { zone } = await localDay(reader, now);
  const people = (await listPeople(reader)).filter(({ endedOn }) => endedOn === null);
  // A duty that ran into today belongs to yesterday.
  const duties = await listDuties(reader, shiftDay(dayAt(now, zone), -1));
  return { people, duties, absent: await awayAt(reader, now), zone };
}

/** The chain for a callback, in order. */
export async function chainFor(reader: Reader, now: Date, ownerOnly: boolean): Promise<PersonRow[]> {
  const facts = await onCallFacts(reader, now);
  return chainAt(facts, now.toISOString(), ownerOnly).map((id) => facts.people.find((person) => person.id === id)!);
}
