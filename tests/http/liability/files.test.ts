// Tag: time.
// Tables and files of the liability pages: by role, in step with the ledger to the cent, and harmless in a spreadsheet.
import { randomUUID } from 'node:crypto';
import { strFromU8, unzipSync } from 'fflate';
import { expect, it } from 'vitest';
import { readCsv } from '@backsight/documents/csvRead';
import { execute } from '@backsight/store/database';
import { tableCsv, tableXlsx, type ExportTable } from '@backsight/documents/exportTable';
import { CAST, type CastName } from '../../support/cast.ts';
import { allPagesWithTables } from '../../support/contracts.ts';
import { testApi } from '../../support/http.ts';
import { flat, readPdf } from '../../support/pdf.ts';
import { withStarter } from '../../support/starter.ts';
import { bookedVisit } from '../../support/visits.ts';
import { concluded, on, visited, type Visited } from '../callbacks/support.ts';

const api = testApi();
withStarter(api);
const get = (path: string, who: CastName = 'owner') => api.send(who, 'GET', `/api/liability${/^[?/]/.test(path) ? '' : '/'}${path}`);

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
  const { sheet, words } = sheetOf(await tableXlsx(TABLE));
  expect(words).toContain('<t>=1+1</t>');
  expect(sheet).not.toContain('<f>');
  // 2026-01-02 is day 46024 of a workbook
  for (const value of ['-12.5', '0.05', '46024', '3']) expect(sheet).toContain(`<v>${value}</v>`);
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

/** What each page needs to be asked with. */
const ASKED: Record<string, string> = { '/api/liability/callbacks': 'inspected=2026-04' };
/** A start that was let through, with a reason that a spreadsheet would run. */
const letThrough = ({ visitId }: Visited) =>
  api.database.transaction(({ db }) => {
    const at = { happenedAt: api.clock.now, recordedAt: api.clock.now };
    const data = { id: randomUUID(), visitId, missing: ['agreement-unsigned'], reason: '=HYPERLINK("x")', actorId: CAST.owner.id, ...at };
    return db.gateOverride.create({ data });
  });
const cells = async (path: string, table: string, asked = ''): Promise<string[][]> => {
  const { status, body } = await get(`${path}/table.csv?${asked}${asked ? '&' : ''}table=${table}`);
  expect([path, status], JSON.stringify(body)).toEqual([path, 200]);
  return readCsv(String(body)).rows.map((row) => row.cells);
};

it('gives every table of every page with the rows that the page shows', async () => {
  await letThrough(await visited(api));
  const told: Record<string, number> = {};
  for (const { page, make } of await allPagesWithTables()) {
    const path = page.path.replace('/api/liability', '').replace(':key', 'ground-fault-trip-reset');
    const asked = ASKED[page.path] ?? '';
    const shown = (await get(`${path}?${asked}`)).body;
    for (const [name, made] of Object.entries(make)) {
      const { columns, rows } = made(shown as never);
      const [head, ...lines] = await cells(path, name, asked);
      expect([page.path, name, head!.length, lines.length]).toEqual([page.path, name, columns.length, rows.length]);
      for (const [at, row] of rows.entries())
        for (const [n, cell] of row.entries())
          if (columns[n]!.is === 'cents' && cell !== null) expect(Number(lines[at]![n])).toBe(Number(cell) / 100);
          else if (columns[n]!.is !== 'instant') expect(lines[at]![n]).toBe(String(cell ?? ''));
      told[`${path} ${name}`] = rows.length;
    }
  }
  // what this firm has done stands in them
  const filled = Object.keys(told).filter((name) => told[name]! > 0);
  expect(filled).toEqual(
    expect.arrayContaining([
      ...[' money', ' months', ' open', '/entries entries', '/open-callbacks callbacks', '/callbacks callbacks', '/cash reserves'],
      ...['/windows months', '/windows/jobs jobs', '/held-jobs jobs', '/overrides overrides'],
    ]),
  );
});
/** So many entries that set 7 cents aside each, straight into the books. */
const moreEntries = (id: string, count: number) =>
  api.database.transaction((tx) =>
    execute(
      tx,
      `WITH one AS (SELECT e.*, l.job_id, l.party_id FROM ledger_entry e JOIN ledger_line l ON l.entry_id = e.id WHERE l.callback_id = $1::uuid LIMIT 1),
         e AS (INSERT INTO ledger_entry (id, kind, happened_on, recorded_at, actor_id, memo) SELECT gen_random_uuid(), kind, happened_on, recorded_at, actor_id, memo FROM one, generate_series(1, $2::int) RETURNING id)
       INSERT INTO ledger_line (entry_id, position, account, cents, job_id, callback_id) SELECT e.id, l.position, l.account, sign(l.cents) * 7, l.job_id, l.callback_id
         FROM e, (SELECT x.* FROM one JOIN ledger_line x ON x.entry_id = one.id) l`,
      id,
      count,
    ),
  );

