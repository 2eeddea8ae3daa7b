// Steps by their line of descent.
import type { Reader } from './database.ts';

/** Every step key with the first ancestor of its line: a step and those derived from it are counted together. */
export const LINEAGE = `WITH RECURSIVE line AS (SELECT key, key AS root FROM step_key WHERE derived_from IS NULL
    UNION ALL SELECT k.key, l.root FROM step_key k JOIN line l ON l.key = k.derived_from)`;

/** Every key of the line of descent of a step. */
export const keysOfLine = async (reader: Reader, root: string): Promise<string[]> =>
  (await reader.rows<{ key: string }>(`${LINEAGE} SELECT key FROM line WHERE root = $1`, [root])).map(({ key }) => key);
