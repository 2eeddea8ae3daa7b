// Later looks over HTTP: quoted with their price, offered with the job, remembered on the day, booked in one act.
import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { FACTS, holdBody, PLACE } from '../support/booking.ts';
import { testApi } from '../support/http.ts';
import { withStarter } from '../support/starter.ts';
import { DESK_RULES } from '../../prisma/seed/starter/deskRules.ts';

const api = testApi();
withStarter(api);
const COOLED = { ...FACTS, coolingSystems: 1 };
const starts = async (visitKind: string, fromDay: string) =>
  (
    await api.send('office', 'POST', '/api/starts', {
      once: true,
      body: { place: PLACE, facts: COOLED, services: ['inspection'], visitKind, fromDay, days: 7, limit: 5 },
    })
  ).body.options;
const looks = async (id: string) => (await api.send('office', 'GET', `/api/jobs/${id}/desk`)).body.laterLooks;
const dueOn = async () =>
  (await api.send('office', 'GET', '/api/home')).body.lists.find(({ key }: { key: string }) => key === 'laterLooks').items;
let jobId = '';
beforeAll(async () => {
  const held = await api.send('office', 'POST', '/api/jobs', {
    body: holdBody((await starts('inspection', '2026-05-13'))[0], { facts: COOLED }),
  });
  expect(held.status, JSON.stringify(held.body)).toBe(201);
  jobId = held.body.id;
  expect((await api.send('office', 'POST', `/api/jobs/${jobId}/confirmation`)).status).toBe(201);
});

describe('a later look', () => {
  it('is quoted beside the fee, not in it', async () => {
    const quote = (
      await api.send('office', 'POST', '/api/quotes', {
        once: true,
        body: { facts: COOLED, services: ['inspection'], day: '2026-05-13', place: PLACE },
      })
    ).body;
    expect(quote.laterLooks).toMatchObject([{ key: 'cooling', cents: 9_500, remindOn: '2026-05-15' }]);
    expect(quote.fee.totalCents).toBe(46_500);
  });
  it('of a roof takes two people, as everything on a roof does', async () => {
    expect((await starts('roof_relook', '2026-05-18'))[0]).toMatchObject({ second: expect.any(String) });
    const body = { facts: { ...FACTS, kind: 'single_family' }, services: ['inspection'], day: '2026-12-08', place: PLACE };
    const { laterLooks } = (await api.send('office', 'POST', '/api/quotes', { once: true, body })).body;
    expect(laterLooks.map(({ key }: { key: string }) => key)).toContain('roof');
    expect(DESK_RULES.laterLooks.find(({ key }) => key === 'roof')!.visitKind).toBe('roof_relook');
  });
  it('is not offered before anything is known of the house', async () => {
    const body = { facts: {}, services: ['inspection'], day: '2026-12-08', place: PLACE };
    const ask = (facts: object) => api.send('office', 'POST', '/api/quotes', { once: true, body: { ...body, facts } });
    expect((await ask({})).body.laterLooks).toEqual([]);
    expect((await ask({ yearBuilt: 1990 })).body.laterLooks).not.toEqual([]);
  });
  it('is on the home from its day on', async () => {
    expect(await looks(jobId)).toMatchObject([{ label: 'Cooling looked at later', state: 'offered' }]);
    expect(await dueOn()).toEqual([]);
    await api.database.transaction(({ db }) => db.laterLook.updateMany({ where: { jobId }, data: { remindOn: new Date('2026-05-12') } }));
    expect(await dueOn()).toMatchObject([{ thing: { kind: 'job', id: jobId }, detail: 'Cooling looked at later' }]);
  });
  it('is booked with visit, fee, invoice and mail in one act, once', async () => {
    const [{ id }] = await looks(jobId);
    const [{ startsAt, first }] = await starts('exterior_relook', '2026-05-18');
    const book = (who: 'office' | 'anna' = 'office') =>
      api.send(who, 'POST', `/api/later-looks/${id}/visit`, { body: { start: { startsAt, first, second: null } } });
    expect((await book('anna')).status).toBe(403);
    const done = await book();
    expect(done, JSON.stringify(done.body)).toMatchObject({ status: 201, body: { cents: 9_500 } });
    const page = (await api.send('office', 'GET', `/api/jobs/${jobId}`)).body;
    expect(page.visits.map(({ kind }: { kind: string }) => kind)).toEqual(['inspection', 'exterior_relook']);
    expect(page.invoice).toMatchObject({ totalCents: 56_000 });
    expect(await looks(jobId)).toMatchObject([{ state: 'booked' }]);
    expect(await dueOn()).toEqual([]);
    expect(await api.database.read.rows(`SELECT 1 FROM outgoing_mail WHERE message_key LIKE 'later:%'`)).toHaveLength(1);
    expect(await book()).toMatchObject({ status: 409, body: { code: 'look-is' } });
    expect(await api.send('office', 'POST', `/api/later-looks/${id}/declined`)).toMatchObject({ status: 409, body: { code: 'look-is' } });
    expect((await api.send('office', 'POST', `/api/later-looks/${randomUUID()}/declined`)).status).toBe(404);
  });
});

describe('irrigation and pool', () => {
  it.each([
    [{ features: ['pool', 'lawn_sprinklers'] as const, winterized: false }, '2026-06-10', 'yes'],
    [{ features: ['pool', 'lawn_sprinklers'] as const, winterized: true }, '2026-06-10', 'no'],
    [{ features: ['pool', 'lawn_sprinklers'] as const, winterized: false }, '2026-11-10', 'no'],
  ])('with %o on %s are offered: %s', async (facts, day, offered) => {
    const quote = (
      await api.send('office', 'POST', '/api/quotes', {
        once: true,
        body: { facts: { ...FACTS, ...facts }, services: ['inspection'], day, place: PLACE },
      })
    ).body;
    const of = (key: string) => quote.services.find((service: { key: string }) => service.key === key).offered;
    expect([of('pool_spa'), of('lawn_sprinklers')]).toEqual([offered, offered]);
  });
});
