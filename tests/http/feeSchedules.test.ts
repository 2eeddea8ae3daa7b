// Fee schedules, services, inquiries and pay over HTTP: drafted, compared, tried, put in force; who may; what the database refuses.
import { randomUUID } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { freezePayOf } from '@backsight/usecases/fees/pay';
import { deskOf } from '../support/desk.ts';
import { testApi } from '../support/http.ts';
import { withStarter } from '../support/starter.ts';
import { CAST } from '../support/cast.ts';

const api = testApi();
withStarter(api);
const { booked } = deskOf(api);

const list = async () => (await api.send('owner', 'GET', '/api/fee-schedules')).body.items;
const drafted = async (name = 'Next year') => {
  const copyOf = (await list()).find((one: { now: boolean }) => one.now).id;
  const id = randomUUID();
  expect(await api.send('owner', 'POST', '/api/fee-schedules', { body: { id, name, copyOf } })).toMatchObject({ status: 201 });
  return { id, copyOf, page: (await api.send('owner', 'GET', `/api/fee-schedules/${id}`)).body };
};
const ASKED = {
  facts: { livingArea: 1800, yearBuilt: 1995 },
  services: ['inspection'],
  day: '2026-05-16',
  travelMinutes: 10,
  startMinute: 420,
};

describe('a fee schedule', () => {
  it('is drafted as a copy, changed, compared in words and put in force from a day', async () => {
    const { id, copyOf, page } = await drafted();
    expect(page.differences).toEqual([]);
    const early = {
      key: 'early',
      label: 'Early start',
      applies: { always: true },
      kind: 'outsideHours',
      before: 480,
      after: 1080,
      days: ['saturday'],
      cents: 9_500,
    };
    const rules = [...page.rules.filter(({ key }: { key: string }) => key !== 'crawl'), early];
    rules[0] = { ...rules[0], label: 'Inspection of a home' };
    expect((await api.send('owner', 'PUT', `/api/fee-schedules/${id}`, { version: 1, body: { name: 'Next year', rules } })).status).toBe(
      200,
    );
    const after = (await api.send('owner', 'GET', `/api/fee-schedules/${id}?beside=${copyOf}`)).body;
    expect(after.differences.map(({ key, what }: { key: string; what: string }) => [key, what])).toEqual([
      ['base', 'changed'],
      ['early', 'added'],
      ['crawl', 'removed'],
    ]);
    expect(after.words.at(-1).text).toBe('outside hours: $95 for a start before 8:00 AM or after 6:00 PM, or on a Saturday');
    const tried = (await api.send('owner', 'POST', '/api/fee-schedules/what-if', { body: { rules, ...ASKED } })).body;
    expect(tried.tried.totalCents - tried.now.totalCents).toBe(9_500);
    expect(tried.tried.lines.at(-1)).toMatchObject({ label: 'Early start', reason: 'on a Saturday' });
    expect(
      await api.send('owner', 'PUT', `/api/fee-schedules/${id}/in-force`, { version: 2, body: { fromDay: '2020-01-01' } }),
    ).toMatchObject({ body: { code: 'fee-schedule-back' } });
    expect(
      (await api.send('owner', 'PUT', `/api/fee-schedules/${id}/in-force`, { version: 2, body: { fromDay: '2039-01-01' } })).body
        .inForceFrom,
    ).toBe('2039-01-01T06:00:00.000Z');
    expect(await api.send('owner', 'PUT', `/api/fee-schedules/${id}`, { version: 3, body: { name: 'x', rules } })).toMatchObject({
      status: 409,
      body: { code: 'fee-schedule-fixed' },
    });
    await expect(api.database.transaction((tx) => tx.db.feeSchedule.update({ where: { id }, data: { name: 'Other' } }))).rejects.toThrow(
      /fee_schedule_fixed/,
    );
    expect((await list()).find((one: { now: boolean }) => one.now).id).toBe(copyOf);
    expect((await api.send('owner', 'PUT', `/api/fee-schedules/${id}/dropped`, { version: 3, body: {} })).status).toBe(200);
    expect(await api.send('owner', 'PUT', `/api/fee-schedules/${copyOf}/dropped`, { version: 1, body: {} })).toMatchObject({
      body: { code: 'fee-schedule-begun' },
    });
  });

  it('prices jobs booked from its day on, and jobs of before keep theirs', async () => {
    const { id, page } = await drafted('Dearer');
    const before = await booked();
    const dear = { key: 'dear', label: 'Fuel', applies: { always: true }, kind: 'surcharge', cents: 2_500 };
    await api.send('owner', 'PUT', `/api/fee-schedules/${id}`, { version: 1, body: { name: 'Dearer', rules: [...page.rules, dear] } });
    const over = `/api/fee-schedules/${id}/over-jobs?beside=${page.beside.id}&from=2026-01-01&until=2026-12-31`;
    expect((await api.send('office', 'GET', over)).body).toMatchObject({ jobs: 1, higher: 1, lower: 0 });
    const { lines, beforeCents, afterCents } = (await api.send('office', 'GET', over)).body;
    expect(afterCents - beforeCents).toBe(2_500);
    expect(lines.find(({ key }: { key: string }) => key === 'dear')).toMatchObject({
      kind: 'surcharge',
      beforeCents: 0,
      afterCents: 2_500,
    });
    const today = (await api.send('office', 'GET', '/api/inquiries')).body.today;
    expect((await api.send('owner', 'PUT', `/api/fee-schedules/${id}/in-force`, { version: 2, body: { fromDay: today } })).status).toBe(
      200,
    );
    const after = await booked();
    const linesOf = async (jobId: string) =>
      (await api.send('office', 'GET', `/api/jobs/${jobId}`)).body.feeLines.map(({ rule }: { rule: string }) => rule);
    expect(await linesOf(before.id)).not.toContain('dear');
    expect(await linesOf(after.id)).toContain('dear');
  });

  it.each([
    [
      'bands that do not rise',
      {
        kind: 'travelBand',
        bands: [
          { upToMinutes: 30, cents: 0 },
          { upToMinutes: 20, cents: 100 },
          { upToMinutes: null, cents: 200 },
        ],
      },
    ],
    ['a last band with a limit', { kind: 'travelBand', bands: [{ upToMinutes: 30, cents: 0 }] }],
    ['a negative amount', { kind: 'surcharge', cents: -1 }],
    ['a huge amount', { kind: 'surcharge', cents: 100_000_001 }],
    ['half a cent', { kind: 'surcharge', cents: 0.5 }],
    ['more than all off', { kind: 'discount', percent: 100.01, reason: 'x' }],
    ['nothing off', { kind: 'discount', percent: 0, reason: 'x' }],
    ['a discount without a reason', { kind: 'discount', percent: 5, reason: ' ' }],
    ['both percent and amount', { kind: 'discount', percent: 5, cents: 5, reason: 'x' }],
    ['hours that end before they begin', { kind: 'outsideHours', before: 900, after: 600, days: [], cents: 1 }],
    ['a step of nothing', { kind: 'perUnitOver', fact: 'livingArea', over: 1, step: 0, cents: 1 }],
    ['a service that nobody offers', { kind: 'addOn', service: 'moon_walk', cents: 1 }],
  ])('is refused with %s, and the draft stays', async (_what, wrong) => {
    const { id, page } = await drafted();
    const rules = [...page.rules, { key: 'wrong', label: 'Wrong', applies: { always: true }, ...wrong }];
    const answer = await api.send('owner', 'PUT', `/api/fee-schedules/${id}`, { version: 1, body: { name: 'Next year', rules } });
    expect(answer.status).toBeGreaterThanOrEqual(400);
    expect(answer.status).toBeLessThan(500);
    expect((await api.send('owner', 'GET', `/api/fee-schedules/${id}`)).body).toMatchObject({ version: 1, differences: [] });
  });

  it.each(['office', 'lead', 'anna'] as const)('is not changed by %s', async (who) => {
    const { id } = await drafted();
    expect((await api.send(who, 'PUT', `/api/fee-schedules/${id}/in-force`, { version: 1, body: { fromDay: '2039-01-01' } })).status).toBe(
      403,
    );
  });
});

