// Searches of lists that people gave a name.
import { touched, type Reader, type Tx } from '../database.ts';

export type KeptSearchRow = { id: string; list: string; name: string; search: string };

/** Those of one person, by list and name. */
export const listKeptSearches = (reader: Reader, personId: string): Promise<KeptSearchRow[]> =>
  reader.rows<KeptSearchRow>(
    'SELECT id::text AS id, list, name, search FROM kept_search WHERE person_id = $1::uuid ORDER BY list, name COLLATE "en-x-icu"',
    [personId],
  );

/** Constraint: kept_search_person_id_list_name_key. */
export async function addKeptSearch(tx: Tx, row: KeptSearchRow & { personId: string; recordedAt: Date }): Promise<void> {
  await tx.db.keptSearch.create({ data: row });
}

/** Whether that person keeps a search of this id, which now has this name. */
export const renameKeptSearch = async (tx: Tx, { id, personId, name }: { id: string; personId: string; name: string }): Promise<boolean> =>
  (await touched(tx, 'UPDATE kept_search SET name = $3 WHERE id = $1::uuid AND person_id = $2::uuid', id, personId, name)) > 0;

/** Whether that person kept a search of this id. */
export const deleteKeptSearch = async (tx: Tx, id: string, personId: string): Promise<boolean> =>
  (await touched(tx, 'DELETE FROM kept_search WHERE id = $1::uuid AND person_id = $2::uuid', id, personId)) > 0;
