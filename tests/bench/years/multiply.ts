// A firm of many years, made of the demo firm's twelve weeks: every job that is over is copied with all that hangs on it, by weeks
// further back and for further teams of inspectors. Ids move with their time, so that indexes grow as they would have.
import pg from 'pg';

/** How many blocks of twelve weeks lie behind each team. */
export type Years = { blocks: number; teams: number };

const BLOCK_DAYS = 84;
/** Of the steps of each record so many in seven are kept: the demo's records have some 140, a firm's usual book some 80. */
const STEPS_KEPT = 4;
/** Callbacks that are open in the demo are so only in the newest blocks: a firm settles what is older. */
const OPEN_DAYS = 2 * BLOCK_DAYS;
const PEOPLE = ['person', 'person_role', 'person_qualification', 'work_pattern'];
const OVER = `job_id IN (SELECT id FROM base_job)`;
/** Tables whose rows are copied, and which of them. */
const JOBS: Record<string, string> = {
  kept_text: '',
  property: '',
  fact_sheet: '',
  party: '',
  job: 'id IN (SELECT id FROM base_job)',
  job_event: OVER,
  job_party: OVER,
  job_service: OVER,
  job_fee_line: OVER,
  visit: OVER,
  assignment: 'visit_id IN (SELECT id FROM base_visit)',
  visit_ending: '',
  gate_override: '',
  site_record: '',
  site_package: '',
  record_item: '',
  package_step: `abs(hashtext(step_key)) % 7 < ${STEPS_KEPT}`,
  step_entry: `abs(hashtext(step_key)) % 7 < ${STEPS_KEPT} OR value ? 'act'`,
  agreement: '',
  signer: '',
  signature: '',
  report: OVER,
  report_delivery: '',
  invoice: OVER,
  invoice_line: '',
  ledger_entry: '',
  ledger_line: '',
  payment: '',
  callback: '',
  callback_intake: '',
  callback_event: '',
  callback_clock: '',
  callback_assessment: '',
  conclusion: '',
  conclusion_confirmation: '',
  remedy: '',
  remedy_approval: '',
  remedy_payment: '',
  callback_recovery: '',
  clearance: '',
  outgoing_mail: '',
  contact_note: '',
};

const SET_UP = `
  CREATE FUNCTION moved(id uuid, ms bigint, team int) RETURNS uuid LANGUAGE sql IMMUTABLE AS $$
    SELECT (lpad(to_hex(('x' || left(id::text, 8) || substr(id::text, 10, 4))::bit(48)::bigint + ms), 12, '0') || substr(id::text, 15, 4) || substr(id::text, 20, 1)
      || lpad(to_hex(('x' || substr(id::text, 21, 3))::bit(12)::int # team), 3, '0') || right(id::text, 12))::uuid $$;
  CREATE TABLE copies AS SELECT b * $2::int + t AS k, t AS team, -b * ${BLOCK_DAYS} AS days FROM generate_series(0, $1::int - 1) b, generate_series(0, $2::int - 1) t WHERE b > 0 OR t > 0;
  CREATE TABLE base_job AS SELECT id FROM job WHERE state IN ('visited', 'reported', 'ended');
  CREATE TABLE base_visit AS SELECT id FROM visit WHERE ${OVER} AND state IN ('on_site', 'done');
  CREATE TABLE base_open AS SELECT id FROM callback WHERE state <> 'closed';
  INSERT INTO base_open SELECT id FROM conclusion WHERE callback_id IN (SELECT id FROM base_open)
    UNION SELECT id FROM remedy WHERE callback_id IN (SELECT id FROM base_open)
    UNION SELECT entry_id FROM ledger_line WHERE callback_id IN (SELECT id FROM base_open);`;
/** Tables whose rows, and the rows that point to them, may be of an open callback. */
const OF_CALLBACKS = ['callback', 'conclusion', 'remedy', 'ledger_entry'];

/** Leaves out what is of a callback still open, in blocks further back than such a thing would be. */
const settled = (table: string, columns: readonly Column[]): string[] =>
  columns
    .filter(({ name, target }) => (target !== null && OF_CALLBACKS.includes(target)) || (name === 'id' && OF_CALLBACKS.includes(table)))
    .map(({ name }) => `c.days >= -${OPEN_DAYS} OR o."${name}" IS NULL OR o."${name}" NOT IN (SELECT id FROM base_open)`);

