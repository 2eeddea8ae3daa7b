// Hangs a table of a page: as comma-separated text and, under the same query, as a workbook.
import type { FastifyInstance } from 'fastify';
import { workbookOf } from '@backsight/contract/liability/tables';
import type { Route } from '@backsight/contract/route';
import { csvXlsx, tableCsv, tableXlsx, type ExportTable } from '@backsight/documents/exportTable';
import { accept, type Outcome } from '@backsight/domain/shared/outcome';
import { mount, type Call } from './mount.ts';
import type { Services } from './services.ts';

const CSV = 'text/csv; charset=utf-8; header=present';
const XLSX = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';

/** A table with its columns, or one that is comma-separated text already. `name` becomes the file's name. */
type Made = ExportTable | { name: string; csv: string };

/** The one way in which tables leave: `route` ends in .csv, and its twin in .xlsx is made from it. */
export function mountTable<R extends Route>(
  app: FastifyInstance,
  services: Services,
  route: R,
  make: (call: Call<R>) => Promise<Outcome<Made>>,
): void {
  const send = (type: string, end: string, write: (made: Made) => Promise<Uint8Array> | string) => async (call: Call<R>) => {
    const made = await make(call);
    if (!made.ok) return made;
    call.reply
      .type(type)
      .headers({ 'content-disposition': `attachment; filename="${made.value.name}.${end}"`, 'cache-control': 'no-store' });
    const written = await write(made.value);
    return accept(typeof written === 'string' ? written : Buffer.from(written)) as Outcome<never>;
  };
  mount(
    app,
    services,
    route,
    send(CSV, 'csv', (made) => ('csv' in made ? made.csv : tableCsv(made))),
  );
  mount(
    app,
    services,
    workbookOf(route),
    send(XLSX, 'xlsx', (made) => ('csv' in made ? csvXlsx(made.name, made.csv) : tableXlsx(made))),
  );
}
