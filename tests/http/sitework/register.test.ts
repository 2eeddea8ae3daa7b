// The register of reports, consents to other recipients, and letting a report leave, over HTTP.
import { createHash, randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { readHome } from '@backsight/usecases/firm/readHome';
import { readReports } from '@backsight/usecases/sitework/readReports';
import { as, CAST } from '../../support/cast.ts';
import { testApi } from '../../support/http.ts';
import { madeElsewhere } from '../../support/otherPdf.ts';
import { flat, readPdf } from '../../support/pdf.ts';
import { siteJob, type SiteJob } from '../../support/siteJob.ts';
import { withStarter } from '../../support/starter.ts';
import { recordAll, start } from './support.ts';

const api = testApi();
withStarter(api);
const hours = (n: number): Date => new Date(new Date('2026-05-12T15:00:00Z').getTime() + n * 3_600_000);

/** A job that is sealed and has a first report. */
async function reported(wish: Parameters<typeof siteJob>[1]): Promise<SiteJob & { reportId: string; day: string }> {
  const job = await siteJob(api, { terms: 'billed_to_closing', ...wish });
  await api.database.transaction(({ db }) =>
    db.gateOverride.create({
      data: {
        id: randomUUID(),
        visitId: job.visitId,
        missing: ['agreement-unsigned'],
        reason: 'signs at the door',
        actorId: CAST.lead.id,
        happenedAt: hours(0),
        recordedAt: hours(0),
      },
    }),
  );
  const recordId = await start(api, job.visitId);
  await recordAll(api, recordId);
  await api.send('anna', 'POST', `/api/records/${recordId}/end`, { body: { endedAs: 'complete' } });
  await api.send('anna', 'POST', `/api/records/${recordId}/seal`, { body: {} });
  const day = wish!.startsAt!.toISOString().slice(0, 10);
  const reportId = randomUUID();
  const body = { id: reportId, completedOn: day, reportOn: day, defects: [] };
  expect((await api.send('anna', 'POST', `/api/jobs/${job.jobId}/reports`, { body })).status).toBe(201);
  return { ...job, reportId, day };
}
const register = async (from = '2026-01-01', to = '2026-12-31') =>
  (await api.send('lead', 'GET', `/api/report-register?from=${from}&to=${to}`)).body.items;
const handTo = (job: { reportId: string }, partyId: string) =>
  api.send('anna', 'POST', `/api/reports/${job.reportId}/deliveries`, { body: { id: randomUUID(), partyId, method: 'paper' } });
const reports = async (jobId: string) => (await api.send('anna', 'GET', `/api/jobs/${jobId}/reports`)).body;

describe('the register', () => {
  let jobs: Awaited<ReturnType<typeof reported>>[];
  beforeAll(async () => {
    jobs = [await reported({ startsAt: hours(1) }), await reported({ startsAt: hours(25) })];
  });

  it('runs in sequence without gaps, with dates, client, address, people and their licenses', async () => {
    const lines = await register();
    expect(lines.map(({ no }: { no: number }) => no)).toEqual([1001, 1002]);
    expect(lines[0]).toMatchObject({
      inspectedOn: jobs[0]!.day,
      reportOn: jobs[0]!.day,
      revisedOn: [],
      clients: ['Paula Prior'],
      deliveredAt: null,
    });
    expect(lines[0].people).toEqual([
      { name: 'Anna Inspector', did: 'inspected', license: 'WI-20', until: expect.any(String) },
      { name: 'Ben Inspector', did: 'inspected', license: 'WI-21', until: expect.any(String) },
      { name: 'Anna Inspector', did: 'prepared', license: 'WI-20', until: expect.any(String) },
    ]);
  });
  it('takes a revision into the same line, and a delivery', async () => {
    const body = { id: randomUUID(), completedOn: jobs[0]!.day, reportOn: jobs[0]!.day, defects: [] };
    expect((await api.send('anna', 'POST', `/api/jobs/${jobs[0]!.jobId}/reports`, { body })).status).toBe(201);
    expect((await handTo({ reportId: body.id }, jobs[0]!.clientId)).status).toBe(201);
    const lines = await register();
    expect(lines).toHaveLength(2);
    expect(lines[0]).toMatchObject({ no: 1001, deliveredTo: ['Paula Prior'] });
    expect(lines[0].revisedOn).toHaveLength(1);
  });
  it('comes a page at a time', async () => {
    const page = async (cursor: string) =>
      (await api.send('lead', 'GET', `/api/report-register?from=2026-01-01&to=2026-12-31&limit=1${cursor}`)).body;
    const first = await page('');
    expect([first.items.map(({ no }: { no: number }) => no), first.next]).toEqual([[1001], '1001']);
    const second = await page(`&cursor=${first.next}`);
    expect([second.items.map(({ no }: { no: number }) => no), second.next]).toEqual([[1002], null]);
  });
  it('comes as a table for the days asked for, to the desk alone', async () => {
    const csv = await api.send('office', 'GET', `/api/report-register.csv?from=${jobs[1]!.day}&to=${jobs[1]!.day}`);
    expect(csv.headers['content-type']).toContain('text/csv');
    expect(csv.body.split('\r\n')).toHaveLength(3);
    expect(csv.body).toContain('Anna Inspector (WI-20, valid until');
    expect((await api.send('anna', 'GET', '/api/report-register?from=2026-01-01&to=2026-12-31')).status).toBe(403);
    expect((await api.send('lead', 'GET', '/api/report-register?from=soon&to=2026-12-31')).status).toBe(422);
  });
});

describe("the client's consent to another recipient", () => {
  it('is recorded with who, when and how, lets the report go there, and can be taken back', async () => {
    const job = await reported({ startsAt: hours(49) });
    const consent = (more: object) =>
      api.send('anna', 'POST', `/api/jobs/${job.jobId}/report-consents`, {
        body: {
          id: randomUUID(),
          partyId: job.otherId,
          clientId: job.clientId,
          kind: 'given',
          how: 'mail',
          note: 'mail of May 12',
          givenOn: '2026-05-12',
          ...more,
        },
      });
    expect((await handTo(job, job.otherId)).body.code).toBe('report-recipient');
    expect((await consent({ partyId: job.clientId })).body.code).toBe('consent-not-needed');
    expect((await consent({ clientId: job.otherId })).body.code).toBe('consent-not-by-client');
    expect((await consent({ givenOn: '2027-01-01' })).body.code).toBe('consent-ahead');
    expect((await consent({})).status).toBe(201);
    expect((await handTo(job, job.otherId)).status).toBe(201);
    api.clock.now = new Date(api.clock.now.getTime() + 60_000);
    expect((await consent({ kind: 'withdrawn' })).status).toBe(201);
    expect((await handTo(job, job.otherId)).body.code).toBe('report-recipient');
    expect((await reports(job.jobId)).consents).toMatchObject([
      { kind: 'given', client: 'Paula Prior', takenBy: 'Anna Inspector', how: 'mail', note: 'mail of May 12' },
      { kind: 'withdrawn' },
    ]);
  });
});

describe('letting a report leave', () => {
  it('needs a role and a reason, is kept, and stands at home', async () => {
    const job = await reported({ startsAt: hours(73), signed: false });
    expect((await reports(job.jobId)).handOver.missing).toEqual([{ code: 'agreement-unsigned', wants: 'the agreement is signed' }]);
    expect((await handTo(job, job.clientId)).body.code).toBe('report-not-ready');
    const pass = (who: 'anna' | 'office' | 'lead', reason: string) =>
      api.send(who, 'POST', `/api/jobs/${job.jobId}/hand-over-override`, { body: { id: randomUUID(), reason } });
    expect((await pass('anna', 'The client needs it today')).status).toBe(403);
    expect((await pass('office', 'The client needs it today')).status).toBe(403);
    expect((await pass('lead', 'short')).body.code).toBe('reason-too-short');
    expect(await pass('lead', 'The client needs it today')).toMatchObject({ status: 201, body: { missing: ['agreement-unsigned'] } });
    expect((await handTo(job, job.clientId)).status).toBe(201);
    const home = (await api.send('owner', 'GET', '/api/home')).body.lists.find(({ key }: { key: string }) => key === 'overridesUsed');
    expect(JSON.stringify(home.items)).toContain('let a report leave');
  });
  it('is for nothing where nothing is missing', async () => {
    const job = await reported({ startsAt: hours(97) });
    expect(
      (
        await api.send('lead', 'POST', `/api/jobs/${job.jobId}/hand-over-override`, {
          body: { id: randomUUID(), reason: 'No reason at all' },
        })
      ).body.code,
    ).toBe('gate-is-open');
  });
});

describe('the clock of a report', () => {
  it('runs in business days and is overdue on the page and at home', async () => {
    const job = await reported({ startsAt: hours(121) });
    const due = new Date((await reports(job.jobId)).dueAt);
    expect((await reports(job.jobId)).overdue).toBe(false);
    const now = new Date(due.getTime() + 60_000);
    const later = await readReports(api.database.read, { jobId: job.jobId, actor: as('anna'), now });
    expect(later).toMatchObject({ value: { overdue: true } });
    const { lists } = await readHome(api.database.read, { personId: CAST.lead.id, roles: ['lead_inspector'], now });
    expect(lists.find(({ key }) => key === 'reportsDue')!.items.find(({ id }) => id === job.jobId)).toMatchObject({
      at: due.toISOString(),
      detail: expect.stringContaining('overdue'),
    });
  });
});

describe('reports made elsewhere, in the file of their job', () => {
  it('are numbered with the rest, page by page; one that is encrypted is attached as it is and said to be; originals stay', async () => {
    const { jobId, day } = await reported({ startsAt: hours(26 * 24) });
    const originals = [await madeElsewhere(['Roof: worn', 'Attic: dry']), await madeElsewhere(['Secret'], {}, 'pass word')];
    for (const bytes of originals) {
      const file = { name: 'report.pdf', base64: Buffer.from(bytes).toString('base64') };
      const body = { id: randomUUID(), completedOn: day, reportOn: day, file };
      expect((await api.send('anna', 'POST', `/api/jobs/${jobId}/report-files`, { body })).status).toBe(201);
    }
    const made = await api.send('owner', 'POST', `/api/jobs/${jobId}/files`, {
      body: { id: randomUUID(), forWhom: 'A. Counsel', reason: 'Subpoena, everything of the job', opinions: false },
    });
    const read = await readPdf((await api.send('owner', 'GET', `/api/job-files/${made.body.id}`)).bytes);
    expect(read.pages.length).toBe(made.body.pages);
    const [listed] = (await api.send('owner', 'GET', `/api/jobs/${jobId}/files`)).body;
    const parts: { title: string; page: number; sha256: string }[] = listed.parts.filter((p: { title: string }) =>
      p.title.includes('elsewhere'),
    );
    expect(parts.map(({ title }) => title)).toEqual([
      'Report, version 2, made elsewhere',
      'Report, version 3, made elsewhere (the file is encrypted: not numbered)',
    ]);
    expect(parts.map(({ sha256 }) => sha256)).toEqual(originals.map((bytes) => createHash('sha256').update(bytes).digest('hex')));
    const [numbered, asIs] = parts.map(({ page }) => page) as [number, number];
    for (const [at, words] of ['Roof: worn', 'Attic: dry'].entries())
      expect(flat(read.pages[numbered + at]!)).toMatch(new RegExp(`${words}.*Page ${numbered + at + 1} of ${read.pages.length}`));
    expect([asIs - numbered, flat(read.pages[asIs - 1]!)]).toEqual([3, expect.stringContaining('The file is encrypted, so its pages')]);
    const inside = Object.entries(read.attachments).filter(([name]) => name.endsWith('-report.pdf'));
    expect(inside.map(([, bytes]) => Buffer.compare(bytes, originals[0]!) === 0 || Buffer.compare(bytes, originals[1]!) === 0)).toEqual([
      true,
      true,
    ]);
  });
});
