// Tables of pages that can be taken away: declared beside the contract of their page, made from its reply, under its query and for its readers.
import { z } from 'zod';
import { route, type ReplyOf, type Route } from './route.ts';

export type TableCell = string | number | null;
/** What a column holds: words, numbers, cents (written as dollars), ISO days, or instants (written where the firm is). `unit` stands behind the head in brackets. */
export type TableHead = { head: string; is?: 'text' | 'number' | 'cents' | 'day' | 'instant'; unit?: string };
export type TableMade = { title: string; columns: readonly TableHead[]; rows: readonly (readonly TableCell[])[] };
/** Makes a table of the reply of a page that was asked for all of its rows. */
export type MakeTable<P extends Route> = (page: ReplyOf<P>) => TableMade;

/** Which rows a table has, and what each column holds of a row. The title names the file too. */
export const tableOf =
  <Page, Row>(
    title: string | ((page: Page) => string),
    rows: (page: Page) => readonly Row[],
    columns: readonly (TableHead & { of: (row: Row) => TableCell })[],
  ) =>
  (page: Page): TableMade => ({
    title: typeof title === 'string' ? title : title(page),
    columns: columns.map(({ of: _, ...head }) => head),
    rows: rows(page).map((row) => columns.map(({ of }) => of(row))),
  });

/** Names of the places in a long list: a table has every row, so it takes none of them. */
export const CURSORS: readonly string[] = ['after', 'page'];
function queryOf(page: Route, names: [string, ...string[]]): z.ZodObject {
  const asked = page.query ?? z.strictObject({});
  const shape = Object.entries(asked.shape);
  const kept = shape.filter(([name]) => !CURSORS.includes(name));
  const without = kept.length < shape.length ? z.strictObject(Object.fromEntries(kept)) : asked;
  return without.safeExtend({ table: z.enum(names) });
}

export type PageWithTables<P extends Route = Route, N extends string = string> = {
  page: P;
  make: Record<N, MakeTable<P>>;
  /** Every table of the page by its name, as comma-separated text; the workbook stands beside it. */
  table: Route & { query: z.ZodObject };
};

/** A page and its tables by name: their one route is that of the page with /table.csv behind it and the name of the table in its query. */
export function withTables<P extends Route, N extends string>(page: P, make: Record<N, MakeTable<P>>): PageWithTables<P, N> {
  const names = Object.keys(make) as [N, ...N[]];
  return {
    page,
    make,
    table: route({
      method: 'GET',
      path: `${page.path}/table.csv`,
      area: page.area,
      who: page.who,
      summary: `${page.summary}; its tables (${names.join(', ')}) with all rows as comma-separated text (RFC 4180)`,
      ...(page.params ? { params: page.params } : {}),
      query: queryOf(page, names),
      reply: z.unknown(),
    }),
  };
}

/** The same table as a workbook: a route of a table ends in .csv, its twin in .xlsx, and both take the query of their page. */
export const workbookOf = <R extends Route>(csv: R): R => ({
  ...csv,
  path: csv.path.replace(/\.csv$/, '.xlsx'),
  summary: `${csv.summary.replace(/ as comma-separated text \(RFC 4180\)$/, '')}, as a workbook (XLSX)`,
});
