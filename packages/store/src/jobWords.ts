// Which jobs hold some words in number, address, town or the names of their people. Rare words are looked up in the indexes of the words;
// words that thousands of jobs hold are looked for in the newest jobs, one after the other, until a page of them is full.
import type { Reader } from './database.ts';
import { anywhere, NUMBER, PARTY, PLACE } from './find.ts';

/** From so many jobs of houses and people on the words are common: the newest jobs that hold them are near. */
const COMMON = 5000;

/** Whether so many jobs hold the text that looking at the newest ones finds a page of them sooner. Materialized, so that the indexes are used. */
export async function isCommon(reader: Reader, text: string): Promise<boolean> {
  const [row] = await reader.rows<{ places: number; parties: number }>(
    `WITH places AS MATERIALIZED (SELECT n.id FROM property n WHERE ${PLACE('n')} LIKE $1), parties AS MATERIALIZED (SELECT n.id FROM party n WHERE ${PARTY('n')} LIKE $1)
     SELECT (SELECT count(*)::int FROM (SELECT FROM places n JOIN job j ON j.property_id = n.id LIMIT ${COMMON}) x) AS places,
       (SELECT count(*)::int FROM (SELECT FROM parties n JOIN job_party x ON x.party_id = n.id LIMIT ${COMMON}) x) AS parties`,
    [anywhere(text)],
  );
  return row!.places >= COMMON || row!.parties >= COMMON;
}

/** Condition on a job `j`; `text` names the parameter as it was typed, `pattern` that of `anywhere`. */
export const holdsWords = (common: boolean, text: string, pattern: string): string =>
  common
    ? `(j.number = ${NUMBER(text)} OR (SELECT ${PLACE('n')} LIKE ${pattern} FROM property n WHERE n.id = j.property_id)
       OR (SELECT bool_or(lower(n.name) LIKE ${pattern}) FROM job_party x JOIN party n ON n.id = x.party_id WHERE x.job_id = j.id))`
    : `j.id IN (SELECT id FROM job WHERE number = ${NUMBER(text)} UNION SELECT x.id FROM property n JOIN job x ON x.property_id = n.id WHERE ${PLACE('n')} LIKE ${pattern}
       UNION SELECT x.job_id FROM party n JOIN job_party x ON x.party_id = n.id WHERE ${PARTY('n')} LIKE ${pattern} AND lower(n.name) LIKE ${pattern})`;