type Column = { name: string; type: string; target: string | null; alone: boolean };
const COLUMNS = `
  SELECT a.attname AS name, format_type(a.atttypid, NULL) AS type,
    (SELECT c.confrelid::regclass::text FROM pg_constraint c CROSS JOIN LATERAL unnest(c.conkey, c.confkey) k(here, there)
     JOIN pg_attribute o ON o.attrelid = c.confrelid AND o.attnum = k.there WHERE c.contype = 'f' AND c.conrelid = a.attrelid AND k.here = a.attnum AND o.atttypid = 'uuid'::regtype LIMIT 1) AS target,
    EXISTS (SELECT FROM pg_index i WHERE i.indrelid = a.attrelid AND i.indisunique AND i.indnkeyatts = 1 AND i.indkey[0] = a.attnum) AS alone
  FROM pg_attribute a WHERE a.attrelid = $1::regclass AND a.attnum > 0 AND NOT a.attisdropped AND a.attgenerated = '' ORDER BY a.attnum`;

/** What a column of a copy holds. `shift`: whether the row moves in time. */
function valueOf({ name, type, target, alone }: Column, shift: boolean): string {
  const column = `o."${name}"`;
  const ms = shift ? 'c.days::bigint * 86400000' : '0';
  if (type === 'uuid' && target !== null && PEOPLE.includes(target)) return `moved(${column}, 0, c.team)`;
  if (type === 'uuid' && ((target !== null && target in JOBS) || (name === 'id' && target === null)))
    return `moved(${column}, ${ms}, c.team)`;
  if (shift && (type === 'timestamp with time zone' || type === 'date'))
    return type === 'date' ? `${column} + c.days` : `${column} + c.days * interval '1 day'`;
  if (alone && type === 'integer') return `${column} + c.k * 1000000`;
  if (alone && type === 'text') return `c.k || '-' || ${column}`;
  if (name === 'details')
    return `(SELECT coalesce(jsonb_object_agg(d.key, CASE WHEN d.key IN ('jobId', 'duplicateOfId', 'repeatOfId') AND d.value <> 'null' THEN to_jsonb(moved((d.value #>> '{}')::uuid, ${ms}, c.team)) ELSE d.value END), '{}') FROM jsonb_each(${column}) d)`;
  return column;
}

/** Fills the database, which holds the demo firm alone, in the owner's name. `say` hears each table with its rows and seconds. */
export async function multiply(url: string, { blocks, teams }: Years, say: (line: string) => void): Promise<void> {
  const client = new pg.Client({
    connectionString: url,
    options: '-c timezone=UTC -c session_replication_role=replica -c maintenance_work_mem=1GB -c work_mem=256MB',
  });
  await client.connect();
  for (const statement of SET_UP.split(/;\n(?=\s*(?:CREATE|INSERT))/))
    await client.query(statement.replaceAll('$1', String(blocks)).replaceAll('$2', String(teams)));
  const tables = [...PEOPLE, ...Object.keys(JOBS)];
  const { rows: indexes } = await client.query<{ name: string; made: string }>(
    `SELECT i.indexrelid::regclass::text AS name, pg_get_indexdef(i.indexrelid) AS made FROM pg_index i WHERE i.indrelid = ANY ($1::text[]::regclass[]) AND NOT i.indisunique
       AND NOT EXISTS (SELECT FROM pg_constraint c WHERE c.conindid = i.indexrelid)`,
    [tables],
  );
  for (const { name } of indexes) await client.query(`DROP INDEX ${name}`);
  for (const table of tables) {
    const began = performance.now();
    const { rows: columns } = await client.query<Column>(COLUMNS, [table]);
    const people = PEOPLE.includes(table);
    const where = [JOBS[table] ?? '', people ? 'c.days = 0' : '', ...settled(table, columns)]
      .filter(Boolean)
      .map((one) => `(${one})`)
      .join(' AND ');
    const names = columns.map(({ name }) => `"${name}"`).join(', ');
    const { rowCount } = await client.query(
      `INSERT INTO ${table} (${names}) SELECT ${columns.map((one) => valueOf(one, !people)).join(', ')} FROM copies c CROSS JOIN ${table} o ${where ? `WHERE ${where}` : ''} ORDER BY c.days, c.team`,
    );
    say(`${table}: ${rowCount} rows, ${((performance.now() - began) / 1000).toFixed(0)} s`);
  }
  const began = performance.now();
  for (const { made } of indexes) await client.query(made);
  await client.query('DROP TABLE copies, base_job, base_visit, base_open');
  await client.query('VACUUM ANALYZE');
  say(`indexes and statistics: ${((performance.now() - began) / 1000).toFixed(0)} s`);
  await client.end();
}
