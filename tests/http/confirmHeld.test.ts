// Confirming keeps a time as it was held, also one whose hold had lapsed, and leaves what was settled before as it was.
import { expect, it } from 'vitest';
import { updateNeed } from '@backsight/store/jobs/jobs';
import { lapseHolds } from '@backsight/usecases/jobs/lapseHolds';
import { CAST } from '../support/cast.ts';
import { holdBody } from '../support/holdBody.ts';
import { testApi } from '../support/http.ts';
import { withStarter } from '../support/starter.ts';

const api = testApi();
withStarter(api);

const held = async (day: string): Promise<string> => {
  const body = holdBody({ startsAt: `${day}T13:00:00.000Z`, first: CAST.anna.id, second: CAST.ben.id });
  expect((await api.send('office', 'POST', '/api/jobs', { body })).status).toBe(201);
  return body.id;
};
const confirm = async (id: string) => (await api.send('office', 'POST', `/api/jobs/${id}/confirmation`, { body: {} })).status;
const rows = (sql: string, id: string) => api.database.read.rows(sql, [id]);

it('of a hold that had lapsed takes the people again', async () => {
  const id = await held('2026-06-02');
  const visits = `SELECT v.state, v.live, bool_and(a.live) AS taken, v.hold_ends_at AS ends FROM visit v JOIN assignment a ON a.visit_id = v.id WHERE v.job_id = $1::uuid GROUP BY v.id`;
  api.clock.now = new Date(api.clock.now.getTime() + 3_600_000);
  await lapseHolds({ database: api.database, runner: api.runner, clock: () => api.clock.now });
  expect(await rows(visits, id)).toMatchObject([{ state: 'lapsed', live: false, taken: false }]);
  expect(await confirm(id)).toBe(201);
  expect(await rows(visits, id)).toMatchObject([{ state: 'booked', live: true, taken: true, ends: null }]);
});

it('says nothing anew of a payer who was known', async () => {
  const id = await held('2026-06-03');
  const known = { state: 'settled', details: { how: 'The seller pays.' }, at: api.clock.now, by: CAST.office.id } as const;
  expect(await api.database.transaction((tx) => updateNeed(tx, id, 'payer', known))).toBe(true);
  expect(await confirm(id)).toBe(201);
  expect(await rows(`SELECT details FROM job_need WHERE job_id = $1::uuid AND kind = 'payer'`, id)).toMatchObject([
    { details: known.details },
  ]);
});

it('of a time that somebody took since says what else there is, as holding it says', async () => {
  const id = await held('2026-06-04');
  api.clock.now = new Date(api.clock.now.getTime() + 3_600_000);
  await held('2026-06-04');
  const body = holdBody({ startsAt: '2026-06-04T13:00:00.000Z', first: CAST.anna.id, second: CAST.ben.id });
  const told = await api.send('office', 'POST', '/api/jobs', { body });
  const refused = await api.send('office', 'POST', `/api/jobs/${id}/confirmation`, { body: {} });
  expect([refused.status, refused.body.code, refused.body.about.nextStartsAt.length > 0]).toEqual([409, 'person-taken', true]);
  expect(refused.body.about).toEqual(told.body.about);
});
