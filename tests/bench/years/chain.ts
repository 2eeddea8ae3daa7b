// Seals the whole audit trail as one chain in one statement: what the sealer of the service does row by row, for millions of rows.
import type pg from 'pg';
import { AUDIT_LINE } from '@backsight/store/audit';

/** Seals every row in the order of its time, beginning anew; returns how many. `verify` of the service accepts the chain. */
export async function sealEverything(client: pg.Client): Promise<number> {
  await client.query(`
    CREATE FUNCTION base.sealed(before text, no bigint, line text) RETURNS text LANGUAGE sql IMMUTABLE STRICT AS $$
      SELECT encode(sha256(convert_to(before || '|' || no || '|' || line, 'UTF8')), 'hex') $$;
    CREATE AGGREGATE base.chain(bigint, text) (sfunc = base.sealed, stype = text, initcond = '${'0'.repeat(64)}');
    TRUNCATE audit_seal`);
  const { rowCount } = await client.query(
    `INSERT INTO audit_seal (seal_no, audit_id, hash)
     SELECT no, id, base.chain(no, line) OVER (ORDER BY no ROWS UNBOUNDED PRECEDING)
     FROM (SELECT a.id, row_number() OVER (ORDER BY a.recorded_at, a.id) AS no, ${AUDIT_LINE} AS line FROM audit_row a) rows`,
  );
  return rowCount!;
}