describe('a service', () => {
  it('is added, changed and no longer offered; the inspection stays', async () => {
    const body = {
      key: 'gutters',
      name: 'Gutter camera',
      searchWords: ['gutter'],
      providerOnly: false,
      offeredWhen: { always: true },
      extraVisit: null,
    };
    expect((await api.send('owner', 'POST', '/api/services', { body })).status).toBe(201);
    expect(await api.send('owner', 'POST', '/api/services', { body })).toMatchObject({ body: { code: 'service-key-taken' } });
    const { key: _key, ...rest } = body;
    expect((await api.send('owner', 'PUT', '/api/services/gutters', { version: 1, body: { ...rest, offered: false } })).status).toBe(200);
    const quote = await api.send('office', 'POST', '/api/quotes', {
      body: { facts: {}, services: ['inspection'], day: '2026-05-14', place: null },
    });
    expect(quote.body.services.map(({ key }: { key: string }) => key)).not.toContain('gutters');
    const inspection = (await api.send('office', 'GET', '/api/services')).body.items.find(({ base }: { base: boolean }) => base);
    const same = {
      name: inspection.name,
      searchWords: inspection.searchWords,
      providerOnly: false,
      offeredWhen: inspection.offeredWhen,
      extraVisit: null,
    };
    expect(
      await api.send('owner', 'PUT', `/api/services/${inspection.key}`, { version: 1, body: { ...same, offered: false } }),
    ).toMatchObject({ body: { code: 'base-service-stays' } });
  });
});

