// Names of people by their ids.
import type { Reader } from '../database.ts';

/** Name of each person that exists among the ids. */
export async function findPeopleNames(reader: Reader, ids: readonly string[]): Promise<Map<string, string>> {
  const rows = await reader.rows<{ id: string; name: string }>('SELECT id::text AS id, name FROM person WHERE id = ANY($1::uuid[])', [ids]);
  return new Map(rows.map(({ id, name }) => [id, name]));
}
