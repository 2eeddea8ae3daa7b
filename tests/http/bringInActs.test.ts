// Bringing records in from a spreadsheet: everything or nothing, what jobs of before count for, and taking it out again.
import { randomUUID } from 'node:crypto';
import pg from 'pg';
import { describe, expect, it } from 'vitest';
import { rebuildFigures } from '@backsight/usecases/liability/figures';
import { bringInOf, pastJob, pastJobs, rowsOf } from '../support/bringIn.ts';
import { deskOf } from '../support/desk.ts';
import { testApi } from '../support/http.ts';
import { servicesOf } from '../support/services.ts';
import { withStarter } from '../support/starter.ts';

const api = testApi();
withStarter(api);
const { held } = deskOf(api);
const { work, one, take, check, act, bring } = bringInOf(api);

describe('bringing in', () => {
  it('adds people without a password, who are invited as others are, and whom the office may not make owners', async () => {
    const text =
      'Name,E-mail,Phone,Role,Start date\nPia Newcomer,pia@test.example,920-555-0176,inspector,4/1/2024\nOla Boss,ola@test.example,920-555-0177,owner,\nAnna Again,ANNA@test.example,920-555-0178,,\n';
    const asOffice = await take('people', text);
    expect(await check(asOffice)).toMatchObject({ counts: { fresh: 1, left: 1, known: 1 } });
    const id = await bring('people', text, { who: 'owner' });
    expect(await one(id)).toMatchObject({ counts: { fresh: 2, left: 0, known: 1 } });
    const people = (await api.send('owner', 'GET', '/api/people')).body as {
      name: string;
      id: string;
      startedOn: string;
      canSignIn: boolean;
      roles: string[];
    }[];
    const pia = people.find(({ name }) => name === 'Pia Newcomer')!;
    expect(pia).toMatchObject({ startedOn: '2024-04-01', canSignIn: false, roles: ['inspector'] });
    expect(await act(id, 'undo', undefined, 'owner')).toMatchObject({ status: 200 });
    await work();
    expect(await one(id, 'owner')).toMatchObject({ state: 'undone' });
    expect(((await api.send('owner', 'GET', '/api/people')).body as { id: string }[]).some((one) => one.id === pia.id)).toBe(false);
  });
  it('adds properties with what is known of them, and takes them out with it', async () => {
    const before = await rowsOf(api);
    const id = await bring('properties', 'Street,Town,Year built,Sq ft\n77 Sedge Lane,Birchmere,1931,1400\n77 sedge ln.,Birchmere,,\n');
    expect(await one(id)).toMatchObject({ counts: { fresh: 1, known: 1 } });
    expect((await rowsOf(api)).written[3]).toBe(before.written[3]! + 1);
    expect((await api.send('office', 'GET', `/api/bring-ins/${id}/records`)).body.items).toMatchObject([
      { name: '77 Sedge Lane', about: 'Birchmere 54901' },
    ]);
    expect(await act(id, 'undo')).toMatchObject({ status: 200 });
    await work();
    expect(await rowsOf(api)).toEqual(before);
  });
  it('adds jobs that lists, search and history show, and that owe, send and open nothing', async () => {
    const before = await rowsOf(api);
    const id = await bring(
      'jobs',
      pastJobs(
        pastJob(20),
        pastJob(21, { time: '', first: 'Inspector, Cora; Dan Inspector', second: '', report: '', fee: '' }),
        pastJob(22, { address: '20 Alder Way', date: '4/1/2025', report: '' }),
      ),
    );
    const after = await rowsOf(api);
    expect(after.never).toEqual(before.never);
    const [, parties, houses, , jobs] = after.written.map((n, at) => n - before.written[at]!);
    expect({ parties, houses, jobs }).toEqual({ parties: 3, houses: 2, jobs: 3 });
    const listed = (await api.send('office', 'GET', '/api/jobs?text=alder')).body.items;
    expect(listed.map((line: { state: string; totalCents: number }) => [line.state, line.totalCents])).toEqual([
      ['reported', 45_000],
      ['reported', 0],
      ['reported', 45_000],
    ]);
    const found = (await api.send('office', 'GET', '/api/find?q=alder')).body;
    expect(JSON.stringify(found)).toContain('2025-04-01');
    const first = (await api.send('office', 'GET', `/api/bring-ins/${id}/records`)).body.items.at(0);
    const page = (await api.send('office', 'GET', `/api/jobs/${first.jobId}`)).body;
    expect(page).toMatchObject({
      state: 'reported',
      past: { reference: expect.stringMatching(/^A-2/), by: 'Otto Office' },
      visits: [{ state: 'before' }],
      needs: [],
      invoice: null,
      property: { inspectedBefore: true },
    });
    expect(page.visits[0].pair.map(({ name }: { name: string }) => name)).toEqual(['Anna Inspector', 'Ben Inspector']);
  });
  it('leaves rates alone and opens claim windows', async () => {
    const services = servicesOf(api);
    const windows = () =>
      api.database.read.rows<{ on: string; delivered: string | null }>(
        'SELECT inspected_on::text AS on, delivered_on::text AS delivered FROM job_window ORDER BY 1',
      );
    await rebuildFigures(services, true);
    const before = (await windows()).length;
    const rates = () => api.database.read.rows("SELECT measure, amount FROM job_figures('-infinity', 'infinity', ARRAY['all'])");
    const was = await rates();
    await bring('jobs', pastJobs(pastJob(30, { date: '7/4/2025', report: '7/6/2025' })));
    expect(await rates()).toEqual(was);
    const now = await windows();
    expect(now).toHaveLength(before + 1);
    expect(now).toContainEqual({ on: '2025-07-04', delivered: '2025-07-06' });
  });
  it('is everything or nothing: one row that the database refuses, and none is there', async () => {
    const before = await rowsOf(api);
    const id = await take('jobs', pastJobs(pastJob(40), pastJob(41)));
    await check(id);
    const owner = new pg.Client({ connectionString: api.url });
    await owner.connect();
    await owner.query(`ALTER TABLE past_job ADD CONSTRAINT not_this_one CHECK (reference <> 'A-41')`);
    expect(await act(id, 'bring', { leaveOut: false })).toMatchObject({ status: 200 });
    await work();
    expect(await one(id)).toMatchObject({ state: 'checked', note: expect.stringContaining('nothing was brought in'), hasFile: true });
    expect(await rowsOf(api)).toEqual(before);
    await owner.query('ALTER TABLE past_job DROP CONSTRAINT not_this_one');
    await owner.end();
    expect(await act(id, 'bring', { leaveOut: false })).toMatchObject({ status: 200 });
    await work();
    expect(await one(id)).toMatchObject({ state: 'done', counts: { fresh: 2 } });
  });
  it('comes to nothing where what is on file has changed since, and says so', async () => {
    const id = await take('clients', 'Name,Email\nUna Late,una@mail.example\nOva Late,ova@mail.example\n');
    await check(id);
    await api.database.transaction(({ db }) =>
      db.party.create({ data: { id: randomUUID(), name: 'Una Late', email: 'una@mail.example', recordedAt: api.clock.now } }),
    );
    await act(id, 'bring', { leaveOut: false });
    await work();
    expect(await one(id)).toMatchObject({ state: 'checked', note: expect.stringContaining('What is on file has changed') });
    expect(await check(id)).toMatchObject({ counts: { fresh: 1, known: 1 } });
  });
  it('brings rows once, however often it is asked', async () => {
    const text = pastJobs(pastJob(60));
    await bring('jobs', text);
    const again = await take('jobs', text);
    expect(await check(again)).toMatchObject({ counts: { fresh: 0, known: 1 } });
    expect(await act(again, 'bring', { leaveOut: true })).toMatchObject({ status: 409, body: { code: 'bring-in-nothing' } });
  });
});

