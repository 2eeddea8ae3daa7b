// A firm of many years, made of the demo firm's twelve weeks: every job that is over is copied with all that hangs on it, by weeks
// further back and for further teams of inspectors; what is booked is copied to the teams of today. The demo's pairs go to some four
// houses a week, a firm of this size to eight: each further crew has the jobs of two teams, those of the second twelve hours later. Ids move with their time, so
// that indexes grow as they would have. The audit trail is copied too, and sealed anew as one chain.
import pg from 'pg';
import { sealEverything } from './chain.ts';
import { JOBS, NO_OLDER_THAN_JOBS, PEOPLE, type Copied } from './tables.ts';

/** How many blocks of twelve weeks lie behind each team, and how many crews of the demo's people share the jobs of so many teams. */
export type Years = { blocks: number; teams: number; crews: number };

const BLOCK_DAYS = 84;
/** Hours by which the second team of a crew is later: nobody is in two places. */
const LATE_HOURS = 12;
/** Numbers of jobs and papers that each copy takes: the demo firm needs some three hundred of each. The oldest copy has the lowest. */
const NUMBERS = 1000;
/** How far back rows may go, in days: of today, not settled, and for ever. */
const [TODAY, TWO_BLOCKS, EVER] = [0, -2 * BLOCK_DAYS, -1_000_000];

const SET_UP = [`CREATE SCHEMA base`, `CREATE TABLE base.ids (id uuid PRIMARY KEY, still boolean NOT NULL, reach int NOT NULL)`];

/** The parts of an id: its milliseconds, what stands between, and its end. The three digits in which the copies differ are 0. */
const partsOf = (name: string): string =>
  `('x' || left(o."${name}"::text, 8) || substr(o."${name}"::text, 10, 4))::bit(48)::bigint AS "${name} ms",
   substr(o."${name}"::text, 15, 4) || substr(o."${name}"::text, 20, 1) AS "${name} mid", right(o."${name}"::text, 12) AS "${name} end"`;
/** The id of a copy: the same, so much later, in the name of its team, or of the crew that has its jobs. */
const movedId = (name: string, ms: string, of: 'hex' | 'crew' = 'hex'): string =>
  `(lpad(to_hex(o."${name} ms" + ${ms}), 12, '0') || o."${name} mid" || c.${of} || o."${name} end")::uuid`;
const movedText = (text: string): string =>
  `lpad(to_hex(('x' || left(${text}, 8) || substr(${text}, 10, 4))::bit(48)::bigint + c.ms), 12, '0') || substr(${text}, 15, 4) || substr(${text}, 20, 1) || c.hex || right(${text}, 12)`;

type Column = { name: string; type: string; target: string | null; alone: boolean };
const COLUMNS = `
  SELECT a.attname AS name, format_type(a.atttypid, NULL) AS type,
    (SELECT c.confrelid::regclass::text FROM pg_constraint c CROSS JOIN LATERAL unnest(c.conkey, c.confkey) k(here, there)
     JOIN pg_attribute o ON o.attrelid = c.confrelid AND o.attnum = k.there WHERE c.contype = 'f' AND c.conrelid = a.attrelid AND k.here = a.attnum AND o.atttypid = 'uuid'::regtype LIMIT 1) AS target,
    a.attname = 'number' AND a.attrelid IN ('license'::regclass, 'invoice_act'::regclass) OR EXISTS (SELECT FROM pg_index i WHERE i.indrelid = a.attrelid AND i.indisunique AND i.indnkeyatts = 1 AND i.indkey[0] = a.attnum) AS alone
  FROM pg_attribute a WHERE a.attrelid = $1::regclass AND a.attnum > 0 AND NOT a.attisdropped AND a.attgenerated = '' ORDER BY a.attnum`;

/** The rows of a table that are copied, each with how far back it may go: no further than what it points to. */
function baseOf(table: string, columns: readonly Column[], { only, now, open, about }: Copied): string {
  const up = columns.filter(({ target }) => target !== null && target !== table && target in JOBS);
  const own = `CASE WHEN ${now ?? 'false'} THEN ${TODAY} WHEN ${open ?? 'false'} THEN ${TWO_BLOCKS} ELSE ${EVER} END`;
  const reach = [own, ...up.map((_, at) => `r${at}.reach`), ...(about ? ['about.reach'] : [])];
  const joins = up.map(({ name, target }, at) => `LEFT JOIN base.${target} r${at} ON r${at}.id = o."${name}"`);
  const where = [...up.map(({ name }, at) => `(o."${name}" IS NULL OR r${at}.id IS NOT NULL)`), ...(only ? [`(${only})`] : [])];
  const parts = columns.filter(({ type }) => type === 'uuid').map(({ name }) => `, ${partsOf(name)}`);
  return `CREATE TABLE base.${table} AS SELECT o.*${parts.join('')}, greatest(${reach.join(', ')}) AS reach${about ? ', about.still' : ''} FROM ${table} o ${joins.join(' ')}
    ${about ? `JOIN base.ids about ON about.id = o."${about}"` : ''} ${where.length > 0 ? `WHERE ${where.join(' AND ')}` : ''}`;
}