describe('an inquiry', () => {
  const saved = async (more: object = {}) => {
    const id = randomUUID();
    const body = {
      id,
      caller: 'Ida Vance',
      facts: { livingArea: 1800 },
      services: ['inspection'],
      day: '2026-05-14',
      place: null,
      draft: { caller: 'Ida Vance', town: 'Birchmere' },
      followUpOn: null,
      ...more,
    };
    return { id, answer: await api.send('office', 'POST', '/api/inquiries', { body }) };
  };
  it('keeps its price and its booking, is due on the home, and is counted by what became of it', async () => {
    const { today } = (await api.send('office', 'GET', '/api/inquiries')).body;
    const { id, answer } = await saved({ followUpOn: today, note: 'Asks her sister' });
    expect(answer.status).toBe(201);
    expect((await api.send('office', 'GET', `/api/inquiries/${id}`)).body).toMatchObject({
      draft: { caller: 'Ida Vance', town: 'Birchmere' },
      totalCents: answer.body.totalCents,
    });
    const home = (await api.send('office', 'GET', '/api/home')).body.lists.find(({ key }: { key: string }) => key === 'inquiriesDue');
    expect(home.items).toMatchObject([{ title: 'Ida Vance', detail: 'Asked for a price: Asks her sister', day: today }]);
    expect(
      await api.send('office', 'PUT', `/api/inquiries/${id}/outcome`, { version: 1, body: { outcome: 'booked', jobId: null } }),
    ).toMatchObject({ status: 404 });
    const job = await booked();
    expect(
      (await api.send('office', 'PUT', `/api/inquiries/${id}/outcome`, { version: 1, body: { outcome: 'booked', jobId: job.id } })).status,
    ).toBe(200);
    expect(await api.send('office', 'PUT', `/api/inquiries/${id}/outcome`, { version: 2, body: { outcome: 'price' } })).toMatchObject({
      body: { code: 'inquiry-closed' },
    });
    expect((await api.send('office', 'GET', '/api/inquiries')).body.outcomes).toContainEqual({
      outcome: 'booked',
      count: 1,
      cents: answer.body.totalCents,
    });
  });
  it('is not followed up on a day that is past', async () => {
    expect((await saved({ followUpOn: '2020-01-01' })).answer).toMatchObject({ status: 422, body: { code: 'follow-up-past' } });
  });
});