describe('taking out again', () => {
  it('removes everything that came with jobs', async () => {
    const before = await rowsOf(api);
    const id = await bring('jobs', pastJobs(pastJob(70), pastJob(71)));
    expect(await act(id, 'undo')).toMatchObject({ status: 200 });
    await work();
    expect(await one(id)).toMatchObject({ state: 'undone' });
    expect(await rowsOf(api)).toEqual(before);
  });
  it('is refused with the reason as soon as something depends on it', async () => {
    const id = await bring('jobs', pastJobs(pastJob(80, { client: 'Gesa Holder', email: 'gesa@mail.example' })));
    const { items } = (await api.send('office', 'GET', `/api/bring-ins/${id}/depends`)).body;
    expect(items).toEqual([]);
    const [party] = await api.database.read.rows<{ id: string }>("SELECT id::text AS id FROM party WHERE email = 'gesa@mail.example'");
    await held({ parties: [{ id: party!.id, role: 'client' }] }, { fromDay: '2026-05-21', days: 1 });
    const refused = await act(id, 'undo');
    expect(refused).toMatchObject({ status: 409, body: { code: 'bring-in-depended-on' } });
    expect(refused.body.title).toContain('Gesa Holder stands on another job');
    expect((await api.send('office', 'GET', `/api/bring-ins/${id}/depends`)).body.items).toContainEqual({
      record: 'Gesa Holder',
      because: 'stands on another job',
    });
    expect(await one(id)).toMatchObject({ state: 'done' });
  });
});

describe('the audit trail', () => {
  it('has one line for what was brought in, with its counts', async () => {
    const id = await bring('clients', 'Name,Phone\nMaud Weir,920-555-0179\nNed Weir,920-555-0180\n');
    const { items } = (await api.send('owner', 'GET', `/api/audit?thingKind=spreadsheet&thingId=${id}`)).body;
    const wrote = items.filter(({ operation }: { operation: string }) => operation === 'firm.bring-in-write');
    expect(wrote).toMatchObject([{ done: 'Brought records in from a spreadsheet', details: { kind: 'clients', fresh: 2 } }]);
    expect(wrote[0].thingName).toBe('spreadsheet Clients, pasted');
  });
});
