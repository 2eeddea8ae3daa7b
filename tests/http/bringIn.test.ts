// Spreadsheets that are taken in and looked through: what their columns are, what is wrong with them, and that nothing comes of it yet.
import { randomUUID } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { oldSpreadsheets } from '../../apps/api/src/jobs/bringIns.ts';
import { bringInOf, pastJob, pastJobs, rowsOf } from '../support/bringIn.ts';
import { testApi } from '../support/http.ts';
import { servicesOf } from '../support/services.ts';
import { withStarter } from '../support/starter.ts';

const api = testApi();
withStarter(api);
const { work, one, take, check, act, problems } = bringInOf(api);

describe('a spreadsheet that is taken in', () => {
  it('has its columns guessed from heads in any order, and shows its first rows', async () => {
    const id = await take('clients', 'Cell phone;E-Mail Address;Surname;First Name\n920-555-0171;kim@mail.example;Tamsin;Kim\n');
    const found = await one(id);
    expect(found).toMatchObject({ state: 'to_map', parting: ';', rows: 1, missing: [], letters: 'UTF-8' });
    expect(found.mapping.columns).toEqual({ phone: 0, email: 1, lastName: 2, firstName: 3 });
    expect(found.examples).toEqual([{ line: 2, cells: ['920-555-0171', 'kim@mail.example', 'Tamsin', 'Kim'] }]);
  });
  it('asks for what is needed and has no column, and for each column once', async () => {
    const id = await take('properties', 'Where,City\n1 Elm Street,Birchmere\n');
    const put = (body: object) => api.send('office', 'PUT', `/api/bring-ins/${id}/mapping`, { version: 1, body });
    const formats = { days: 'mdy', money: 'dollars' };
    expect(await put({ columns: { town: 1 }, formats })).toMatchObject({
      status: 422,
      body: { code: 'sheet-columns-missing', about: { fields: ['Street address'] } },
    });
    expect(await put({ columns: { town: 1, address: 1 }, formats })).toMatchObject({ body: { code: 'sheet-column-twice' } });
    expect(await put({ columns: { town: 1, address: 7 }, formats })).toMatchObject({ body: { code: 'sheet-column-none' } });
    expect(await put({ columns: { cat: 0 }, formats })).toMatchObject({ body: { code: 'sheet-field-none' } });
    expect(await put({ columns: { town: 1, address: 0 }, formats })).toMatchObject({ status: 200 });
  });
  it.each([
    ['a workbook', Buffer.from([0x50, 0x4b, 0x03, 0x04, 1, 2]), 'This is a workbook'],
    ['a head alone', 'Name,Email\n', 'There is one line only'],
    ['blank lines', '\n\n  \n', 'There is nothing in this file.'],
    ['two columns under one head', 'Name,email,Email\nA,b@c.example,d@e.example\n', 'Two columns have the head "Email"'],
    [
      'a quotation mark that never ends',
      'Name,Email\n"A,b@c.example\nB,c@d.example\n',
      'In line 2 a cell begins with a quotation mark and never ends',
    ],
    ['a zero character', Buffer.from('Name,Email\nA,b\u0000c@d.example\n'), 'In line 2 stands a character that no text has'],
  ])('is refused where it is %s', async (_, bytes, says) => {
    const file = { name: 'x.csv', base64: Buffer.from(bytes).toString('base64') };
    const answer = await api.send('office', 'POST', '/api/bring-ins', { body: { id: randomUUID(), kind: 'clients', file } });
    expect(answer).toMatchObject({ status: 422, body: { code: 'sheet-not-read' } });
    expect(answer.body.title).toContain(says);
  });
  it('is refused where it is larger than 20 MB, and where it is far larger', async () => {
    const sent = (bytes: number) =>
      api.send('office', 'POST', '/api/bring-ins', { once: true, body: { id: randomUUID(), kind: 'clients', text: 'x'.repeat(bytes) } });
    expect((await sent(21_000_000)).body.title).toBe(
      'The file has 21 MB; at most 20 MB are taken in at once. Part it, and keep the first line in each part.',
    );
    expect(await sent(46_000_000)).toMatchObject({ status: 413 });
  }, 120_000);
  it('is for owners and the office alone', async () => {
    for (const who of ['lead', 'anna'] as const) {
      expect(await api.send(who, 'GET', '/api/bring-ins')).toMatchObject({ status: 403 });
      expect(
        await api.send(who, 'POST', '/api/bring-ins', { body: { id: randomUUID(), kind: 'clients', text: 'Name\nA\n' } }),
      ).toMatchObject({ status: 403 });
    }
  });
  it('can be thrown away until it is brought in, and loses its file a week later', async () => {
    const id = await take('clients', 'Name,Phone\nNell Arden,920-555-0172\n');
    expect(await act(id, 'throw-away')).toMatchObject({ status: 200 });
    expect(await one(id)).toMatchObject({ state: 'thrown_away', hasFile: true });
    expect(await act(id, 'throw-away')).toMatchObject({ status: 409, body: { code: 'bring-in-is' } });
    const before = api.clock.now;
    api.clock.now = new Date(before.getTime() + 8 * 86_400_000);
    await oldSpreadsheets.run(servicesOf(api));
    expect(await one(id)).toMatchObject({ hasFile: false });
    api.clock.now = before;
  });
});

