// Writes many rows of one table at once, as PostgreSQL takes them from JSON; for records that come by the thousand.
import { execute, type Tx } from '../database.ts';

/** Types of the columns by table; each row has its columns by these names. */
const TABLES = {
  person:
    'id uuid, office_id uuid, name text, email text, phone text, trainee boolean, may_lead boolean, home_address text, home_lat float8, home_lon float8, started_on date, ended_on date, bring_in_id uuid, recorded_at timestamptz',
  person_role: 'person_id uuid, role text',
  party:
    'id uuid, name text, email text, phone text, minor boolean, wishes text, language text, assistance text, large_print boolean, bring_in_id uuid, recorded_at timestamptz',
  property:
    'id uuid, address text, town text, zip text, address_key text, lat float8, lon float8, place_by text, state text, bring_in_id uuid, recorded_at timestamptz',
  fact_sheet: 'id uuid, property_id uuid, facts jsonb, recorded_at timestamptz, recorded_by uuid',
  job: 'id uuid, number int, office_id uuid, property_id uuid, kind text, state text, facts jsonb, schedule_id uuid, rules_id uuid, terms text, source text, client_attends boolean, attendees text, arrives text, version int, bring_in_id uuid, recorded_at timestamptz',
  past_job: 'job_id uuid, delivered_on date, reference text, timed boolean',
  job_party: 'id uuid, job_id uuid, party_id uuid, role text, may_receive_report boolean',
  job_service: 'job_id uuid, service_key text',
  job_fee_line: 'id uuid, job_id uuid, position int, rule_key text, label text, reason text, cents int, recorded_at timestamptz',
  visit:
    'id uuid, job_id uuid, kind text, crew_size int, state text, live boolean, starts_at timestamptz, ends_at timestamptz, because jsonb, recorded_at timestamptz',
  assignment: 'visit_id uuid, place text, person_id uuid, starts_at timestamptz, ends_at timestamptz, live boolean',
} as const;
export type RecordTable = keyof typeof TABLES;

const ROWS_AT_ONCE = 2_000;

/** Adds rows; `told` hears how many were added at once. */
export async function addRows(
  tx: Tx,
  table: RecordTable,
  rows: readonly Record<string, unknown>[],
  told: (rows: number) => Promise<void>,
): Promise<void> {
  const types = TABLES[table];
  const names = types
    .split(', ')
    .map((column) => column.split(' ')[0])
    .join(', ');
  for (let at = 0; at < rows.length; at += ROWS_AT_ONCE) {
    const some = rows.slice(at, at + ROWS_AT_ONCE);
    await execute(
      tx,
      `INSERT INTO ${table} (${names}) SELECT ${names} FROM jsonb_to_recordset($1::jsonb) AS x(${types})`,
      JSON.stringify(some),
    );
    await told(some.length);
  }
}

/** Takes `count` numbers of jobs in a row; answers the first. The counter is locked until the transaction ends. */
export async function takeJobNumbers(tx: Tx, count: number): Promise<number> {
  const [row] = await tx.rows<{ first: number }>(
    `INSERT INTO number_counter (kind, next) VALUES ('job', 1001 + $1::int) ON CONFLICT (kind) DO UPDATE SET next = number_counter.next + $1::int RETURNING next - $1::int AS first`,
    [count],
  );
  return row!.first;
}
