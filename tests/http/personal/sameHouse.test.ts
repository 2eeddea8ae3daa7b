// A former client's matter at the same house is never shown nor told to the new client: no page, mail or paper of the new one holds anything of the old one.
import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { LETTERS } from '@backsight/domain/callbacks/letters';
import { testApi } from '../../support/http.ts';
import { flat, readPdf } from '../../support/pdf.ts';
import { withStarter } from '../../support/starter.ts';
import { on, ownReport, received, reportLink, visited, type Visited } from '../callbacks/support.ts';

const api = testApi();
withStarter(api);
const rows = <T>(sql: string, params: unknown[] = []) => api.database.read.rows<T>(sql, params);

const OLD = { name: 'Thaddeus Quillfeather', email: 'thaddeus@quillfeather.example', phone: '555-0187' };
const WORDS = ['The sillplate of Quillfeather is rotten', 'boathouse annex', 'four hundred for the sillplate'];
let first: Visited;
let second: Visited;
let firstId = '';
let secondId = '';
let token = '';
let secrets: string[] = [];
/** What the new client gets or what may be sent to them, by what it is. */
const got: Record<string, string> = {};

const page = async (url: string) => {
  const reply = await api.app().inject({ method: 'GET', url });
  expect(reply.statusCode, url).toBe(200);
  const pdf = String(reply.headers['content-type']).includes('pdf');
  return pdf ? flat((await readPdf(reply.rawPayload)).pages.join(' ')) : reply.body;
};
const told = (): string[] =>
  Object.entries(got).flatMap(([what, words]) =>
    secrets.filter((secret) => words.toLowerCase().includes(secret.toLowerCase())).map((secret) => `${what}: ${secret}`),
  );

beforeAll(async () => {
  first = await visited(api);
  await api.database.transaction(({ db }) => db.party.update({ where: { id: first.clientId }, data: OLD }));
  firstId = await received(api, first, { words: WORDS[0], place: WORDS[1], remedySought: WORDS[2] });
  await on(api, 'office', firstId, 'acknowledge');
  await api.send('office', 'POST', `/api/contacts`, {
    body: { id: randomUUID(), jobId: first.jobId, partyId: first.clientId, channel: 'call', outcome: 'reached', words: WORDS[0] },
  });
  api.clock.now = new Date(api.clock.now.getTime() + 30 * 86_400_000);
  second = await visited(api);
  await rows('UPDATE job SET property_id = (SELECT property_id FROM job WHERE id = $2::uuid) WHERE id = $1::uuid RETURNING 1', [
    second.jobId,
    first.jobId,
  ]);
  const [numbers] = await rows<{ job: number; callback: number }>(
    'SELECT j.number AS job, c.number AS callback FROM callback c JOIN job j ON j.id = c.job_id WHERE c.id = $1::uuid',
    [firstId],
  );
  secrets = [
    ...Object.values(OLD),
    ...WORDS,
    `job ${numbers!.job}`,
    `number ${numbers!.callback}`,
    `callback ${numbers!.callback}`,
    'Quillfeather',
  ];
}, 120_000);

describe('the new client of a house', () => {
  it('sees nothing of the old one on any private page', async () => {
    token = await reportLink(api, second);
    const body = ownReport(token, {});
    const made = await api.send('nobody', 'POST', '/api/client/reports', { body });
    expect(made.status, JSON.stringify(made.body)).toBe(201);
    secondId = body.id;
    for (const part of ['', '/agreement.pdf', '/report', `/report?sent=${made.body.number}`])
      got[`page ${part}`] = await page(`/client/${token}${part}`);
    got['page on complaints'] = await page('/complaints');
    expect(got['page /report']!.toLowerCase()).toContain(`number ${made.body.number}`);
    expect(told()).toEqual([]);
  });
  it('sees nothing of it either when their report says the same and was linked to the old one', async () => {
    for (const kind of ['duplicate', 'repeat'] as const) {
      const linked = await api.send('office', 'POST', `/api/callbacks/${secondId}/link`, { body: { link: { to: firstId, kind } } });
      expect([kind, linked.status], JSON.stringify(linked.body)).toEqual([kind, 201]);
      got[`page with a ${kind}`] = await page(`/client/${token}/report`);
      const undone = await api.send('office', 'POST', `/api/callbacks/${secondId}/link/undo`, { body: { words: 'Linked for a look.' } });
      expect(undone.status, JSON.stringify(undone.body)).toBe(201);
    }
    expect(told()).toEqual([]);
  });
  it('is written nothing of it in any letter, and finds none in any paper', async () => {
    await on(api, 'office', secondId, 'acknowledge');
    for (const letter of Object.keys(LETTERS)) {
      const draft = await api.send('office', 'GET', `/api/callbacks/${secondId}/letter-drafts/${letter}`);
      if (draft.status === 200) got[`letter ${letter}`] = JSON.stringify(draft.body);
    }
    expect(Object.keys(got).filter((what) => what.startsWith('letter')).length).toBeGreaterThan(1);
    const facts = await api.send('owner', 'GET', `/api/callbacks/${secondId}/facts`);
    expect(facts.status).toBe(200);
    got['facts on paper'] = flat((await readPdf(facts.bytes)).pages.join(' '));
    expect(got['facts on paper']).not.toContain('Other callbacks');
    const issued = await api.send('office', 'POST', `/api/jobs/${second.jobId}/agreement`, { body: { id: randomUUID() } });
    got['agreement as issued'] = JSON.stringify(issued.body);
    const file = await api.send('owner', 'POST', `/api/jobs/${second.jobId}/files`, {
      body: { id: randomUUID(), forWhom: 'A. Counsel', reason: 'Everything of the job was asked for', opinions: true },
    });
    expect(file.status, JSON.stringify(file.body)).toBe(201);
    got['file of the job'] = flat(
      (await readPdf((await api.send('owner', 'GET', `/api/job-files/${file.body.id}`)).bytes)).pages.join(' '),
    );
    const exported = await api.send('owner', 'POST', `/api/personal-data/people/party/${second.clientId}/export`, { once: true });
    got['their own export'] = Buffer.from(exported.bytes).toString('latin1');
    expect(told()).toEqual([]);
  });
  it('is sent nothing of it by mail', async () => {
    const mails = await rows<{ subject: string; body: string; to: string }>(
      `SELECT subject, body, to_address AS "to" FROM outgoing_mail WHERE to_address IN (SELECT email FROM party WHERE id = ANY ($1::uuid[]))`,
      [[second.clientId, second.otherId]],
    );
    expect(mails.length).toBeGreaterThan(0);
    for (const [at, { subject, body }] of mails.entries()) got[`mail ${at}`] = `${subject} ${body}`;
    expect(told()).toEqual([]);
  });
  it('would be found out: what stands in the file of the old one is what was looked for', async () => {
    const file = await api.send('owner', 'POST', `/api/jobs/${first.jobId}/files`, {
      body: { id: randomUUID(), forWhom: 'A. Counsel', reason: 'Everything of the job was asked for', opinions: true },
    });
    const words = flat((await readPdf((await api.send('owner', 'GET', `/api/job-files/${file.body.id}`)).bytes)).pages.join(' '));
    for (const one of [OLD.name, OLD.email, OLD.phone, WORDS[0]!]) expect(words).toContain(one);
  });
});
