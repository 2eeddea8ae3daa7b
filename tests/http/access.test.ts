// Tag: time.
// How one gets in over HTTP: asked, agreed, refused; codes for the people of the visit around its time, and nowhere else.
import { beforeAll, describe, expect, it } from 'vitest';
import { forgetOldCodes } from '@backsight/usecases/jobs/access';
import { CAST } from '../support/cast.ts';
import { testApi } from '../support/http.ts';
import { flat, readPdf } from '../support/pdf.ts';
import { siteJob, type SiteJob } from '../support/siteJob.ts';
import { withStarter } from '../support/starter.ts';

const api = testApi();
withStarter(api);
const HOUR = 3_600_000;
const NOW = new Date('2026-05-12T15:00:00Z');
let job: SiteJob;
beforeAll(async () => {
  job = await siteJob(api, { startsAt: new Date(NOW.getTime() + 20 * HOUR) });
});
const version = async (): Promise<number> => (await api.send('office', 'GET', `/api/jobs/${job.jobId}`)).body.version;
const note = async (body: object) => api.send('office', 'PUT', `/api/jobs/${job.jobId}/access`, { version: await version(), body });
const wayIn = (who: 'anna' | 'ben' | 'cora' | 'office' | 'owner') => api.send(who, 'GET', `/api/visits/${job.visitId}/way-in`);
const need = async () =>
  (await api.send('office', 'GET', `/api/jobs/${job.jobId}`)).body.needs.find(({ kind }: { kind: string }) => kind === 'access');
const missing = async () =>
  (await api.send('office', 'GET', '/api/home')).body.lists.find(({ key }: { key: string }) => key === 'tomorrowMissing').items;

describe('access', () => {
  it('is asked, refused and agreed, by whom and when; tomorrow without it is on the home', async () => {
    expect((await note({ state: 'refused', who: 'Sven Seller' })).status).toBe(200);
    expect(await need()).toMatchObject({ state: 'refused', settledBy: 'Otto Office', details: { who: 'Sven Seller' } });
    expect(await missing()).toMatchObject([{ detail: expect.stringContaining('access (refused)') }]);
    const done = await note({
      state: 'settled',
      who: 'Sven Seller',
      opener: 'Lena Lister',
      phone: '920-555-0161',
      opensAt: '2026-05-13T10:45:00Z',
      pets: 'one cat, stays in',
      keyBox: '4417',
      alarm: '0915 off',
    });
    expect(done.status, JSON.stringify(done.body)).toBe(200);
    expect(await need()).toMatchObject({ state: 'settled' });
    expect(await missing()).toEqual([]);
  });
  it('shows the codes to the pair around the visit, and to nobody else', async () => {
    expect((await wayIn('anna')).body).toEqual({
      opener: 'Lena Lister',
      phone: '920-555-0161',
      opensAt: '2026-05-13T10:45:00.000Z',
      pets: 'one cat, stays in',
      keyBox: '4417',
      alarm: '0915 off',
    });
    for (const who of ['cora', 'office', 'owner'] as const)
      expect(await wayIn(who)).toMatchObject({ status: 403, body: { code: 'not-on-this-visit' } });
    api.clock.now = new Date(NOW.getTime() - 11 * HOUR); // the evening before the day before
    expect(await wayIn('ben')).toMatchObject({ status: 403, body: { code: 'codes-not-now' } });
    api.clock.now = NOW;
    const desk = (await api.send('office', 'GET', `/api/jobs/${job.jobId}/desk`)).body;
    expect(desk.access).toMatchObject({ hasKeyBox: true, hasAlarm: true });
    expect(
      JSON.stringify([desk, await api.send('office', 'GET', `/api/jobs/${job.jobId}`), await api.send('anna', 'GET', '/api/my-day')]),
    ).not.toMatch(/4417|0915/);
  });
  it('shows how its people are reached to those who go there, and only around the visit', async () => {
    const NUMBERS = /920-555-01(71|72|61)|@test\.example/;
    const at = (days: number) => (api.clock.now = new Date(NOW.getTime() + days * 24 * HOUR));
    const seen = async (who: 'anna' | 'office') => {
      const pages = [`/api/jobs/${job.jobId}`, `/api/jobs/${job.jobId}/desk`, `/api/jobs/${job.jobId}/crew`];
      const read = await Promise.all(pages.map(async (page) => JSON.stringify((await api.send(who, 'GET', page)).body)));
      const sheet = await api.send(who, 'GET', `/api/people/${CAST.anna.id}/day-sheet/2026-05-13`);
      return [...read, flat((await readPdf(sheet.bytes)).pages.join(' '))].map((text) =>
        NUMBERS.test(text.replaceAll('office@test.example', '')),
      );
    };
    expect(await seen('anna')).toEqual([true, true, false, true]);
    for (const days of [-2, 3]) {
      at(days);
      api.signsInAnew('anna');
      expect(await seen('anna'), `${days} days on`).toEqual([false, false, false, false]);
      expect(await seen('office'), `${days} days on`).toEqual([true, true, false, true]);
    }
    api.clock.now = NOW;
    api.signsInAnew('anna');
    api.signsInAnew('office');
    const { address } = (await api.send('anna', 'PUT', '/api/me/calendar-feed', { body: {} })).body;
    const feed = await api.app().inject({ method: 'GET', url: new URL(address).pathname });
    expect(feed.body).toContain('14 Alder Road');
    expect(feed.body).not.toMatch(/4417|0915|920-555|Prior|Lister/);
    for (const who of ['cora', 'dan'] as const)
      expect((await api.send(who, 'GET', `/api/jobs/${job.jobId}`)).body.code).toBe('not-on-this-visit');
  });
  it('keeps the codes out of the audit trail, the history and the kept replies', async () => {
    for (const table of ['audit_row', 'job_event', 'idempotency_key', 'outgoing_mail', 'kept_text'])
      expect(await api.database.read.rows(`SELECT 1 FROM ${table} t WHERE t::text LIKE '%4417%' OR t::text LIKE '%0915 off%'`)).toEqual([]);
  });
  it('leaves a code that is not given, and takes one away', async () => {
    await note({ state: 'settled', alarm: null });
    expect((await wayIn('ben')).body).toMatchObject({ keyBox: '4417', alarm: null });
  });
  it('refuses what cannot be, and the stale version', async () => {
    expect((await note({ state: 'perhaps' })).status).toBe(422);
    expect((await note({ state: 'settled', opensAt: 'noon' })).status).toBe(422);
    expect((await api.send('office', 'PUT', `/api/jobs/${job.jobId}/access`, { version: 1, body: { state: 'asked' } })).status).toBe(412);
    expect((await api.send('anna', 'PUT', `/api/jobs/${job.jobId}/access`, { version: 1, body: { state: 'asked' } })).status).toBe(403);
  });
  it('forgets the codes when no visit lies ahead', async () => {
    expect(await forgetOldCodes({ ...api, clock: () => api.clock.now })).toBe(0);
    expect(await forgetOldCodes({ ...api, clock: () => new Date(NOW.getTime() + 60 * HOUR) })).toBe(1);
    expect((await wayIn('anna')).body).toMatchObject({ keyBox: null });
  });
});