describe('looking through', () => {
  it('says every problem by line and column, and brings nothing in', async () => {
    const before = await rowsOf(api);
    const id = await take(
      'jobs',
      pastJobs(
        pastJob(1, { date: '2/30/2025' }),
        pastJob(2, { email: 'nobody', phone: '12' }),
        pastJob(3, { service: 'Chimney sweep' }),
        pastJob(4, { first: 'Nobody Known' }),
        pastJob(5, { zip: '1' }),
        pastJob(6, { report: '3/1/2025' }),
        pastJob(7, { date: '1/1/2027', report: '' }),
        pastJob(8, { fee: '450,00' }),
        pastJob(9, { city: 'Nowhereville' }),
        pastJob(10, { second: 'Anna Inspector' }),
        `${pastJob(11)},more`,
        pastJob(12, { fee: '45000' }),
        pastJob(12),
      ),
    );
    const found = await check(id);
    expect(found).toMatchObject({ state: 'checked', counts: { rows: 13, fresh: 2, left: 10, known: 1, clients: 2, properties: 2 } });
    const said = (await problems(id)).map(({ line, column, weight }) => `${line} ${column} ${weight}`);
    expect(said).toEqual(
      expect.arrayContaining([
        ...[
          '2 Date stops',
          '3 Email stops',
          '3 Phone stops',
          '4 Service stops',
          '5 Inspector stops',
          '6 Zip stops',
          '7 Report date stops',
          '8 Date stops',
        ],
        ...['9 Fee stops', '10 City stops', '11 Partner look', '12  stops', '13 Fee look', '14  known'],
      ]),
    );
    expect(await rowsOf(api)).toEqual(before);
    const csv = await api.send('office', 'GET', `/api/bring-ins/${id}/problems.csv`);
    expect(csv.headers['content-type']).toContain('text/csv');
    expect(String(csv.body).split('\r\n').length).toBe((await problems(id)).length + 2);
    expect(await act(id, 'bring', { leaveOut: false })).toMatchObject({
      status: 409,
      body: { code: 'bring-in-left-out', about: { left: 10 } },
    });
  });
  it('reads what a spreadsheet of a Windows machine saved', async () => {
    const wide = Buffer.from(`\uFEFFName\tPhone\r\nZoë Ångström\t920-555-0173\r\n`, 'utf16le');
    const id = await take('clients', wide);
    expect(await one(id)).toMatchObject({ letters: 'UTF-16', parting: '\t', examples: [{ cells: ['Zoë Ångström', '920-555-0173'] }] });
    const old = Buffer.from('Name;Phone\r\nZo\u00eb;920-555-0174\r\n', 'latin1');
    expect(await one(await take('clients', old))).toMatchObject({
      letters: 'Windows-1252',
      examples: [{ cells: ['Zoë', '920-555-0174'] }],
    });
  });
  it('is done anew for a service that was killed while it was at it', async () => {
    const id = await take('clients', 'Name,Phone\nIda Fenn,920-555-0175\n');
    const { version, mapping } = await one(id);
    await api.send('office', 'PUT', `/api/bring-ins/${id}/mapping`, { version, body: mapping });
    await api.database.transaction(({ db }) =>
      db.bringIn.update({ where: { id }, data: { leaseBy: randomUUID(), leaseUntil: new Date(api.clock.now.getTime() + 30_000) } }),
    );
    await work();
    expect(await one(id)).toMatchObject({ state: 'checking' });
    api.clock.now = new Date(api.clock.now.getTime() + 31_000);
    await work();
    expect(await one(id)).toMatchObject({ state: 'checked', counts: { fresh: 1 } });
  });
});
