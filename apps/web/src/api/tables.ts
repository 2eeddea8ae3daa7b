// Where the tables of a page are read.
import type { Route } from '@backsight/contract/route';
import { CURSORS, type PageWithTables } from '@backsight/contract/table';
import { addressOf } from './call.ts';

/** `asked`: the query of the page; what names a place in its list is left out, for a table has every row. */
export function tableAddress<P extends Route, N extends string>(
  { table: { path } }: PageWithTables<P, N>,
  table: NoInfer<N>,
  asked: Record<string, unknown> = {},
  params: Record<string, unknown> = {},
): string {
  const kept = Object.entries(asked).filter(([name]) => !CURSORS.includes(name));
  return addressOf(path, params, { ...Object.fromEntries(kept), table });
}