describe('pay', () => {
  const rule = { basis: { kind: 'share', firstPercent: 30, secondPercent: 20 }, writer: { kind: 'amount', cents: 4_000 } };
  const set = (body: object) =>
    api.send('owner', 'POST', '/api/pay-rules', { body: { id: randomUUID(), fromDay: '2026-01-01', rule, ...body } });
  it('freezes who went and the rule of the day, once, and exports it', async () => {
    const job = await booked();
    await api.database.transaction((tx) => tx.rows(`UPDATE visit SET state = 'done' WHERE job_id = $1::uuid RETURNING id`, [job.id]));
    const [visit] = await api.database.read.rows<{ day: string; first: string; second: string }>(
      `SELECT starts_at::date::text AS day, (SELECT person_id FROM assignment WHERE visit_id = v.id AND place = 'first') AS first, (SELECT person_id FROM assignment WHERE visit_id = v.id AND place = 'second') AS second FROM visit v WHERE job_id = $1::uuid`,
      [job.id],
    );
    for (const personId of [visit!.first, visit!.second]) expect((await set({ personId })).status).toBe(201);
    const after = (days: number) => ({ ...api, clock: () => new Date(api.clock.now.getTime() + days * 86_400_000) });
    expect(await freezePayOf(after(90), { near: true }), 'what is long past is for the look at everything').toBe(0);
    expect(await freezePayOf(after(0), { near: true })).toBe(2);
    expect(await freezePayOf(after(0))).toBe(0);
    const { body } = await api.send('owner', 'GET', `/api/pay?from=${visit!.day}&until=${visit!.day}`);
    const fee = body.lines[0].feeCents;
    expect(body.lines.map(({ part, cents }: { part: string; cents: number }) => [part, cents]).sort()).toEqual([
      ['first', Math.round(fee * 0.3)],
      ['second', Math.round(fee * 0.2)],
    ]);
    const csv = await api.send('owner', 'GET', `/api/pay.csv?from=${visit!.day}&until=${visit!.day}`);
    expect(csv.body.split('\r\n')[0]).toBe('Person,Day,Job,Address,Visit,Part,Fee of the job,Minutes,Rule,Pay');
    expect(await set({ personId: visit!.first, fromDay: visit!.day })).toMatchObject({ body: { code: 'pay-frozen' } });
    await expect(api.database.transaction((tx) => tx.rows('UPDATE visit_pay SET cents = 0 RETURNING visit_id'))).rejects.toThrow();
  });
  it('shows others only their own, and takes no rule with figures of callbacks', async () => {
    expect(
      (await api.send('anna', 'GET', `/api/pay?from=2026-01-01&until=2026-12-31&personId=${CAST.ben.id}`)).body.lines.every(
        ({ personId }: { personId: string }) => personId === CAST.anna.id,
      ),
    ).toBe(true);
    expect((await api.send('anna', 'GET', '/api/pay-rules')).status).toBe(403);
    expect((await set({ personId: CAST.anna.id, rule: { ...rule, perCallback: -100 } })).status).toBe(422);
    const body = JSON.stringify({ ...rule, perCallback: -100 });
    await expect(
      api.database.transaction((tx) =>
        tx.rows(
          `INSERT INTO pay_rule (id, person_id, from_day, body, recorded_at, recorded_by) VALUES ($1::uuid, $2::uuid, '2026-01-01', $3::jsonb, now(), $2::uuid) RETURNING id`,
          [randomUUID(), CAST.anna.id, body],
        ),
      ),
    ).rejects.toThrow(/pay_rule_sees/);
  });
});
