// Letters of a callback by mail and on paper, and a repair by the firm itself held against the rules of the state, over HTTP.
import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import type { CastName } from '../../support/cast.ts';
import { testApi } from '../../support/http.ts';
import { flat, readPdf } from '../../support/pdf.ts';
import { withStarter } from '../../support/starter.ts';
import { concluded, on, proposed, received, visited, type Visited } from './support.ts';

const api = testApi();
withStarter(api);
let job: Visited;
beforeAll(async () => {
  job = await visited(api);
});

type Draft = { way: string; subject: string; body: string };
const letters = async (id: string) => (await api.send('office', 'GET', `/api/callbacks/${id}/letters`)).body;
const draft = async (id: string, letter: string) => {
  const drafted = await api.send('office', 'GET', `/api/callbacks/${id}/letter-drafts/${letter}`);
  expect(drafted.status, JSON.stringify(drafted.body)).toBe(200);
  return drafted.body;
};
const only = ({ way, subject, body }: Draft) => ({ way, subject, body });
const write = (who: CastName, id: string, letter: string, edited: Draft) => {
  api.clock.now = new Date(api.clock.now.getTime() + 60_000); // letters of one instant stand in no order
  return on(api, who, id, `letters/${letter}`, only(edited));
};
const look = (id: string, letter: string, edited: Draft) =>
  api.send('office', 'POST', `/api/callbacks/${id}/letter-drafts/${letter}/look`, { body: only(edited) });

