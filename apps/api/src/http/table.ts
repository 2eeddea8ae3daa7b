// Hangs a table of a page: as comma-separated text and, under the same query, as a workbook.
import type { FastifyInstance } from 'fastify';
import { workbookOf } from '@backsight/contract/liability/tables';
import type { Route } from '@backsight/contract/route';
import { tableCsv, tableXlsx, type ExportTable } from '@backsight/documents/exportTable';
import { accept, type Outcome } from '@backsight/domain/shared/outcome';
import { mount, type Call } from './mount.ts';
import type { Services } from './services.ts';

const CSV = 'text/csv; charset=utf-8; header=present';
const XLSX = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';

/** `route` ends in .csv; its twin in .xlsx is made from it. */
export function mountTable<R extends Route>(
  app: FastifyInstance,
  services: Services,
  route: R,
  made: (call: Call<R>) => Promise<Outcome<ExportTable>>,
): void {
  const send = (type: string, end: string, write: (table: ExportTable) => Promise<Uint8Array> | string) => async (call: Call<R>) => {
    const table = await made(call);
    if (!table.ok) return table;
    call.reply
      .type(type)
      .headers({ 'content-disposition': `attachment; filename="${table.value.name}.${end}"`, 'cache-control': 'no-store' });
    const written = await write(table.value);
    return accept(typeof written === 'string' ? written : Buffer.from(written)) as Outcome<never>;
  };
  mount(app, services, route, send(CSV, 'csv', tableCsv));
  mount(app, services, workbookOf(route), send(XLSX, 'xlsx', tableXlsx));
}
