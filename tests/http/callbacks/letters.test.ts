// Letters of a callback on paper, and a repair by the firm itself held against the rules of the state, over HTTP.
import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { testApi } from '../../support/http.ts';
import { flat, readPdf } from '../../support/pdf.ts';
import { withStarter } from '../../support/starter.ts';
import { concluded, on, received, visited, type Visited } from './support.ts';

const api = testApi();
withStarter(api);
let job: Visited;
beforeAll(async () => {
  job = await visited(api);
});

describe('a callback', () => {
  it('is answered for paper where nobody could be mailed to, in the same words', async () => {
    const id = await received(api, job, { partyId: undefined, speaker: 'tenant' });
    const paper = (letter: string) => api.send('office', 'GET', `/api/callbacks/${id}/letters/${letter}`);
    expect((await paper('acknowledgement')).status).toBe(404);
    const wrote = await on(api, 'office', id, 'letters/acknowledgement');
    expect(wrote.status).toBe(201);
    const read = await readPdf((await paper('acknowledgement')).bytes);
    const words = flat(read.pages.join(' '));
    for (const part of [
      'Test Inspections',
      'WI-20',
      'WI-21',
      'To the tenant',
      'May 12, 2026',
      'does not mean that we accept responsibility',
    ])
      expect(words).toContain(part);
    expect(await on(api, 'office', id, 'letters/decision', { words: 'We pay the food.' })).toMatchObject({
      body: { code: 'callback-state' },
    });
    expect((await api.send('office', 'GET', `/api/callbacks/${id}`)).body.letters).toMatchObject([
      { letter: 'acknowledgement', way: 'paper', to: 'the tenant' },
    ]);
    const decided = await concluded(api, job);
    expect(await on(api, 'office', decided, 'letters/decision', { words: ' ' })).toMatchObject({ status: 422 });
    expect((await on(api, 'office', decided, 'letters/decision', { words: 'We pay the thawed food.' })).status).toBe(201);
    const letter = flat(
      (await readPdf((await api.send('office', 'GET', `/api/callbacks/${decided}/letters/decision`)).bytes)).pages.join(' '),
    );
    for (const part of ['To Paula Prior', 'We pay the thawed food.', 'without admission of responsibility']) expect(letter).toContain(part);
    expect((await api.send('anna', 'GET', `/api/callbacks/${decided}/letters/decision`)).status).toBe(403);
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
