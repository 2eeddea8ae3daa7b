// A filter that is left out is left out of the plan, and the rows are the same.
import pg from 'pg';
import { expect, it } from 'vitest';
import { asGiven } from '@backsight/store/given';
import { testService } from '../support/database.ts';

const service = testService();

const BOTH = `SELECT n FROM generate_series(1, 4) n WHERE ($1::int IS NULL OR n = $1::int) AND ($2::jsonb ->> 'least' IS NULL OR n >= ($2::jsonb ->> 'least')::int)`;
const rows = async (...params: unknown[]) => (await service.database.read.rows<{ n: number }>(BOTH, params)).map(({ n }) => n);

it('gives the rows of the filters that are there, in any order of asking', async () => {
  for (let again = 0; again < 7; again++) {
    expect(await rows(null, '{}')).toEqual([1, 2, 3, 4]);
    expect(await rows(3, '{}')).toEqual([3]);
    expect(await rows(null, '{"least": 3}')).toEqual([3, 4]);
    expect(await rows(2, '{"least": 3}')).toEqual([]);
    expect(await rows(null, null)).toEqual([1, 2, 3, 4]);
  }
});
it('is planned for the filters that are there: an index serves the one that is, also by a plan that is kept', async () => {
  const sql =
    'SELECT id FROM audit_row WHERE ($1::text IS NULL OR thing_kind = $1) AND ($2::uuid IS NULL OR thing_id = $2::uuid) ORDER BY id DESC LIMIT 50';
  const client = new pg.Client(service.url);
  await client.connect();
  const plan = async (params: unknown[]): Promise<string> =>
    (await client.query<Record<string, string>>(`EXPLAIN (GENERIC_PLAN) ${asGiven(sql, params)}`)).rows
      .map((row) => Object.values(row)[0])
      .join('\n');
  try {
    await client.query('SET enable_seqscan = off'); // the table is empty
    expect(await plan(['job', '00000000-0000-7000-8000-000000000000'])).toContain('Index Cond: ((thing_kind');
    expect(await plan([null, null])).not.toContain('thing_kind');
  } finally {
    await client.end();
  }
});
it('leaves a statement without such filters as it is', () => {
  for (const sql of ['SELECT 1 WHERE $1::int > 0', 'SELECT 1 WHERE ($1::text || $2::text IS NULL)', 'SELECT 1 WHERE true = $1 IS NULL'])
    expect(asGiven(sql, [null, null])).toBe(sql);
});
