// Names of people by their ids.
import type { Reader } from '../database.ts';

/** Names and addresses of people, in the order of their names. */
export const findPeopleAddresses = (reader: Reader, ids: readonly string[]): Promise<{ id: string; name: string; email: string }[]> =>
  reader.rows('SELECT id::text AS id, name, email FROM person WHERE id = ANY($1::uuid[]) ORDER BY name, id', [ids]);

/** Name of each person that exists among the ids. */
export async function findPeopleNames(reader: Reader, ids: readonly string[]): Promise<Map<string, string>> {
  const rows = await reader.rows<{ id: string; name: string }>('SELECT id::text AS id, name FROM person WHERE id = ANY($1::uuid[])', [ids]);
  return new Map(rows.map(({ id, name }) => [id, name]));
}