/** Of a sealed paper the beginning is copied, told apart, under its own fingerprint: ten years of papers are files of their own. */
const PAPER = `substr(o.content, 1, 64) || convert_to(o.id || '-' || c.k, 'UTF8')`;

/** What a column of a copy holds. `people`: columns of ids of people that no foreign key says. */
function valueOf(table: string, { name, type, target, alone }: Column, people: readonly string[]): string {
  const column = `o."${name}"`;
  const shift = !PEOPLE.includes(table);
  const ms = shift ? 'c.ms' : '0';
  if (name === JOBS[table]?.about) return `CASE WHEN o.still THEN ${movedId(name, '0', 'crew')} ELSE ${movedId(name, 'c.ms')} END`;
  if (type === 'uuid' && ((target !== null && PEOPLE.includes(target)) || people.includes(name))) return movedId(name, '0', 'crew');
  if (type === 'uuid' && ((target !== null && target in JOBS) || (name === 'id' && target === null))) return movedId(name, ms);
  if (shift && type === 'timestamp with time zone') return `${column} + c.shift`;
  if (shift && type === 'date') return `${column} + c.days`;
  if (table === 'sealed_paper' && name === 'content') return PAPER;
  if (table === 'sealed_paper' && name === 'sha256') return `encode(sha256(${PAPER}), 'hex')`;
  if (alone && type === 'integer') return `${column} + c.number`;
  if (alone && type === 'text') return `c.k || '-' || ${column}`;
  if (name === 'details' && table.endsWith('_event'))
    return `(SELECT coalesce(jsonb_object_agg(d.key, CASE WHEN d.key IN ('jobId', 'duplicateOfId', 'repeatOfId') AND d.value <> 'null' THEN to_jsonb((${movedText(`(d.value #>> '{}')`)})::uuid) ELSE d.value END), '{}') FROM jsonb_each(${column}) d)`;
  return column;
}

type Prepared = { columns: Column[]; people: string[] };

/** Makes base.<table>, and the columns of ids of people that no foreign key says. */
async function prepare(client: pg.Client, table: string): Promise<Prepared> {
  const { rows: columns } = await client.query<Column>(COLUMNS, [table]);
  await client.query(baseOf(table, columns, JOBS[table] ?? {}));
  if (columns.some(({ name, type }) => name === 'id' && type === 'uuid'))
    await client.query(`INSERT INTO base.ids SELECT id, ${PEOPLE.includes(table)}, reach FROM base.${table} ON CONFLICT DO NOTHING`);
  const people: string[] = [];
  for (const { name, type, target } of columns)
    if (type === 'uuid' && target === null && name !== 'id' && name !== JOBS[table]?.about) {
      const found = await client.query(`SELECT FROM base.${table} b JOIN person p ON p.id = b."${name}" LIMIT 1`);
      if (found.rowCount! > 0) people.push(name);
    }
  return { columns, people };
}

/** Copies the rows of one table in the order of time; returns how many. */
async function copy(client: pg.Client, table: string, { columns, people }: Prepared): Promise<number> {
  const { rowCount } = await client.query(
    `INSERT INTO ${table} (${columns.map(({ name }) => `"${name}"`).join(', ')}) SELECT ${columns.map((one) => valueOf(table, one, people)).join(', ')}
     FROM (SELECT * FROM base.copies ${PEOPLE.includes(table) ? 'WHERE days = 0 AND hex = crew' : ''} ORDER BY k DESC) c CROSS JOIN LATERAL (SELECT * FROM base.${table} o WHERE c.days >= o.reach OFFSET 0) o`,
  );
  return rowCount!;
}

/** What is there already is the newest: its numbers, and those that come next, are the highest. */
async function numberOnward(client: pg.Client, prepared: ReadonlyMap<string, Prepared>, by: number): Promise<void> {
  for (const [table, { columns }] of prepared)
    for (const { name, type, alone } of columns)
      if (alone && type === 'integer') await client.query(`UPDATE ${table} SET ${name} = ${name} + ${by}`);
  await client.query(`UPDATE number_counter SET next = next + ${by} WHERE kind IN ('job', 'invoice', 'report', 'credit-note', 'callback')`);
}

/** Two hands for a machine of two cores, in the owner's name, without keys of other tables being looked up. */
async function connect(url: string): Promise<pg.Client> {
  const options =
    '-c timezone=UTC -c session_replication_role=replica -c maintenance_work_mem=1GB -c work_mem=256MB -c synchronous_commit=off';
  const client = new pg.Client({ connectionString: url, options });
  await client.connect();
  return client;
}

/** Every act once, by whichever hand is free. */
async function share(hands: readonly pg.Client[], acts: readonly ((hand: pg.Client) => Promise<void>)[]): Promise<void> {
  const left = [...acts];
  await Promise.all(
    hands.map(async (hand) => {
      for (let act = left.shift(); act !== undefined; act = left.shift()) await act(hand);
    }),
  );
}

/** The tables that take longest are begun first. */
const LONGEST = ['step_entry', 'package_step', 'kept_text', 'audit_row'];
const byLength = (tables: readonly string[]): string[] => [...LONGEST, ...tables.filter((one) => !LONGEST.includes(one))];

/** Fills the database, which holds the demo firm alone. `say` hears each table with its rows and seconds. */
export async function multiply(url: string, { blocks, teams, crews }: Years, say: (line: string) => void): Promise<void> {
  const hands = [await connect(url), await connect(url)];
  const first = hands[0]!;
  for (const statement of SET_UP) await first.query(statement);
  await first.query(`CREATE TABLE base.copies AS SELECT b * ${teams} + t AS k, -b * ${BLOCK_DAYS} AS days, (late - b * ${BLOCK_DAYS} * 24) * 3600000::bigint AS ms,
    (late - b * ${BLOCK_DAYS} * 24) * interval '1 hour' AS shift, lpad(to_hex(t), 3, '0') AS hex, lpad(to_hex(t % ${crews}), 3, '0') AS crew, (${blocks * teams} - b * ${teams} - t) * ${NUMBERS} AS number
    FROM generate_series(0, ${blocks} - 1) b, generate_series(0, ${teams} - 1) t, LATERAL (SELECT CASE WHEN t < ${crews} THEN 0 ELSE ${LATE_HOURS} END AS late) l WHERE b > 0 OR t > 0`);
  const tables = [...PEOPLE, ...Object.keys(JOBS)];
  const prepared = new Map<string, Prepared>();
  for (const table of tables) prepared.set(table, await prepare(first, table));
  for (const [table, soon] of Object.entries(NO_OLDER_THAN_JOBS))
    await first.query(`UPDATE base.${table} o SET reach = ${TODAY} WHERE ${soon}`);
  await first.query(`UPDATE base.fact_sheet o SET reach = p.reach FROM base.property p WHERE p.id = o.property_id`);
  await numberOnward(first, prepared, blocks * teams * NUMBERS);
  const { rows: indexes } = await first.query<{ name: string; made: string }>(
    `SELECT i.indexrelid::regclass::text AS name, pg_get_indexdef(i.indexrelid) AS made FROM pg_index i WHERE i.indrelid = ANY ($1::text[]::regclass[]) AND NOT i.indisunique
       AND NOT EXISTS (SELECT FROM pg_constraint c WHERE c.conindid = i.indexrelid) ORDER BY pg_relation_size(i.indrelid) DESC`,
    [tables],
  );
  for (const { name } of indexes) await first.query(`DROP INDEX ${name}`);
  const timed = async (what: string, act: () => Promise<number>): Promise<void> => {
    const began = performance.now();
    const rows = await act();
    say(`${what}: ${rows} rows, ${((performance.now() - began) / 1000).toFixed(1)} s`);
  };
  const copies = byLength(tables).map((table) => (hand: pg.Client) => timed(table, () => copy(hand, table, prepared.get(table)!)));
  await share(hands, copies);
  await timed('audit_seal', () => sealEverything(first));
  await timed('indexes', async () => {
    await share(
      hands,
      indexes.map(
        ({ made }) =>
          async (hand) =>
            void (await hand.query(made)),
      ),
    );
    return indexes.length;
  });
  await first.query('DROP SCHEMA base CASCADE');
  await timed('statistics', async () => (await first.query('VACUUM (FREEZE, ANALYZE)'), tables.length));
  for (const hand of hands) await hand.end();
}
