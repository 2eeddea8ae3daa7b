// Tables and files of the liability pages: by role, in step with the ledger to the cent, and harmless in a spreadsheet.
import { strFromU8, unzipSync } from 'fflate';
import { expect, it } from 'vitest';
import { csvXlsx, tableCsv, tableXlsx, type ExportTable } from '@backsight/documents/exportTable';
import type { CastName } from '../../support/cast.ts';
import { testApi } from '../../support/http.ts';
import { withStarter } from '../../support/starter.ts';
import { concluded, on, visited } from '../callbacks/support.ts';

const api = testApi();
withStarter(api);
const get = (path: string, who: CastName = 'owner') => api.send(who, 'GET', `/api/liability/${path}`);

const TABLE: ExportTable = {
  name: 't',
  title: 'A/B',
  columns: [{ head: 'words' }, { head: 'paid', is: 'cents' }, { head: 'on', is: 'day' }, { head: 'jobs', is: 'number', unit: 'jobs' }],
  rows: [
    ['=1+1', -1_250, '2026-01-02', 3],
    ['-2+3', 5, null, null],
  ],
};
const sheetOf = (bytes: Uint8Array) => {
  const parts = unzipSync(bytes);
  return { sheet: strFromU8(parts['xl/worksheets/sheet1.xml']!), words: strFromU8(parts['xl/sharedStrings.xml']!) };
};

it('writes one table as text and as a workbook: units in the heads, cents as dollars, ISO days, nothing that runs', async () => {
  expect(tableCsv(TABLE)).toBe("words,paid (dollars),on,jobs (jobs)\r\n'=1+1,-12.50,2026-01-02,3\r\n'-2+3,0.05,,\r\n");
  for (const bytes of [await tableXlsx(TABLE), await csvXlsx('t', tableCsv(TABLE))]) {
    const { sheet, words } = sheetOf(bytes);
    expect(words).toContain('<t>=1+1</t>');
    expect(sheet).not.toContain('<f>');
    // 2026-01-02 is day 46024 of a workbook
    for (const value of ['-12.5', '0.05', '46024', '3']) expect(sheet).toContain(`<v>${value}</v>`);
  }
});
it('gives every entry of money with its days, and an extract without opinions, whose sums are those of the ledger', async () => {
  api.clock.now = new Date('2026-04-28T15:00:00Z');
  const job = await visited(api);
  api.clock.now = new Date('2026-05-12T15:00:00Z');
  const id = await concluded(api, job);
  await on(api, 'lead', id, 'reserve', { cents: 40_000, words: 'Zebrawood' });
  await on(api, 'lead', id, 'reserve', { cents: 12_345, words: 'Less' });
  const text = String((await get('transactions.csv', 'lead')).body);
  expect(
    text
      .split('\r\n')
      .slice(1, 3)
      .map((line) => line.split(',').slice(5, 9)),
  ).toEqual([
    ['reserve change', '0.00', '400.00', '0.00'],
    ['reserve change', '0.00', '-276.55', '0.00'],
  ]);
  const parts = unzipSync((await get('extract.zip')).bytes);
  const all = Object.values(parts)
    .map((part) => strFromU8(part))
    .join('');
  for (const word of ['Zebrawood', 'Less', 'not_in_procedure', 'ground-fault']) expect(all).not.toContain(word);
  const incurred = strFromU8(parts['triangle_incurred.csv']!).split('\r\n')[1]!.split(',');
  expect(incurred.slice(0, 4)).toEqual(['2026-04', '1', '0.00', '123.45']);
  expect(Object.keys(parts)[0]).toBe('read_me.txt');
});
it.each([
  'transactions.csv',
  'transactions.xlsx',
  'exposure.csv',
  'exposure.xlsx',
  'extract.zip',
  'quarter.pdf?quarter=2026-Q2',
  'steps.xlsx',
])('%s is for those who judge', async (path) => {
  for (const who of ['office', 'anna'] as const) expect((await get(path, who)).status).toBe(403);
  expect((await get(path)).status).toBe(200);
});
it.each([
  ['quarter=2031-Q1', 'quarter-not-begun'],
  ['quarter=2026-Q5', 'not-valid'],
])('refuses a report of %s', async (query, code) => expect((await get(`quarter.pdf?${query}`)).body).toMatchObject({ code }));
