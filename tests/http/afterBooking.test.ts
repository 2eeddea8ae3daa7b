// What cancelling and moving do beyond the job: invoices, signing links, mails to the client; and papers issued anew.
import { randomUUID } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { FACTS, holdBody, PLACE } from '../support/booking.ts';
import { testApi, type Answer } from '../support/http.ts';
import { withStarter } from '../support/starter.ts';

const api = testApi();
withStarter(api);

type Option = { startsAt: string; first: string; second: string };
const starts = async (withoutVisit: string | null = null): Promise<Option[]> =>
  (
    await api.send('office', 'POST', '/api/starts', {
      body: { place: PLACE, facts: FACTS, services: ['inspection'], fromDay: '2026-05-14', days: 10, limit: 60, withoutVisit },
      once: true,
    })
  ).body.options;
const job = async (id: string) => (await api.send('office', 'GET', `/api/jobs/${id}`)).body;
const invoice = async (id: string) => (await api.send('office', 'GET', `/api/invoices/${id}`)).body;
const balance = async (account: string) =>
  (await api.send('owner', 'GET', '/api/ledger/balance')).body.rows.find((row: { account: string }) => row.account === account);
const mails = (jobId: string, subject: string) =>
  api.database.read.rows<{ to: string; body: string }>(
    'SELECT to_address AS to, body FROM outgoing_mail WHERE about_id = $1::uuid AND subject LIKE $2 ORDER BY id',
    [jobId, `${subject}%`],
  );
const linkIn = (body: string): string => /\/client\/[\w-]{43}/.exec(body)![0];
const open = (url: string) => api.app().inject({ method: 'GET', url });

type Booked = { id: string; visitId: string; startsAt: string; invoiceId: string; client: { name: string; email: string } };

async function booked(terms: 'due_at_visit' | 'deposit' | 'due_at_booking' = 'due_at_visit'): Promise<Booked> {
  const body = holdBody((await starts())[0]!, { terms });
  const held = (await api.send('office', 'POST', '/api/jobs', { body })).body;
  const confirmed = await api.send('office', 'POST', `/api/jobs/${held.id}/confirmation`);
  expect(confirmed.status, JSON.stringify(confirmed.body)).toBe(201);
  return {
    id: held.id,
    visitId: held.visitId,
    startsAt: held.startsAt,
    invoiceId: confirmed.body.invoiceId,
    client: body.parties[0] as Booked['client'],
  };
}

const cancel = async (id: string): Promise<Answer> =>
  api.send('office', 'PUT', `/api/jobs/${id}/cancellation`, {
    version: (await job(id)).version,
    body: { reason: 'The sale fell through.' },
  });
const pay = (invoiceId: string, cents: number): Promise<Answer> =>
  api.send('office', 'POST', `/api/invoices/${invoiceId}/payments`, {
    body: { id: randomUUID(), method: 'cash', reference: '', cents, receivedOn: '2026-05-12' },
  });

