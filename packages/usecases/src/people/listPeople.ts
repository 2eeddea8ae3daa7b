// Reads about people: everybody of the firm knows how the others are reached; where they live is for the desk.
import { seesEveryJob } from '@backsight/domain/people/roles';
import { accept, refuse } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import { findPerson, listPeople, type PersonRow } from '@backsight/store/people';
import type { Actor } from '../run.ts';

export { findPerson };

type Shown = Omit<PersonRow, 'homeLat' | 'homeLon'> & { homeLat: number | null; homeLon: number | null };

const shownTo =
  (actor: Actor) =>
  (person: PersonRow): Shown =>
    actor.kind === 'person' && (actor.id === person.id || seesEveryJob(actor.roles))
      ? person
      : { ...person, homeAddress: '', homeLat: null, homeLon: null };

export const readPeople = async (reader: Reader, actor: Actor): Promise<Shown[]> => (await listPeople(reader)).map(shownTo(actor));

/** Refusal: not-found. */
export async function readPerson(reader: Reader, { id, actor }: { id: string; actor: Actor }) {
  const person = await findPerson(reader, id);
  return person ? accept(shownTo(actor)(person)) : refuse('not-found', { thing: 'person' });
}
