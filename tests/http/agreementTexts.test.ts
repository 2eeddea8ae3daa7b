// Agreement texts and state rules over HTTP: drafted, previewed, compared, approved by another, never edited; rules set aside by an owner only.
import { randomUUID } from 'node:crypto';
import pg from 'pg';
import { describe, expect, it } from 'vitest';
import { brokenRule } from '@backsight/store/constraint';
import { testApi } from '../support/http.ts';
import { paidJob } from '../support/paidJob.ts';
import { withStarter } from '../support/starter.ts';

const api = testApi();
withStarter(api);

type Line = { id: string; kind: string; number: number; inForce: boolean };
const texts = async (): Promise<Line[]> => (await api.send('office', 'GET', '/api/agreement-texts')).body;
const inForce = async (kind = 'inspection') => (await texts()).find((text) => text.kind === kind && text.inForce)!;
const page = async (id: string) => (await api.send('office', 'GET', `/api/agreement-texts/${id}`)).body;

/** What is sent back of a text: clauses without what was added for reading. */
const contentOf = ({ title, consentText, clauses, limitsSet, reason }: any) => ({
  ...{ title, consentText, limits: limitsSet, reason },
  clauses: clauses.map(({ key, title: name, body, applies, client }: any) => ({ key, title: name, body, applies, client })),
});

async function drafted(kind = 'inspection') {
  const id = randomUUID();
  const copyOf = (await inForce(kind)).id;
  expect(await api.send('office', 'POST', '/api/agreement-texts', { body: { id, copyOf, reason: 'A new year' } })).toMatchObject({
    status: 201,
  });
  return { id, copyOf, content: contentOf(await page(id)) };
}
const change = (id: string, version: number, body: object) => api.send('office', 'PUT', `/api/agreement-texts/${id}`, { version, body });
const approve = (who: 'owner' | 'office' | 'lead', id: string, version: number, reason: string | null = null) =>
  api.send(who, 'POST', `/api/agreement-texts/${id}/approval`, { body: { version, inForceFrom: null, reason } });
const discard = (id: string, version: number) => api.send('office', 'DELETE', `/api/agreement-texts/${id}`, { version });
const withClause = (content: any, body: string) => ({
  ...content,
  clauses: [...content.clauses, { key: 'added', title: 'Added', body, applies: { always: true }, client: 'anybody' }],
});

async function asOwnerOfTheDatabase(sql: string): Promise<string | undefined> {
  const client = new pg.Client(api.url);
  await client.connect();
  try {
    return await client.query(sql).then(
      () => undefined,
      (error) => brokenRule(error),
    );
  } finally {
    await client.end();
  }
}