describe('cancelling a booked job', () => {
  it('withdraws the unpaid invoice and takes its entry back', async () => {
    const before = (await balance('receivable'))?.debit ?? 0;
    const done = await booked();
    expect((await balance('receivable')).debit).toBe(before + 46_500);
    expect((await cancel(done.id)).status).toBe(200);
    expect(await invoice(done.invoiceId)).toMatchObject({ state: 'withdrawn', openCents: 0, toGiveBackCents: 0 });
    expect((await balance('receivable'))?.debit ?? 0).toBe(before);
    expect(await job(done.id)).toMatchObject({ state: 'cancelled', invoice: { state: 'withdrawn' } });
    for (const path of ['invoices', 'agreement'])
      expect(await api.send('office', 'POST', `/api/jobs/${done.id}/${path}`, { body: {} })).toMatchObject({
        status: 409,
        body: { code: 'job-is' },
      });
  });
  it.each(['due_at_visit', 'deposit'] as const)(
    'keeps what was paid under the terms %s as to be given back, until it is',
    async (terms) => {
      const done = await booked(terms);
      const paid = await pay(done.invoiceId, 20_000);
      expect(await api.send('office', 'POST', `/api/payments/${paid.body.id}/reversal`, { body: { reason: 'given_back' } })).toMatchObject({
        status: 409,
        body: { code: 'invoice-stands' },
      });
      await cancel(done.id);
      expect(await invoice(done.invoiceId)).toMatchObject({ state: 'withdrawn', openCents: 0, toGiveBackCents: 20_000 });
      expect(await pay(done.invoiceId, 1)).toMatchObject({ status: 409, body: { code: 'invoice-not-open' } });
      const { body: owed } = await api.send('owner', 'GET', '/api/receivables');
      expect(owed).toMatchObject({ back: [{ id: done.invoiceId }], backCents: 20_000 });
      const [mail] = await mails(done.id, 'Your appointment is cancelled');
      expect(mail!.body).toContain('You have paid $200.00. We give it back to you');
      expect(await api.send('office', 'POST', `/api/payments/${paid.body.id}/reversal`, { body: { reason: 'given_back' } })).toMatchObject({
        status: 201,
        body: { openCents: 0 },
      });
      expect(await invoice(done.invoiceId)).toMatchObject({ state: 'withdrawn', openCents: 0, toGiveBackCents: 0 });
      expect((await api.send('owner', 'GET', '/api/receivables')).body.back).toEqual([]);
      const lines = await api.database.read.rows<{ account: string; cents: number }>(
        'SELECT account, sum(cents)::int AS cents FROM ledger_line WHERE job_id = $1::uuid GROUP BY account ORDER BY account',
        [done.id],
      );
      expect(
        lines.every(({ cents }) => cents === 0),
        JSON.stringify(lines),
      ).toBe(true);
    },
  );
  it('tells the client once, with the phone of the firm, and closes the link with a plain sentence', async () => {
    const done = await booked();
    const link = linkIn((await mails(done.id, 'Agreement for'))[0]!.body);
    const sha256 = /name="sha256" value="(\w{64})"/.exec((await open(link)).body)![1]!;
    const signer = (await api.send('office', 'GET', `/api/jobs/${done.id}/agreement`)).body.agreement.signers[0];
    await cancel(done.id);
    const told = await mails(done.id, 'Your appointment is cancelled');
    expect(told.map(({ to }) => to)).toEqual([done.client.email]);
    for (const words of [`Dear ${done.client.name}`, 'was cancelled', '2026', 'nothing left to sign', '920-555-01'])
      expect(told[0]!.body).toContain(words);
    expect(told[0]!.body).not.toContain('The sale fell through');
    const page = await open(link);
    expect([page.statusCode, page.body.includes('This appointment was cancelled'), page.body.includes('<form')]).toEqual([
      410,
      true,
      false,
    ]);
    const signing = await api.app().inject({
      method: 'POST',
      url: link,
      headers: { 'content-type': 'application/x-www-form-urlencoded' },
      payload: new URLSearchParams({ name: 'A B', read: 'yes', consent: 'yes', sha256 }).toString(),
    });
    expect([signing.statusCode, signing.body.includes('This appointment was cancelled')]).toEqual([410, true]);
    const paper = { id: randomUUID(), method: 'paper', name: 'A B', consent: false, keptWhere: 'Folder of the job' };
    expect(await api.send('office', 'POST', `/api/signers/${signer.id}/signature`, { body: paper })).toMatchObject({
      status: 409,
      body: { code: 'appointment-cancelled' },
    });
    expect(await api.send('office', 'POST', `/api/signers/${signer.id}/link`, { body: { asked: true } })).toMatchObject({
      status: 409,
      body: { code: 'appointment-cancelled' },
    });
  });
  it('writes to nobody about a time that was only held', async () => {
    const held = (await api.send('office', 'POST', '/api/jobs', { body: holdBody((await starts())[0]!) })).body;
    expect((await cancel(held.id)).status).toBe(200);
    expect(await mails(held.id, '')).toEqual([]);
  });
});

describe('moving a booked visit', () => {
  const move = async (done: Booked) => {
    const to = (await starts(done.visitId)).find((o) => o.startsAt.slice(0, 10) > done.startsAt.slice(0, 10))!;
    const version = (await job(done.id)).visits[0].version;
    expect(
      await api.send('office', 'PUT', `/api/visits/${done.visitId}/start`, {
        version,
        body: { startsAt: to.startsAt, first: to.first, second: to.second },
      }),
    ).toMatchObject({ status: 200, body: { warnings: [] } });
    return to;
  };
  const agreementOf = async (id: string) => (await api.send('office', 'GET', `/api/jobs/${id}/agreement`)).body.agreement;
  it('tells the client the new time, and issues the agreement that nobody signed yet with it', async () => {
    const done = await booked();
    const before = await agreementOf(done.id);
    await move(done);
    const after = await agreementOf(done.id);
    expect([after.issues, after.id === before.id, after.body === before.body]).toEqual([2, false, false]);
    const [told] = await mails(done.id, 'The new time of your appointment');
    expect(told!.to).toBe(done.client.email);
    for (const words of ['was moved. The new time is ', 'you get a new one to read and sign', 'will come', '920-555-01'])
      expect(told!.body).toContain(words);
    expect(await mails(done.id, 'Agreement for')).toHaveLength(2);
  });
  it('asks whoever opens anew, and names no walk-through to a client who stays away', async () => {
    const done = await booked();
    const access = async () => (await job(done.id)).needs.find(({ kind }: { kind: string }) => kind === 'access');
    const settled = { state: 'settled', who: 'Sven Seller', opener: 'Sven Seller', opensAt: done.startsAt };
    const version = async () => (await job(done.id)).version;
    expect((await api.send('office', 'PUT', `/api/jobs/${done.id}/access`, { version: await version(), body: settled })).status).toBe(200);
    const away = { attendees: '', arrives: 'not_at_all' };
    await api.send('office', 'PUT', `/api/jobs/${done.id}/attendance`, { version: await version(), body: away });
    expect(await access()).toMatchObject({ state: 'settled' });
    await move(done);
    expect(await access()).toMatchObject({ state: 'open', settledBy: null, details: { who: 'Sven Seller' } });
    const desk = (await api.send('office', 'GET', `/api/jobs/${done.id}/desk`)).body;
    expect(desk.access).toMatchObject({ opener: 'Sven Seller', opensAt: null });
    expect((await mails(done.id, 'The new time of your appointment'))[0]!.body).not.toContain('walk-through');
  });
  it('leaves a signed agreement as it is, and says so', async () => {
    const done = await booked();
    const before = await agreementOf(done.id);
    await api.send('office', 'POST', `/api/signers/${before.signers[0].id}/signature`, {
      body: { id: randomUUID(), method: 'paper', name: done.client.name, consent: false, keptWhere: 'Folder of the job' },
    });
    await move(done);
    expect(await agreementOf(done.id)).toMatchObject({ id: before.id, issues: 1 });
    expect((await job(done.id)).papersDiffer).toEqual([]);
    const [told] = await mails(done.id, 'The new time of your appointment');
    expect(told!.body).toContain('The agreement as signed stays in force; only the time is the new one.');
    await move(done);
    expect(await mails(done.id, 'The new time of your appointment')).toHaveLength(2);
  });
});

