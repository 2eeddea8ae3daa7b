// What is held against what when somebody wants proof; each answers how much there is and what does not fit.
import type { Reader } from '../database.ts';

const ids = async (reader: Reader, sql: string): Promise<string[]> => (await reader.rows<{ id: string }>(sql)).map(({ id }) => id);
const many = async (reader: Reader, table: string): Promise<number> =>
  (await reader.rows<{ n: number }>(`SELECT count(*)::int AS n FROM ${table}`))[0]!.n;

export const unbalancedEntries = async (reader: Reader): Promise<{ entries: number; unbalanced: string[] }> => ({
  entries: await many(reader, 'ledger_entry'),
  unbalanced: await ids(
    reader,
    'SELECT e.id::text AS id FROM ledger_entry e LEFT JOIN ledger_line l ON l.entry_id = e.id GROUP BY e.id HAVING coalesce(sum(l.cents), 1) <> 0 ORDER BY 1',
  ),
});

/** As `textDigest` makes them; words that were erased have none any more. */
export const changedTexts = async (reader: Reader): Promise<{ texts: number; changed: string[] }> => ({
  texts: await many(reader, 'kept_text'),
  changed: await ids(
    reader,
    `SELECT id::text AS id FROM kept_text WHERE body IS NOT NULL AND encode(sha256(salt || convert_to(body, 'UTF8')), 'hex') <> digest ORDER BY 1`,
  ),
});

/** Of a job that was disposed of the seal stays, and what it was taken over is gone. */
export const sealedRecords = (reader: Reader): Promise<string[]> =>
  ids(
    reader,
    `SELECT r.id::text AS id FROM site_record r JOIN visit v ON v.id = r.visit_id WHERE r.state = 'sealed' AND NOT EXISTS (SELECT FROM disposal d WHERE d.kind = 'job' AND d.thing_id = v.job_id)
     ORDER BY r.opened_at, r.id`,
  );

export const fileFingerprints = (reader: Reader): Promise<string[]> =>
  ids(reader, 'SELECT sha256 AS id FROM stored_file WHERE erased_at IS NULL ORDER BY 1');

export const tableNames = (reader: Reader): Promise<string[]> =>
  ids(reader, `SELECT tablename::text AS id FROM pg_tables WHERE schemaname = 'public' AND tablename <> '_prisma_migrations' ORDER BY 1`);

/** Triggers that were put to sleep, indexes that are not whole, rules that were never held against the rows. */
export async function guardsAsleep(reader: Reader): Promise<{ guards: number; asleep: string[] }> {
  const rows = await reader.rows<{ name: string; awake: boolean }>(
    `SELECT 'trigger ' || tgname || ' of ' || tgrelid::regclass AS name, tgenabled = 'O' AS awake FROM pg_trigger t JOIN pg_class c ON c.oid = t.tgrelid WHERE NOT tgisinternal AND c.relnamespace = 'public'::regnamespace
     UNION ALL SELECT 'index ' || indexrelid::regclass, indisvalid AND indisready FROM pg_index i JOIN pg_class c ON c.oid = i.indexrelid WHERE c.relnamespace = 'public'::regnamespace
     UNION ALL SELECT 'rule ' || conname || ' of ' || conrelid::regclass, convalidated FROM pg_constraint WHERE connamespace = 'public'::regnamespace AND conrelid <> 0`,
  );
  return {
    guards: rows.length,
    asleep: rows
      .filter(({ awake }) => !awake)
      .map(({ name }) => name)
      .sort(),
  };
}
