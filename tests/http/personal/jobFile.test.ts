// The file of a job for a request of records: what an owner holds back stands in it with its reason, and every page says that it is for review until an owner says otherwise.
import { createHash } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { demoApi } from '../../support/demoApi.ts';
import { flat, readPdf } from '../../support/pdf.ts';

const api = demoApi();
type Item = { key: string; what: string };
let jobId = '';
beforeAll(async () => {
  const [job] = await api.database.read.rows<{ id: string }>(
    `SELECT j.id::text AS id FROM job j WHERE j.state = 'reported' AND EXISTS (SELECT FROM agreement a WHERE a.job_id = j.id) ORDER BY j.number LIMIT 1`,
  );
  jobId = job!.id;
});
const make = (who: 'harriet' | 'dolores', withheld: { key: string; why: string }[] = []) =>
  api.send(who, 'POST', `/api/jobs/${jobId}/files`, {
    id: api.newId(),
    forWhom: 'A. Counsel',
    reason: 'Subpoena of May 12, everything of the job',
    withheld,
  });
const pagesOf = async (id: string) => {
  const { bytes } = await api.send('harriet', 'GET', `/api/job-files/${id}`);
  return { sha256: createHash('sha256').update(bytes).digest('hex'), pages: (await readPdf(bytes)).pages.map(flat) };
};
const MARK = "For the attorney's review. It does not leave the firm yet.";

describe('the file of a job', () => {
  it('is marked on every page until an owner says that it was reviewed; then it goes out as it was made', async () => {
    const { body } = await make('dolores');
    const before = await pagesOf(body.id);
    expect(before.pages).toHaveLength(body.pages);
    expect(before.pages.filter((page) => !page.includes(MARK))).toEqual([]);
    expect(before.sha256).not.toBe(body.sha256);
    const review = (who: 'harriet' | 'dolores') =>
      api.send(who, 'POST', `/api/job-files/${body.id}/review`, { reviewer: 'A. Counsel', reviewedOn: '2026-05-14' });
    expect((await review('dolores')).status).toBe(403);
    expect((await review('harriet')).status).toBe(201);
    expect((await review('harriet')).body.code).toBe('file-reviewed');
    const after = await pagesOf(body.id);
    expect(after.pages.filter((page) => page.includes(MARK))).toEqual([]);
    expect(after.sha256).toBe(body.sha256);
    const [listed] = (await api.send('dolores', 'GET', `/api/jobs/${jobId}/files`)).body;
    expect(listed.review).toMatchObject({ reviewer: 'A. Counsel', on: '2026-05-14' });
  }, 90_000);
  it('leaves out what an owner holds back, and says what and why', async () => {
    const { items, reasons } = (await api.send('harriet', 'GET', `/api/jobs/${jobId}/file-items`)).body as {
      items: Item[];
      reasons: string[];
    };
    const mail = items.find(({ what }) => what.startsWith('Mail of'))!;
    const why = reasons[0]!;
    expect((await make('dolores', [{ key: mail.key, why }])).body.code).toBe('file-withhold-owner');
    expect((await make('harriet', [{ key: 'mail of nobody', why }])).body.code).toBe('not-found');
    expect((await make('harriet', [{ key: mail.key, why: 'no' }])).body.code).toBe('reason-too-short');
    const [subject] = await api.database.read.rows<{ body: string }>('SELECT body FROM outgoing_mail WHERE id = $1::uuid', [
      mail.key.slice(5),
    ]);
    const first = flat(subject!.body.split(/\n{2,}/).find((part) => part.length > 60 && !part.includes('/client/')) ?? '').slice(0, 50);
    const whole = (await pagesOf((await make('harriet')).body.id)).pages.join(' ');
    const less = (
      await pagesOf(
        (
          await make(
            'harriet',
            items.filter(({ key }) => /^(mail|agreement)/.test(key)).map(({ key }) => ({ key, why })),
          )
        ).body.id,
      )
    ).pages.join(' ');
    expect([whole.includes(first), less.includes(first)]).toEqual([true, false]);
    for (const said of [mail.what.slice(0, 20), why]) expect(less).toContain(said);
  }, 90_000);
});
