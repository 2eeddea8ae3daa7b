// The inventory of personal data as SQL: which rows of a table belong to a thing.
import { INVENTORY, blanked, naming, type Path, type Table } from '@backsight/domain/personal/inventory';

/** Mail of a job: about itself, and about everything that hangs on it. */
const ABOUT_JOB = `about_id IN (SELECT $1 UNION ALL ${['agreement', 'report', 'invoice', 'visit', 'callback']
  .map((table) => `SELECT id FROM ${table} WHERE job_id = $1`)
  .join(' UNION ALL ')})`;

/** Condition under which a row belongs to the thing whose id is $1 (a uuid). */
export function wayOf(path: Path): string {
  const [step = '', ...rest] = path;
  const [column, table] = step.split(' ');
  if (table === undefined) return column === 'about_id' ? ABOUT_JOB : `${column} = $1`;
  return `${column} IN (SELECT id FROM ${table} WHERE ${wayOf(rest)})`;
}

export const anyWay = (paths: readonly Path[]): string => paths.map(wayOf).join(' OR ');

export type DisposedTable = { name: string; record: string; way: string };
export type DisposedColumn = { table: string; column: string; going: 'blank' | 'text' | 'file'; blank: unknown };

/** Records of jobs, inquiries and people of the firm; rows of people outside and of houses go by rules of their own. */
const disposed = (table: Table): boolean => ['job', 'mail', 'callback', 'inquiry', 'staff'].includes(table.record) && table.unit.length > 0;

const columnsOf = (table: Table): DisposedColumn[] => [
  ...blanked(table).map(({ column, blank }) => ({ table: table.name, column, going: 'blank' as const, blank })),
  ...(['text', 'file'] as const).flatMap((going) =>
    naming(table, going).map(({ column }) => ({ table: table.name, column, going, blank: null })),
  ),
];

/** What the database itself keeps of the inventory, to dispose of records by it. */
export function disposedRows(): { tables: DisposedTable[]; columns: DisposedColumn[] } {
  const tables = INVENTORY.filter((table) => disposed(table) && columnsOf(table).length > 0);
  return {
    tables: tables.map((table) => ({ name: table.name, record: table.record, way: anyWay(table.unit) })),
    columns: tables.flatMap(columnsOf),
  };
}