describe('an agreement text', () => {
  it('is copied, changed, compared, approved by another, and then makes new agreements, while issued ones keep their bytes', async () => {
    const { jobId } = await paidJob(api);
    const issue = () => api.send('office', 'POST', `/api/jobs/${jobId}/agreement`, { body: {} });
    const agreement = async () => (await api.send('office', 'GET', `/api/jobs/${jobId}/agreement`)).body.agreement;
    await issue();
    const old = await agreement();
    const { id, copyOf, content } = await drafted();
    expect(await change(id, 1, withClause(content, 'Shoes stay on; covers are worn. **{{firm}}**'))).toMatchObject({
      status: 200,
      body: { version: 2 },
    });
    expect(await change(id, 1, content)).toMatchObject({ body: { code: 'changed-meanwhile' } });
    const compared = (await api.send('lead', 'GET', `/api/agreement-texts/${id}/comparison?with=${copyOf}`)).body;
    expect(compared.clauses.map(({ key, kind }: any) => [key, kind])).toEqual([['added', 'added']]);
    expect(await approve('office', id, 2)).toMatchObject({ status: 403, body: { code: 'agreement-text-second-person' } });
    expect((await approve('lead', id, 2)).status).toBe(201);
    expect(await page(id)).toMatchObject({ inForce: true, state: 'approved', attorney: null });
    expect(await page(copyOf)).toMatchObject({ inForce: false, state: 'approved' });
    expect(await agreement()).toMatchObject({ id: old.id, body: old.body, sha256: old.sha256 });
    expect((await issue()).status).toBe(201);
    expect((await agreement()).body).toMatch(/## \d+\. Added\n\nShoes stay on; covers are worn\. \*\*/);
    expect(await change(id, 3, content)).toMatchObject({ status: 409, body: { code: 'agreement-text-fixed' } });
    expect((await api.send('owner', 'POST', `/api/agreement-texts/${id}/withdrawal`, { body: {} })).status).toBe(201);
    expect((await inForce()).id).toBe(copyOf);
    expect(await api.send('owner', 'POST', `/api/agreement-texts/${copyOf}/withdrawal`, { body: {} })).toMatchObject({
      status: 409,
      body: { code: 'last-agreement-text' },
    });
  });
  it('that an attorney reviewed is locked clause by clause: other words need a new review by an owner', async () => {
    const review = (id: string, locked: string[]) =>
      api.send('owner', 'POST', `/api/agreement-texts/${id}/attorney`, { body: { attorney: 'A. Counsel', on: '2026-05-11', locked } });
    const { id: first, content: before } = await drafted();
    await change(first, 1, withClause(before, 'Covers are worn.'));
    await approve('lead', first, 2);
    expect(await review(first, ['no-such'])).toMatchObject({ status: 422, body: { code: 'clause-unknown' } });
    expect((await review(first, ['added'])).status).toBe(201);
    const { id, content } = await drafted();
    const other = { ...content, title: 'Another title' };
    const reworded = { ...other, clauses: content.clauses.map((c: any) => (c.key === 'added' ? { ...c, body: 'Bare feet.' } : c)) };
    await change(id, 1, reworded);
    expect(await page(id)).toMatchObject({ lockedHere: ['added'], lockedChanged: ['Added'] });
    expect(await approve('lead', id, 2)).toMatchObject({ status: 409, body: { code: 'clause-locked', field: 'attorney' } });
    const anew = (who: 'owner' | 'lead', on: string) =>
      api.send(who, 'POST', `/api/agreement-texts/${id}/approval`, {
        body: { version: 2, inForceFrom: null, reason: null, review: { attorney: 'A. Counsel', on } },
      });
    expect((await anew('lead', '2026-05-11')).body.code).toBe('clause-locked');
    expect((await anew('owner', '2031-01-01')).body).toMatchObject({ code: 'approval-ahead' });
    expect((await anew('owner', '2026-05-11')).status).toBe(201);
    expect(await page(id)).toMatchObject({ attorney: 'A. Counsel', locked: ['added'] });
    expect(await asOwnerOfTheDatabase(`UPDATE agreement_text SET locked = '{}' WHERE id = '${id}'`)).toBe('agreement_text_fixed');
    for (const one of [id, first]) await api.send('owner', 'POST', `/api/agreement-texts/${one}/withdrawal`, { body: {} });
  });
  it('refuses what nobody could sign, and keeps what was there', async () => {
    const { id, content } = await drafted();
    const cases: [object, number, string, string][] = [
      [withClause(content, '{{freight}}'), 422, 'text-field-unknown', `clauses.${content.clauses.length}.body`],
      [withClause(content, '  '), 422, 'clause-empty', `clauses.${content.clauses.length}.body`],
      [withClause(content, 'See our procedures.'), 422, 'text-cites-own-book', `clauses.${content.clauses.length}.body`],
      [{ ...content, clauses: [] }, 422, 'text-without-clauses', 'clauses'],
      [{ ...content, limits: { cap: { kind: 'amount', cents: 5 }, claimMonths: null } }, 422, 'limit-not-said', 'limits.cap'],
    ];
    for (const [body, status, code, field] of cases) expect(await change(id, 1, body)).toMatchObject({ status, body: { code, field } });
    let deep: object = { always: true };
    for (let n = 0; n < 9; n += 1) deep = { not: deep };
    for (const applies of [deep, { fact: 'moat', compare: 'is', value: 1 }, 'always']) {
      const clauses = [{ ...content.clauses[0], applies }];
      expect((await change(id, 1, { ...content, clauses })).status).toBe(422);
    }
    expect(contentOf(await page(id))).toEqual(content);
    expect(await approve('lead', id, 1)).toMatchObject({ status: 409, body: { code: 'text-changes-nothing' } });
    expect(
      await api.send('office', 'POST', '/api/agreement-texts', { body: { id: randomUUID(), copyOf: id, reason: 'Twice' } }),
    ).toMatchObject({
      status: 409,
      body: { code: 'text-draft-exists' },
    });
    expect((await discard(id, 1)).status).toBe(200);
  });
  it('is previewed for a job with the clauses that apply, and nothing is kept', async () => {
    const { jobId } = await paidJob(api);
    const number = (await api.send('office', 'GET', `/api/jobs/${jobId}`)).body.number;
    const { reason: _, ...content } = contentOf(await page((await inForce()).id));
    const ask = (body: object) => api.send('office', 'POST', '/api/agreement-texts/preview', { body });
    const shown = (await ask({ ...content, jobNumber: number })).body;
    expect(shown.clauses.find(({ key }: any) => key === 'owner_readers')).toMatchObject({ applies: 'no' });
    expect(JSON.stringify(shown.blocks)).toContain('Wis. Stat. 440.977(1)');
    expect(JSON.stringify(shown.blocks)).toContain('The longer one counts');
    expect(await ask({ ...content, jobNumber: 999_999 })).toMatchObject({ status: 404 });
    expect(await ask({ ...withClause(content, '{{freight}}'), jobNumber: number })).toMatchObject({
      status: 422,
      body: { code: 'text-field-unknown' },
    });
    expect(await ask({ ...withClause(content, '{{items}} are looked at'), jobNumber: number })).toMatchObject({
      body: { code: 'empty-placeholder' },
    });
  });
});

describe('a text against the rules of the states taken up', () => {
  it('is approved only by an owner who says why; that is kept and listed on the home', async () => {
    expect(await api.send('owner', 'PUT', '/api/firm/states', { body: { states: ['US-ME'] } })).toMatchObject({
      status: 422,
      body: { code: 'state-unknown' },
    });
    expect((await api.send('office', 'PUT', '/api/firm/states', { body: { states: ['US-CA'] } })).status).toBe(403);
    expect(await api.send('owner', 'PUT', '/api/firm/states', { body: { states: ['US-WI', 'US-CA'] } })).toMatchObject({ status: 200 });
    const { id, content } = await drafted();
    const limits = { cap: { kind: 'factor', tenths: 20 }, claimMonths: null };
    await change(id, 1, { ...withClause(content, 'The firm pays {{liability_cap}} at most.'), limits });
    const { breaks } = await page(id);
    expect(breaks.map(({ jurisdiction, rowKey }: any) => [jurisdiction, rowKey])).toEqual(
      expect.arrayContaining([
        ['US-CA', 'cap'],
        ['US-WI', 'cap'],
      ]),
    );
    const why = 'Our attorney has read both and wants it so.';
    expect(await approve('lead', id, 2, why)).toMatchObject({ status: 409, body: { code: 'text-breaks-rules' } });
    expect(await approve('owner', id, 2)).toMatchObject({ status: 409, body: { code: 'text-breaks-rules' } });
    expect((await approve('owner', id, 2, why)).status).toBe(201);
    expect((await page(id)).setAside.map(({ reason }: any) => reason)).toEqual(breaks.map(() => why));
    const { lists } = (await api.send('owner', 'GET', '/api/home')).body;
    expect(lists.find(({ key }: any) => key === 'rulesSetAside')).toMatchObject({ count: breaks.length });
    await api.send('owner', 'POST', `/api/agreement-texts/${id}/withdrawal`, { body: {} });
  });
  it('shows the rows with citation and certainty, and which were from memory', async () => {
    const { states, packs } = (await api.send('lead', 'GET', '/api/rule-packs')).body;
    expect(states).toEqual(['US-CA', 'US-WI']);
    const wisconsin = packs.find(({ jurisdiction }: any) => jurisdiction === 'US-WI');
    expect(wisconsin.rows.find(({ key }: any) => key === 'written-first')).toMatchObject({
      certaintyWords: 'no rule was found: policy of the firm',
    });
    expect(wisconsin.rows.find(({ key }: any) => key === 'cap')).toMatchObject({ certaintyWords: 'from memory, to be read in the source' });
  });
});

describe('the database itself', () => {
  it.each([
    ["UPDATE agreement_text SET title = 'x' WHERE state = 'approved'", 'agreement_text_fixed'],
    ["UPDATE agreement_text SET clauses = '[]' WHERE state = 'approved'", 'agreement_text_fixed'],
    [
      "UPDATE agreement_text SET state = 'draft', approved_at = NULL, in_force_from = NULL WHERE state = 'approved'",
      'agreement_text_fixed',
    ],
    ["DELETE FROM agreement_text WHERE state = 'approved'", 'agreement_text_fixed'],
    ["UPDATE rule_pack SET body = '{}'", 'history_is_kept'],
    ['DELETE FROM rule_set_aside', 'history_is_kept'],
  ])('refuses %s', async (sql, rule) => expect(await asOwnerOfTheDatabase(sql)).toBe(rule));
});
