// Before a radon monitor is placed: whoever is at the house is asked once to close it, and again after a move; placing settles it.
import { randomUUID } from 'node:crypto';
import { expect, it } from 'vitest';
import { askToCloseHouses } from '@backsight/usecases/jobs/askToClose';
import { placeTestItem } from '@backsight/usecases/sitework/testItems';
import { CAST } from '../support/cast.ts';
import { deskOf } from '../support/desk.ts';
import { testApi } from '../support/http.ts';
import { withStarter } from '../support/starter.ts';

const api = testApi();
withStarter(api);
const { job, booked, mails } = deskOf(api);
const ask = () => askToCloseHouses({ database: api.database, runner: api.runner, clock: () => api.clock.now });
const stateOf = async (id: string) =>
  (await api.database.read.rows(`SELECT state FROM job_need WHERE job_id = $1::uuid AND kind = 'closed_house'`, [id]))[0];

it('is asked by mail within 36 hours of the start, once, and settled when the monitor is placed in a closed house', async () => {
  const one = await booked({ services: ['inspection', 'radon'] }, { services: ['inspection', 'radon'], fromDay: '2026-05-20', days: 1 });
  const start = Date.parse((await job(one.id)).visits[0].startsAt);
  api.clock.now = new Date(start - 37 * 3_600_000);
  expect(await ask()).toBe(0);
  api.clock.now = new Date(start - 30 * 3_600_000);
  expect(await ask()).toBe(1);
  expect(await ask()).toBe(0);
  const [mail] = await mails('closed-house:%');
  expect(mail!.body).toMatch(/closed from Tuesday, May 19, at .* on: 12 hours before.* 48 hours later at the soonest/);
  expect(await stateOf(one.id)).toEqual({ state: 'asked' });
  api.clock.now = new Date(start + 3_600_000);
  const placed = {
    id: randomUUID(),
    jobId: one.id,
    kind: 'device' as const,
    serial: 'RM-7',
    what: 'radon monitor',
    happenedAt: new Date(start + 1_800_000).toISOString(),
    closedSince: new Date(start - 12 * 3_600_000).toISOString(),
    occupantTold: true,
  };
  const { id, name, roles } = CAST.office;
  const actor = { kind: 'person' as const, id, name, roles };
  expect((await api.runner.run(placeTestItem, placed, { actor })).ok).toBe(true);
  expect(await stateOf(one.id)).toEqual({ state: 'settled' });
});
