// Takes out again what a spreadsheet brought, and what has come to depend on it by then.
import { execute, type Reader, type Tx } from '../database.ts';

/** `record`: what was brought, as people call it; `because`: the table that points at it, or `changed`. */
export type Depending = { record: string; because: string; times: number };

/** What is brought, by table: how it is called, and what was written together with it. */
const BROUGHT = {
  person: { name: 'r.name', with: ['person_role'] },
  party: { name: 'r.name', with: [] },
  property: { name: 'r.address', with: ['fact_sheet'] },
  job: { name: `'job ' || r.number`, with: ['past_job', 'job_party', 'job_service', 'job_fee_line', 'visit'] },
} as const;
type Brought = keyof typeof BROUGHT;

const POINTING = `SELECT c.conrelid::regclass::text AS table, a.attname AS column, c.confrelid::regclass::text AS to FROM pg_constraint c
  JOIN pg_attribute a ON a.attrelid = c.conrelid AND a.attnum = c.conkey[1] WHERE c.contype = 'f' AND c.connamespace = 'public'::regnamespace
    AND c.confrelid::regclass::text IN ('person', 'party', 'property', 'job', 'visit') ORDER BY 1, 2`;
type Pointing = { table: string; column: string; to: Brought | 'visit' };

const MOST = 200;

/** Everything that points at what the spreadsheet brought and did not come with it, or was changed since; at most 200 lines. */
export async function dependsOn(reader: Reader, id: string): Promise<Depending[]> {
  const pointing = await reader.rows<Pointing>(POINTING);
  const found: Depending[] = [];
  for (const one of pointing) {
    const sql = pointsAt(one);
    if (sql !== null && found.length < MOST)
      found.push(
        ...(await reader.rows<Depending>(`${sql} GROUP BY 1 ORDER BY 1 LIMIT ${MOST}`, [id])).map((row) => ({
          ...row,
          because: one.table,
        })),
      );
  }
  for (const table of ['person', 'property', 'job'] as const)
    found.push(
      ...(await reader.rows<Depending>(
        `SELECT ${BROUGHT[table].name} AS record, 'changed' AS because, 1 AS times FROM ${table} r WHERE r.bring_in_id = $1::uuid AND r.version > 1 LIMIT ${MOST}`,
        [id],
      )),
    );
  return found.slice(0, MOST);
}

/** Rows of one table that point at what was brought; null where they came with it. */
function pointsAt({ table, column, to }: Pointing): string | null {
  const times = 'count(*)::int AS times';
  if (to === 'visit')
    return table === 'assignment'
      ? null
      : `SELECT 'job ' || j.number AS record, ${times} FROM ${table} x JOIN visit v ON v.id = x.${column} JOIN job j ON j.id = v.job_id WHERE j.bring_in_id = $1::uuid`;
  const { name, with: own } = BROUGHT[to];
  if ((own as readonly string[]).includes(table)) return null;
  const from = `SELECT ${name} AS record, ${times} FROM ${to} r JOIN ${table} x ON x.${column} = r.id`;
  if (table === 'job_party')
    return `${from} JOIN job j ON j.id = x.job_id WHERE r.bring_in_id = $1::uuid AND j.bring_in_id IS DISTINCT FROM r.bring_in_id`;
  const others = table === 'job' ? 'AND x.bring_in_id IS DISTINCT FROM r.bring_in_id' : '';
  return `${from} WHERE r.bring_in_id = $1::uuid ${others}`;
}

const OF_JOBS = `job_id IN (SELECT id FROM job WHERE bring_in_id = $1::uuid)`;
const STEPS = [
  `DELETE FROM assignment WHERE visit_id IN (SELECT id FROM visit WHERE ${OF_JOBS})`,
  ...['visit', 'job_fee_line', 'job_service', 'job_party', 'past_job'].map((table) => `DELETE FROM ${table} WHERE ${OF_JOBS}`),
  'DELETE FROM job WHERE bring_in_id = $1::uuid',
  'DELETE FROM property WHERE bring_in_id = $1::uuid',
  'DELETE FROM party WHERE bring_in_id = $1::uuid',
  'DELETE FROM person_role WHERE person_id IN (SELECT id FROM person WHERE bring_in_id = $1::uuid)',
  'DELETE FROM person WHERE bring_in_id = $1::uuid',
];

/**
 * Removes everything that the spreadsheet brought, which must be in the state `undoing`; `told` hears how many steps of how many are done.
 * Constraints: those of whatever points at it.
 */
export async function takeOut(tx: Tx, id: string, told: (done: number, steps: number) => Promise<void>): Promise<void> {
  await execute(tx, 'SELECT take_out_facts($1::uuid)', id);
  for (const [at, sql] of STEPS.entries()) {
    await told(at, STEPS.length);
    await execute(tx, sql, id);
  }
}

export type BroughtRecord = { id: string; name: string; about: string; jobId: string | null };
const LISTED: Record<'people' | 'clients' | 'properties' | 'jobs', string> = {
  people: `SELECT r.id::text AS id, r.name, r.email AS about, NULL AS "jobId" FROM person r`,
  clients: `SELECT r.id::text AS id, r.name, concat_ws(', ', r.email, r.phone) AS about, NULL AS "jobId" FROM party r`,
  properties: `SELECT r.id::text AS id, r.address AS name, concat_ws(' ', r.town, r.zip) AS about, NULL AS "jobId" FROM property r`,
  jobs: `SELECT r.id::text AS id, 'Job ' || r.number AS name, concat_ws(', ', p.address, p.town) AS about, r.id::text AS "jobId" FROM job r JOIN property p ON p.id = r.property_id`,
};

/** What a spreadsheet brought, in the order in which it was written, after the id `after`. */
export const listBrought = (
  reader: Reader,
  q: { id: string; kind: keyof typeof LISTED; after: string | null; limit: number },
): Promise<BroughtRecord[]> =>
  reader.rows(`${LISTED[q.kind]} WHERE r.bring_in_id = $1::uuid AND ($2::uuid IS NULL OR r.id > $2::uuid) ORDER BY r.id LIMIT $3::int`, [
    q.id,
    q.after,
    q.limit,
  ]);