describe('papers after something was learned', () => {
  const larger = { ...FACTS, livingArea: 3200, foundation: ['crawl_space'] };
  const learn = async (id: string, facts: object = larger): Promise<Answer> =>
    api.send('office', 'PUT', `/api/jobs/${id}/facts`, { version: (await job(id)).version, body: { facts } });
  const again = (id: string, who: 'office' | 'lead' | 'anna' = 'office'): Promise<Answer> =>
    api.send(who, 'POST', `/api/jobs/${id}/papers`);
  const agreementOf = async (id: string) => (await api.send('office', 'GET', `/api/jobs/${id}/agreement`)).body.agreement;
  it('differ until they are issued anew: the signed agreement is replaced and wanted again, the unpaid invoice withdrawn', async () => {
    const done = await booked();
    expect((await job(done.id)).papersDiffer).toEqual([]);
    const [signer] = (await agreementOf(done.id)).signers;
    await api.send('office', 'POST', `/api/signers/${signer.id}/signature`, {
      body: { id: randomUUID(), method: 'paper', name: done.client.name, consent: false, keptWhere: 'Folder of the job' },
    });
    expect((await learn(done.id)).body.warnings.map(({ code }: { code: string }) => code)).toContain('papers-differ');
    expect((await job(done.id)).papersDiffer).toEqual([
      'The agreement differs from the job in the fee.',
      'The fee is $710.00, and $465.00 is invoiced.',
    ]);
    expect((await again(done.id, 'anna')).status).toBe(403);
    const issued = await again(done.id);
    expect(issued.status, JSON.stringify(issued.body)).toBe(201);
    const page = await job(done.id);
    expect(page).toMatchObject({
      papersDiffer: [],
      agreement: { id: issued.body.agreementId, signed: 0 },
      invoice: { id: issued.body.invoiceId, totalCents: 71_000 },
    });
    expect(page.needs.find(({ kind }: { kind: string }) => kind === 'signature')).toMatchObject({ state: 'open' });
    expect(await invoice(done.invoiceId)).toMatchObject({ state: 'withdrawn', toGiveBackCents: 0 });
    expect((await agreementOf(done.id)).body).toContain('Fee: $710.00');
    expect((await again(done.id, 'lead')).body).toMatchObject({ agreementId: issued.body.agreementId, invoiceId: issued.body.invoiceId });
  });
  it('keep what was paid, and ask for the difference; under payment at booking it is wanted before the visit', async () => {
    const done = await booked('due_at_booking');
    await pay(done.invoiceId, 46_500);
    await learn(done.id);
    const { body } = await again(done.id);
    expect(await invoice(body.invoiceId)).toMatchObject({ totalCents: 24_500, openCents: 24_500 });
    const page = await job(done.id);
    expect(page.papersDiffer).toEqual([]);
    expect(page.needs.find(({ kind }: { kind: string }) => kind === 'payment')).toMatchObject({ state: 'open' });
  });
  it('are no matter of a job that was only held or that is cancelled', async () => {
    const held = (await api.send('office', 'POST', '/api/jobs', { body: holdBody((await starts())[0]!) })).body;
    await learn(held.id);
    expect((await job(held.id)).papersDiffer).toEqual([]);
    expect(await again(held.id)).toMatchObject({ status: 409, body: { code: 'job-is' } });
    await cancel(held.id);
    expect(await again(held.id)).toMatchObject({ status: 409, body: { code: 'job-is' } });
  });
});