it('has every row where the page has a hundred, in step with the books to the cent; what somebody typed never runs', async () => {
  const [before] = (await cells('', 'money')).filter(([when]) => when === 'since the start');
  api.clock.now = new Date('2026-05-13T15:00:00Z');
  const id = await concluded(api, await visited(api));
  await on(api, 'lead', id, 'reserve', { cents: 100, words: 'x' });
  await moreEntries(id, 101);
  const { items, next } = (await get('entries')).body;
  expect([items.length >= 100, next !== null]).toEqual([true, true]);
  const lines = await cells('/entries', 'entries');
  const set = (at: number) => lines.slice(1).reduce((sum, line) => sum + Math.round(Number(line[at]) * 100), 0);
  expect([set(7), set(9)]).toEqual([Math.round(Number(before![4]) * 100) + 807, Math.round(Number(before![6]) * 100) + 807]);
  expect(lines.length).toBeGreaterThan(102);
  expect((await get('entries/table.csv?table=entries&after=x')).status).toBe(422);
  const { body } = await get('overrides/table.csv?table=overrides');
  expect(String(body)).toContain(`"'=HYPERLINK(""x"")"`);
  expect(sheetOf((await get('overrides/table.xlsx?table=overrides')).bytes).sheet).not.toContain('<f>');
});
it('tells a quarter on paper as of its end: windows of its inspections only, and whether changes worked by then', async () => {
  const inspection = (day: string) =>
    bookedVisit(api, { startsAt: `${day}T14:00:00Z`, endsAt: `${day}T17:00:00Z`, first: CAST.cora.id, second: CAST.dan.id, state: 'done' });
  const paper = async () => flat((await readPdf((await get('quarter.pdf?quarter=2026-Q2')).bytes)).pages.join(' '));
  const open = (text: string) => Number(/On 2026-06-30 windows were open for (\d+) jobs/.exec(text)![1]);
  const { id } = (await get('/open-callbacks')).body.items[0];
  const action = (number: number, title: string, changedAt: string) => ({
    ...{ id: randomUUID(), number, kind: 'training', state: 'done', title, why: 'It was missed', ownerId: CAST.lead.id },
    ...{ dueOn: new Date('2026-06-30'), recordedAt: new Date(changedAt), doneAt: new Date(changedAt), changedAt: new Date(changedAt) },
    callbacks: { create: [{ callbackId: id }] },
  });
  await api.database.transaction(async ({ db }) => {
    await db.correctiveAction.create({ data: action(9001, 'Talked about it', '2026-06-01T15:00:00Z') });
    await db.correctiveAction.create({ data: action(9002, 'Talked again', '2026-07-01T15:00:00Z') });
  });
  api.clock.now = new Date('2026-07-02T15:00:00Z');
  const before = await paper();
  await inspection('2026-06-29');
  await inspection('2026-07-01');
  const after = await paper();
  expect(open(after)).toBe(open(before) + 1);
  expect(after).toMatch(/Action 9001, .+ Before .+ After .+ Too early to tell\./);
  expect(after).not.toContain('Action 9002');
});
it.each(['exposure.xlsx', 'extract.zip'])('%s is for those who judge', async (path) => {
  for (const who of ['office', 'anna'] as const) expect((await get(path, who)).status).toBe(403);
  expect((await get(path)).status).toBe(200);
});
it.each([
  ['quarter=2031-Q1', 'quarter-not-begun'],
  ['quarter=2026-Q5', 'not-valid'],
])('refuses a report of %s', async (query, code) => expect((await get(`quarter.pdf?${query}`)).body).toMatchObject({ code }));
