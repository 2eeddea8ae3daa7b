// The inventory of personal data against the database as it is: a column that nobody classified fails here, so that export and erasure stay complete.
import { describe, expect, it } from 'vitest';
import { GONE, INVENTORY, tableOf } from '@backsight/domain/personal/inventory';
import { RECORDS } from '@backsight/domain/personal/retention';
import { anyWay, disposedRows } from '@backsight/store/personal/ways';
import { testService } from '../../support/database.ts';
import { wordColumns } from '../../support/demoApi.ts';

const service = testService();
const rows = <T>(sql: string) => service.database.read.rows<T>(sql);

describe('the inventory of personal data', () => {
  it('names every column that can hold words, and none that is not there', async () => {
    const real = (await wordColumns(service.database)).map(({ table, column }) => `${table}.${column}`);
    const named = INVENTORY.flatMap(({ name, columns }) => Object.keys(columns).map((column) => `${name}.${column}`));
    const naming = await namingColumns();
    expect(real.filter((one) => !named.includes(one))).toEqual([]);
    expect(named.filter((one) => !real.includes(one) && !naming.includes(one))).toEqual([]);
  });
  it('names every column that leads to kept words or to a file', async () => {
    const missing = (await namingColumns()).filter((one) => {
      const [table, column] = one.split('.') as [string, string];
      return tableOf(table)?.columns[column] === undefined;
    });
    expect(missing).toEqual([]);
  });
  it('leads by ways that the database can go', async () => {
    for (const table of INVENTORY)
      for (const ways of [table.unit, table.party, table.person].filter(
        (some) => some.length > 0 && some.every(([first]) => first !== 'address'),
      ))
        await rows(
          `SELECT count(*) FROM "${table.name}" WHERE ${anyWay(ways).replaceAll('$1', "'00000000-0000-7000-8000-000000000000'::uuid")}`,
        );
  });
  it('is what the database itself goes by', async () => {
    const { tables, columns } = disposedRows();
    const byName = (a: { key: string }, b: { key: string }) => (a.key < b.key ? -1 : 1);
    const kept = await rows<{ name: string; record: string; way: string }>('SELECT name, record, way FROM personal_table');
    expect(kept.map((row) => ({ ...row, key: row.name })).sort(byName)).toEqual(
      tables.map((row) => ({ ...row, key: row.name })).sort(byName),
    );
    const keptColumns = await rows<{ key: string; going: string; blank: unknown }>(
      `SELECT table_name || '.' || column_name AS key, going, coalesce(blank, 'null') AS blank FROM personal_column`,
    );
    expect(keptColumns.sort(byName)).toEqual(
      columns.map(({ table, column, going, blank }) => ({ key: `${table}.${column}`, going, blank })).sort(byName),
    );
  });
  it('has the same words and times as the functions of the database', async () => {
    const [said] = await rows<{ src: string }>(
      `SELECT string_agg(prosrc, ' ') AS src FROM pg_proc WHERE proname IN ('forget_around', 'gone_value', 'only_erased')`,
    );
    expect(said!.src).toContain(GONE);
    const years = await rows<{ kind: keyof typeof RECORDS; years: number }>(
      `SELECT k AS kind, retention_years(k) AS years FROM unnest(ARRAY['${Object.keys(RECORDS).join("','")}']) k`,
    );
    expect(years.map(({ kind, years: n }) => [kind, n])).toEqual(Object.entries(RECORDS).map(([kind, { years: n }]) => [kind, n]));
  });
});

const namingColumns = async (): Promise<string[]> =>
  (
    await rows<{ name: string }>(
      `SELECT c.conrelid::regclass::text || '.' || a.attname AS name FROM pg_constraint c JOIN pg_attribute a ON a.attrelid = c.conrelid AND a.attnum = c.conkey[1]
       WHERE c.contype = 'f' AND c.confrelid IN ('kept_text'::regclass, 'stored_file'::regclass)`,
    )
  ).map(({ name }) => name);
