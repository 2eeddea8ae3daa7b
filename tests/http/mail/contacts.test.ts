// Contacts, how people are reached, and the insurer's certificate, over HTTP.
import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { deskOf } from '../../support/desk.ts';
import { testApi } from '../../support/http.ts';
import { withStarter } from '../../support/starter.ts';

const api = testApi();
withStarter(api);
const desk = deskOf(api);
let job: { id: string };
let client: { partyId: string; name: string };
const contacts = async (who: 'office' | 'owner' | 'lead' = 'office') => (await api.send(who, 'GET', `/api/jobs/${job.id}/contacts`)).body;
const log = (more: object = {}, who: 'office' | 'anna' = 'office') =>
  api.send(who, 'POST', `/api/jobs/${job.id}/contacts`, {
    body: {
      id: randomUUID(),
      callbackId: null,
      partyId: client.partyId,
      channel: 'call',
      outcome: 'left_word',
      words: null,
      happenedAt: null,
      ...more,
    },
  });
beforeAll(async () => {
  job = await desk.booked();
  [client] = (await desk.job(job.id)).parties.filter(({ role }: { role: string }) => role === 'client');
}, 60_000);

describe('a contact', () => {
  it('is logged in one act and stands beside the mails, the newest first', async () => {
    expect((await log({ words: 'Key is with the neighbor' })).status).toBe(201);
    const { contacts: rows } = await contacts();
    expect(rows[0]).toMatchObject({
      channel: 'call',
      state: 'left_word',
      words: 'Key is with the neighbor',
      by: 'Otto Office',
      who: client.name,
    });
    expect(rows.some(({ channel }: { channel: string }) => channel === 'mail')).toBe(true);
  });
  it.each([
    ['with somebody who is not on the job', { partyId: randomUUID() }, 422, 'contact-not-of-job'],
    ['before it was made', { happenedAt: '2027-01-01T00:00:00Z' }, 422, 'contact-ahead'],
    ['about a callback of nobody', { callbackId: randomUUID() }, 404, 'not-found'],
    ['by pigeon', { channel: 'pigeon' }, 422, 'invalid'],
    ['in two lines', { words: 'a\nb' }, 422, 'invalid'],
  ])('is refused %s', async (_, more, status, code) => {
    const answer = await log(more);
    expect([answer.status, answer.body.code === code || code === 'invalid']).toEqual([status, true]);
  });
  it('is not for an inspector, and is never changed', async () => {
    expect((await log({}, 'anna')).status).toBe(403);
    await expect(api.database.transaction(({ db }) => db.contactNote.updateMany({ data: { outcome: 'reached' } }))).rejects.toThrow();
  });
  it('is on the list of people to call, with what is to be minded and a text', async () => {
    const change = { language: 'Spanish', assistance: 'interpreter', largePrint: true };
    expect((await api.send('office', 'PATCH', `/api/parties/${client.partyId}`, { body: change })).status).toBe(200);
    expect((await api.send('office', 'PATCH', `/api/parties/${client.partyId}`, { body: { assistance: 'shouting' } })).status).toBe(422);
    const people = (await api.send('lead', 'GET', '/api/contacts?days=14')).body;
    const found = people.find((one: { partyId: string }) => one.partyId === client.partyId);
    expect(found).toMatchObject({ ...change, last: { channel: 'call', outcome: 'left_word' } });
    expect(found.text).toContain('your appointment at');
    expect((await desk.job(job.id)).parties.find((p: { partyId: string }) => p.partyId === client.partyId)).toMatchObject(change);
  });
});

describe('the insurer’s certificate', () => {
  const pdf = Buffer.from('%PDF-1.7 insured').toString('base64');
  const send = (partyId = client.partyId) => api.send('office', 'POST', `/api/jobs/${job.id}/certificate`, { body: { partyId } });
  const add = (policyId: string, base64 = pdf) =>
    api.send('office', 'POST', '/api/certificates', { body: { id: randomUUID(), policyId, file: { name: 'acord.pdf', base64 } } });
  it('is sent from the job once one in force is on file, and the log shows it', async () => {
    expect((await send()).body).toMatchObject({ code: 'certificate-missing' });
    const policy = {
      id: randomUUID(),
      kind: 'general',
      insurer: 'Lakeside Mutual',
      number: 'LM-7',
      basis: 'occurrence',
      startsOn: '2026-01-01',
      endsOn: '2026-12-31',
      retroactiveOn: null,
      limitCents: 1,
      deductibleCents: 0,
      reportable: 'x',
      noticeAddress: 'x',
    };
    await api.database.transaction(({ db }) =>
      db.insurancePolicy.create({ data: { ...policy, startsOn: new Date(policy.startsOn), endsOn: new Date(policy.endsOn) } }),
    );
    expect((await add(randomUUID())).status).toBe(404);
    expect((await add(policy.id, Buffer.from('<html>').toString('base64'))).body).toMatchObject({ code: 'certificate-kind' });
    // Whoever may put one on file may choose the policy, and reads none of its amounts.
    const { id, kind, insurer, number } = policy;
    expect((await api.send('office', 'GET', '/api/certificates/policies')).body).toContainEqual({ id, kind, insurer, number });
    expect((await add(policy.id)).status).toBe(201);
    expect((await send(randomUUID())).status).toBe(404);
    expect((await send()).body).toEqual({ sent: 1 });
    expect((await contacts()).contacts).toContainEqual(
      expect.objectContaining({ channel: 'mail', who: client.name, words: expect.stringContaining('Certificate') }),
    );
    const mails = (await api.send('office', 'GET', '/api/mail?limit=100')).body.items;
    const mail = mails.find(({ kind }: { kind: string }) => kind === 'certificate');
    expect(mail).toMatchObject({ kind: 'certificate', attachments: ['acord.pdf'] });
    expect(mail.body).toContain('Lakeside Mutual, LM-7');
    const [listed] = (await api.send('lead', 'GET', '/api/certificates')).body;
    expect(listed).toMatchObject({ policy: 'Lakeside Mutual, LM-7', name: 'acord.pdf' });
    expect((await api.send('lead', 'GET', `/api/certificates/${listed.id}/file`)).status).toBe(200);
  });
});