describe('a callback', () => {
  it('is written to from its file: drafted, edited, sent or printed, and kept as it left', async () => {
    const id = await received(api, job, { partyId: undefined, speaker: 'tenant' });
    const tenant = await draft(id, 'acknowledgement');
    expect(tenant).toMatchObject({ way: 'paper', to: 'the tenant', email: null, calendar: false, review: null });
    expect((await write('office', id, 'acknowledgement', tenant)).status).toBe(201);
    const [kept] = await letters(id);
    expect(kept).toMatchObject({ letter: 'acknowledgement', way: 'paper', to: 'the tenant', by: 'Otto Office', mailState: null });
    const paper = await api.send('office', 'GET', `/api/callbacks/${id}/letters/${kept.id}/paper`);
    const words = flat((await readPdf(paper.bytes)).pages.join(' '));
    for (const part of [
      ...['Test Inspections', 'WI-20', 'To the tenant', 'May 12, 2026', 'without admission of responsibility'],
      ...['does not mean that we accept responsibility', 'Dear tenant,', '/complaints'],
    ])
      expect(words).toContain(part);
    expect((await api.send('anna', 'GET', `/api/callbacks/${id}/letters`)).status).toBe(403);
    expect((await api.send('office', 'GET', `/api/callbacks/${id}/letter-drafts/decision`)).body.code).toBe('callback-state');
    expect((await api.send('office', 'GET', `/api/callbacks/${id}/letter-drafts/visit`)).body.code).toBe('no-visit-booked');
    expect((await write('office', id, 'access', { ...tenant, way: 'mail' })).body).toMatchObject({
      code: 'letter-needs-address',
      field: 'way',
    });

    const mine = await received(api, job);
    const access = await draft(mine, 'access');
    expect(access).toMatchObject({ way: 'mail', to: 'Paula Prior', email: expect.stringContaining('@test.example') });
    for (const part of [
      'On May 12, 2026 you told us',
      'The garage freezer thawed',
      'not have it repaired before',
      'photograph it first',
      'days in the next two weeks',
    ])
      expect(access.body).toContain(part);
    for (const name of ['Anna', 'Ben', 'Lena']) expect(access.body).not.toContain(name);
    const edited = { ...access, body: `${access.body}\n\nThursday would suit us.` };
    expect((await look(mine, 'access', { ...edited, body: `${edited.body} Anna Inspector: arose later. [when]` })).body).toMatchObject({
      names: ['Anna Inspector', 'arose later'],
      problem: 'Still to be filled in: [when].',
    });
    expect((await look(mine, 'access', edited)).body).toMatchObject({
      names: [],
      problem: null,
      grade: expect.toSatisfy((n: number) => n <= 8),
    });
    expect((await write('office', mine, 'access', edited)).status).toBe(201);
    expect((await letters(mine))[0]).toMatchObject({
      letter: 'access',
      mailState: 'waiting',
      body: expect.stringContaining('Thursday would suit us.'),
    });
    expect((await write('office', mine, 'access', { ...edited, body: 'We come on Friday.' })).body.code).toBe('letter-without-reservation');
    expect((await write('owner', mine, 'access', { ...edited, body: 'We come on Friday.' })).status).toBe(201);
  });
  it('makes an offer only cleared and marked, and hides the key of its link once it left', async () => {
    const id = await concluded(api, job);
    await proposed(api, 'owner', id, 12_000);
    const offer = await draft(id, 'decision');
    for (const part of [
      'We offer to pay $120.00 to Paula Prior.',
      'made to settle',
      'Until June 11, 2026 you may ask an owner',
      '{{link}}',
    ])
      expect(offer.body).toContain(part);
    expect(offer.body).not.toMatch(/step|procedure|receptacles downstream/i);
    expect((await write('office', id, 'decision', offer)).body.code).toBe('payment-needs-clearance');
    expect((await look(id, 'decision', offer)).body.problem).toMatch(/^No offer, payment or refund leaves/);
    await on(api, 'owner', id, 'clearance', { kind: 'owner_reason', words: 'Far below the deductible' });
    const bare = { ...offer, body: offer.body.replace(/made to settle/, 'made') };
    expect((await write('office', id, 'decision', bare)).body.code).toBe('offer-not-marked');
    expect((await write('office', id, 'decision', offer)).status).toBe(201);
    const [mail] = await api.database.read.rows<{ body: string }>(
      `SELECT body FROM outgoing_mail WHERE about_id = $1::uuid AND kind = 'decision'`,
      [id],
    );
    expect(mail!.body).toMatch(/\/client\/after\/[\w-]{43}\n/);
    expect((await letters(id))[0].body).toMatch(/\/client\/after\/\.\.\.\n/);
  });
  it("keeps an attorney's wording between its fields, and needs no sentence of ours beside it", async () => {
    const own = { subject: 'Number {{number}}', body: 'Dear {{name}},\n\nNothing here admits anything.\n\n{{said}}\n\nYours, {{firm}}' };
    const review = { attorney: 'Ada Attorney', on: '2026-05-01' };
    const reviewed = await api.send('owner', 'POST', '/api/mail/wordings/callback_access', { body: { ...own, review } });
    expect(reviewed.status, JSON.stringify(reviewed.body)).toBe(201);
    const id = await received(api, job);
    const locked = await draft(id, 'access');
    expect(locked.review).toEqual(review);
    const changed = { ...locked, body: locked.body.replace('admits anything', 'admits much') };
    expect((await write('owner', id, 'access', changed)).body).toMatchObject({
      code: 'letter-locked-words',
      about: { missing: [', Nothing here admits anything.'] },
    });
    const more = { ...locked, body: locked.body.replace('Yours,', 'Monday is fine for us.\n\nYours,') };
    expect((await write('office', id, 'access', { ...more, body: more.body.replaceAll('Monday is fine for us.\n\n', '') })).status).toBe(
      201,
    );
  });
  it("holds the firm's own repair against the row of the state: an owner may go on with a reason where it warns", async () => {
    const id = await concluded(api, job);
    const ask = (body: object) => on(api, 'owner', id, 'remedies', { remedyId: randomUUID(), payee: '', cents: 0, ...body });
    const warned = await ask({ kind: 'own_repair' });
    expect(warned).toMatchObject({ status: 409, body: { code: 'own-repair-warned', field: 'reason' } });
    for (const part of ['Wisconsin', 'no rule seen', 'no rule was found: policy of the firm']) expect(warned.body.title).toContain(part);
    expect(
      await on(api, 'lead', id, 'remedies', {
        remedyId: randomUUID(),
        kind: 'own_repair',
        payee: '',
        cents: 0,
        reason: 'The client asked for it',
      }),
    ).toMatchObject({ body: { code: 'own-repair-warned' } });
    expect((await ask({ kind: 'own_repair', reason: 'The client wants the cover screwed on by us' })).body.state).toBe('remedy_agreed');
    expect(await api.database.read.rows(`SELECT row_key, reason FROM rule_set_aside WHERE thing_kind = 'remedy'`)).toEqual([
      { row_key: 'repairs', reason: 'The client wants the cover screwed on by us' },
    ]);
    const { property } = (await api.send('office', 'GET', `/api/jobs/${job.jobId}`)).body;
    const inState = (state: string, after: number) =>
      api.send('office', 'PUT', `/api/properties/${property.id}/state`, { version: property.version + after, body: { state } });
    expect([property.state, (await inState('US-CA', 0)).status]).toEqual(['US-WI', 200]);
    expect((await inState('US-CA', 0)).body.code).toBe('nothing-changed');
    expect((await inState('California', 1)).status).toBe(422);
    const barred = await ask({ kind: 'own_repair', reason: 'The client wants the cover screwed on by us' });
    expect(barred).toMatchObject({ status: 409, body: { code: 'own-repair-barred' } });
    expect(barred.body.title).toContain('Cal. Bus. & Prof. Code 7197(a)(1); read in an excerpt of the source');
    expect((await api.send('lead', 'GET', `/api/callbacks/${id}`)).body.ownRepair).toMatchObject({ state: 'California', bars: true });
    await inState('US-WI', 1);
  });
});
