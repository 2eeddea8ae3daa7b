// Tag: time.
// Running late over HTTP: the visits behind, the mail shown before it is sent, and sent once.
import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { testApi } from '../support/http.ts';
import { siteJob, type SiteJob } from '../support/siteJob.ts';
import { withStarter } from '../support/starter.ts';

const api = testApi();
withStarter(api);
const HOUR = 3_600_000;
let first: SiteJob;
let next: SiteJob;
beforeAll(async () => {
  const at = (hours: number) => new Date(api.clock.now.getTime() + hours * HOUR);
  first = await siteJob(api, { startsAt: at(0) });
  next = await siteJob(api, { startsAt: at(3.25), pair: ['ben', 'cora'] });
});
const preview = (who: 'anna' | 'cora' | 'dan' | 'office', minutes: number | string, visitId = first.visitId) =>
  api.send(who, 'GET', `/api/visits/${visitId}/late?minutes=${minutes}`);
const say = (who: 'anna' | 'cora', minutes: number) =>
  api.send(who, 'POST', `/api/visits/${first.visitId}/late`, { body: { id: randomUUID(), minutes } });
const mails = () =>
  api.database.read.rows<{ to: string; body: string }>(
    `SELECT to_address AS to, body FROM outgoing_mail WHERE message_key LIKE 'late:%' ORDER BY recorded_at`,
  );

describe('running late', () => {
  it('shows what no longer fits and what would be sent, and sends nothing yet', async () => {
    const { version } = (await api.send('office', 'GET', `/api/jobs/${next.jobId}`)).body;
    const opener = { state: 'settled', opener: 'Sven Seller', phone: '920-555-0155' };
    expect((await api.send('office', 'PUT', `/api/jobs/${next.jobId}/access`, { version, body: opener })).status).toBe(200);
    const seen = await preview('anna', 40);
    expect(seen.status, JSON.stringify(seen.body)).toBe(200);
    expect(seen.body.lines.map(({ visitId }: { visitId: string }) => visitId)).toEqual([first.visitId, next.visitId]);
    expect(seen.body.lines[0]).toMatchObject({
      lateMinutes: 40,
      expectedAt: new Date(api.clock.now.getTime() + 40 * 60_000).toISOString(),
    });
    const opens = (reply: typeof seen) => reply.body.lines.map((line: { opens: string | null }) => line.opens);
    // Anna does not go to the next house: the number is for those who do and for the desk.
    expect(opens(seen)).toEqual([null, 'Sven Seller']);
    expect(opens(await preview('office', 40))).toEqual([null, 'Sven Seller, 920-555-0155']);
    expect(seen.body.lines[1].mail[0].body).toMatch(/running late today.*to begin at 1:15 PM; please expect them at about 1:\d\d PM/s);
    expect(await mails()).toEqual([]);
  });
  it('tells each client once, and shows the expected time', async () => {
    expect((await say('anna', 40)).body).toMatchObject({ visits: 2, mails: 2 });
    expect((await say('anna', 40)).body).toMatchObject({ visits: 2, mails: 0 });
    expect(await mails()).toHaveLength(2);
    const mine = (await api.send('cora', 'GET', '/api/my-day')).body.visits.find(({ id }: { id: string }) => id === next.visitId);
    expect(Date.parse(mine.expectedAt)).toBeGreaterThan(Date.parse(mine.startsAt));
    expect((await say('anna', 60)).body).toMatchObject({ mails: 2 });
    expect(await api.database.read.rows('SELECT minutes FROM late_notice ORDER BY recorded_at')).toHaveLength(3);
  });
  it('is for the pair and the office, and for sensible minutes', async () => {
    expect((await preview('office', 10)).status).toBe(200);
    expect(await preview('cora', 10)).toMatchObject({ status: 403, body: { code: 'not-on-this-visit' } });
    expect(await say('cora', 10)).toMatchObject({ status: 403 });
    for (const minutes of [0, 601, 'soon']) expect((await preview('anna', minutes)).status).toBe(422);
    expect(await preview('office', 10, randomUUID())).toMatchObject({ status: 409, body: { code: 'visit-not-under-way' } });
  });
});
