// A client's private link opens its own agreement, and of nobody else's anything; one that ended or was taken back opens nothing
// (OWASP ASVS 5.0, 7.4 and 8.2.2; what the pages are: contract/pages.ts).
import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { PAGES } from '@backsight/contract/pages';
import { postForm } from '../../support/clientLink.ts';
import { testApi } from '../../support/http.ts';
import { paidJob } from '../../support/paidJob.ts';
import { withStarter } from '../../support/starter.ts';

const api = testApi();
withStarter(api);
type Issued = { jobId: string; token: string; sha256: string; word: string; signerId: string };

async function issued(): Promise<Issued> {
  const { jobId } = await paidJob(api);
  await api.send('office', 'POST', `/api/jobs/${jobId}/agreement`, { body: {} });
  const [mail] = await api.database.read.rows<{ body: string }>(
    `SELECT body FROM outgoing_mail WHERE about_id = $1::uuid AND subject LIKE 'Agreement for%' ORDER BY id DESC LIMIT 1`,
    [jobId],
  );
  const { agreement } = (await api.send('office', 'GET', `/api/jobs/${jobId}/agreement`)).body;
  const { id: signerId, word } = agreement.signers[0];
  return { jobId, token: /\/client\/([\w-]{43})/.exec(mail!.body)![1]!, sha256: agreement.sha256, word, signerId };
}
let own: Issued;
let others: Issued;
const dead: Record<string, string> = {};
beforeAll(async () => {
  [own, others] = [await issued(), await issued()];
  const [revoked, ended] = [await issued(), await issued()];
  await api.send('office', 'POST', `/api/signers/${revoked.signerId}/link/revocation`, { body: {} });
  await api.database.transaction((tx) =>
    tx.db.signer.update({ where: { id: ended.signerId }, data: { tokenEndsAt: new Date(api.clock.now.getTime() - 1000) } }),
  );
  Object.assign(dead, {
    'that ended': ended.token,
    'that was taken back': revoked.token,
    'that nobody was given': 'A'.repeat(43),
    'that is cut off': own.token.slice(0, -1),
    'in other letters': own.token === own.token.toLowerCase() ? own.token.toUpperCase() : own.token.toLowerCase(),
    'with one more letter': `${own.token}A`,
    'of an id': own.signerId,
  });
});
const PERSONAL = /Prior|Alder Road|%PDF/;
const pages = PAGES.filter(({ openedBy }) => openedBy === 'link');

describe('a link', () => {
  it('opens its own page', async () => {
    const page = await api.app().inject({ method: 'GET', url: `/client/${own.token}` });
    expect([page.statusCode, PERSONAL.test(page.body)]).toEqual([200, true]);
  });
  it('that ended, was taken back or never was opens no page, changes nothing and says nothing of anybody', async () => {
    const before = await api.database.read.rows('SELECT count(*)::int AS n FROM audit_row');
    for (const [what, token] of Object.entries(dead))
      for (const { method, path } of pages) {
        const url = path.replace(':token', token);
        const fields = {
          name: 'Paula Prior',
          read: 'yes',
          consent: 'yes',
          sha256: own.sha256,
          word: own.word,
          act: 'answer',
          answer: 'yes',
        };
        const reply = method === 'GET' ? await api.app().inject({ method, url }) : await postForm(api, url, fields);
        expect([400, 404, 410, 422], `${method} ${path} by a link ${what}`).toContain(reply.statusCode);
        expect(reply.body.replaceAll('name="name"', ''), `${path} ${what}`).not.toMatch(PERSONAL);
      }
    expect(await api.database.read.rows('SELECT count(*)::int AS n FROM audit_row')).toEqual(before);
  });
  it.each(['', '/photos'])('that opens nothing reports nothing over the API (/api/client/reports%s)', async (more) => {
    for (const token of Object.values(dead)) {
      const report = { id: randomUUID(), matter: 'missed', system: 'roof', place: 'attic', dangers: [], hope: '', words: 'Wet.' };
      const photo = { id: randomUUID(), reportId: randomUUID(), name: 'x.jpg', base64: 'AAAA' };
      const reply = await api.send('nobody', 'POST', `/api/client/reports${more}`, {
        body: { token, ...(more ? photo : report) },
        once: true,
      });
      expect([403, 404, 409, 422], JSON.stringify(reply.body)).toContain(reply.status);
    }
  });
});

describe('the link of another job', () => {
  it('signs only the words that it shows', async () => {
    const fields = { name: 'Paula Prior', read: 'yes', consent: 'yes', sha256: others.sha256, word: others.word };
    const reply = await postForm(api, `/client/${own.token}`, fields);
    expect([409, 422]).toContain(reply.statusCode);
    const { agreement } = (await api.send('office', 'GET', `/api/jobs/${others.jobId}/agreement`)).body;
    expect(agreement.signers[0].signature).toBeNull();
  });
  it('adds no photo to what was reported by another', async () => {
    for (const job of [own, others])
      await api.database.transaction((tx) => tx.db.job.update({ where: { id: job.jobId }, data: { state: 'booked' } }));
    const report = { id: randomUUID(), matter: 'question', system: 'roof', place: 'attic', dangers: [], hope: '', words: 'Is it dry?' };
    const sent = await api.send('nobody', 'POST', '/api/client/reports', { body: { token: others.token, ...report }, once: true });
    const photo = { id: randomUUID(), reportId: sent.body.id ?? report.id, name: 'x.jpg', base64: Buffer.from('x').toString('base64') };
    const reply = await api.send('nobody', 'POST', '/api/client/reports/photos', { body: { token: own.token, ...photo }, once: true });
    expect(reply.status, JSON.stringify(reply.body)).toBeGreaterThanOrEqual(400);
    expect(await api.database.read.rows('SELECT 1 FROM callback_photo')).toEqual([]);
  });
});
