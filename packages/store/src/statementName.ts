// A short, stable name per statement, so that the server plans it once per connection.
import { createHash } from 'node:crypto';

const names = new Map<string, string>();

/** The name of a statement, made at the first asking. */
export function statementName(sql: string): string {
  let name = names.get(sql);
  if (!name) names.set(sql, (name = createHash('sha1').update(sql).digest('hex').slice(0, 16)));
  return name;
}

/** The name that a statement has already, or none. */
export const knownName = (sql: string): string => names.get(sql) ?? '';
