// Hangs a table of a page: as comma-separated text and, under the same query, as a workbook.
import type { FastifyInstance } from 'fastify';
import { DateTime } from 'luxon';
import type { ReplyOf, Route } from '@backsight/contract/route';
import { workbookOf, type PageWithTables, type TableMade } from '@backsight/contract/table';
import { tableCsv, tableXlsx, type ExportTable } from '@backsight/documents/exportTable';
import { accept, type Outcome } from '@backsight/domain/shared/outcome';
import { firmName } from '@backsight/usecases/firm/readFirm';
import { isOutcome, mount, type Call } from './mount.ts';
import type { Services } from './services.ts';

const CSV = 'text/csv; charset=utf-8; header=present';
const XLSX = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';

/** The one way in which tables leave: `route` ends in .csv, and its twin in .xlsx is made from it. */
export function mountTable<R extends Route>(
  app: FastifyInstance,
  services: Services,
  route: R,
  make: (call: Call<R>) => Promise<Outcome<ExportTable>>,
): void {
  const send = (type: string, end: string, write: (made: ExportTable) => Promise<Uint8Array> | string) => async (call: Call<R>) => {
    const made = await make(call);
    if (!made.ok) return made;
    call.reply
      .type(type)
      .headers({ 'content-disposition': `attachment; filename="${made.value.name}.${end}"`, 'cache-control': 'no-store' });
    const written = await write(made.value);
    return accept(typeof written === 'string' ? written : Buffer.from(written)) as Outcome<never>;
  };
  mount(app, services, route, send(CSV, 'csv', tableCsv));
  mount(app, services, workbookOf(route), send(XLSX, 'xlsx', tableXlsx));
}

/** Reads a page; `every`: all of its rows are asked for, however long the list. */
type ReadPage<P extends Route> = (call: Call<P>, every: boolean) => Promise<Outcome<ReplyOf<P>> | ReplyOf<P>>;

/** Hangs a page and every table declared beside its contract: both are read by the same function, so that they cannot differ. */
export function mountPage<P extends Route, N extends string>(
  app: FastifyInstance,
  services: Services,
  { page, make, table }: PageWithTables<P, N>,
  read: ReadPage<P>,
): void {
  mount(app, services, page, (call) => read(call, false) as never);
  mountTable(app, services, table, async (call) => {
    const { table: name, ...query } = call.query as { table: N };
    const answer = await read({ ...call, query } as never, true);
    const found = isOutcome(answer) ? (answer as Outcome<ReplyOf<P>>) : accept(answer as ReplyOf<P>);
    return found.ok ? accept(writable(make[name](found.value), (await firmName(call.read))?.zone ?? 'UTC')) : found;
  });
}

/** Instants as one reads them where the firm is; the title as the name of a file. */
function writable({ title, columns, rows }: TableMade, zone: string): ExportTable {
  const when = (cell: TableMade['rows'][number][number]) =>
    typeof cell === 'string' ? DateTime.fromISO(cell, { zone }).toFormat('yyyy-MM-dd HH:mm') : cell;
  return {
    name: title.toLowerCase().replace(/[^a-z0-9]+/g, '-'),
    title,
    columns: columns.map(({ is, ...column }) => (is === 'instant' ? { ...column, unit: zone } : { ...column, ...(is ? { is } : {}) })),
    rows: rows.map((row) => row.map((cell, at) => (columns[at]?.is === 'instant' ? when(cell) : cell))),
  };
}
