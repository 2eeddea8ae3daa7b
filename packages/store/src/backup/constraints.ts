// Looks whether rows hold what the database refuses: after a load that went past its checks, and when somebody wants proof.
import type { Reader } from '../database.ts';

type Rule = { table: string; name: string; broken: string };

/** Each as a condition on rows `t` of its table that break it. */
const RULES = `
  SELECT c.conrelid::regclass::text AS table, c.conname AS name, 'NOT (' || pg_get_expr(c.conbin, c.conrelid) || ')' AS broken
  FROM pg_constraint c WHERE c.contype = 'c' AND c.connamespace = 'public'::regnamespace
  UNION ALL
  SELECT c.conrelid::regclass::text, c.conname, (SELECT string_agg(format('t.%I IS NOT NULL', a.attname), ' AND ' ORDER BY k.n) FROM unnest(c.conkey) WITH ORDINALITY k(num, n) JOIN pg_attribute a ON a.attrelid = c.conrelid AND a.attnum = k.num)
    || format(' AND NOT EXISTS (SELECT FROM %s o WHERE %s)', c.confrelid::regclass, (SELECT string_agg(format('o.%I = t.%I', b.attname, a.attname), ' AND ' ORDER BY k.n)
      FROM unnest(c.conkey, c.confkey) WITH ORDINALITY k(num, other, n) JOIN pg_attribute a ON a.attrelid = c.conrelid AND a.attnum = k.num JOIN pg_attribute b ON b.attrelid = c.confrelid AND b.attnum = k.other))
  FROM pg_constraint c WHERE c.contype = 'f' AND c.connamespace = 'public'::regnamespace
  UNION ALL
  SELECT i.indrelid::regclass::text, i.indexrelid::regclass::text, 'EXISTS (SELECT FROM ' || i.indrelid::regclass || ' o WHERE o.ctid <> t.ctid AND '
    || (SELECT string_agg(format('o.%I = t.%I', a.attname, a.attname), ' AND ') FROM unnest(i.indkey::int[]) k JOIN pg_attribute a ON a.attrelid = i.indrelid AND a.attnum = k) || ')'
  FROM pg_index i JOIN pg_class r ON r.oid = i.indrelid AND r.relnamespace = 'public'::regnamespace WHERE i.indisunique AND i.indpred IS NULL AND i.indexprs IS NULL AND r.relkind = 'r'`;

/** How many checks, foreign keys and unique columns of these tables there are, and how many rows break each that does not hold. */
export async function brokenConstraints(
  reader: Reader,
  tables: readonly string[],
): Promise<{ rules: number; broken: Record<string, number> }> {
  const rules = (await reader.rows<Rule>(RULES)).filter(({ table }) => tables.includes(table));
  const counts = rules.map(({ table, name, broken }) => `SELECT '${name}' AS name, count(*)::int AS n FROM ${table} t WHERE ${broken}`);
  const found = await reader.rows<{ name: string; n: number }>(counts.join(' UNION ALL '));
  return { rules: rules.length, broken: Object.fromEntries(found.filter(({ n }) => n > 0).map(({ name, n }) => [name, n])) };
}
