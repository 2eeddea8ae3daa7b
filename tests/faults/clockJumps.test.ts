// The clock of the service jumps forward and back, and daylight saving begins and ends in the night: holds, sessions, codes, reminders and the trail.
import { Secret, TOTP } from 'otpauth';
import { describe, expect, it } from 'vitest';
import { sealAudit, verifyAudit } from '@backsight/store/audit';
import { lapseHolds } from '@backsight/usecases/jobs/lapseHolds';
import { remindAll } from '@backsight/usecases/mail/remind';
import { holdBody } from '../support/booking.ts';
import { CAST, PASSWORD } from '../support/cast.ts';
import { deskOf } from '../support/desk.ts';
import { testApi } from '../support/http.ts';
import { withStarter } from '../support/starter.ts';

const api = testApi();
withStarter(api);
const desk = deskOf(api);
const HOUR = 3_600_000;
const jump = (hours: number) => (api.clock.now = new Date(api.clock.now.getTime() + hours * HOUR));
const to = (iso: string) => (api.clock.now = new Date(iso));
const enter = (code?: string) =>
  api
    .app()
    .inject({ method: 'POST', url: '/api/session', payload: { email: CAST.lead2.email, password: PASSWORD, ...(code ? { code } : {}) } });
const me = async (cookie: string) => (await api.app().inject({ method: 'GET', url: '/api/me', headers: { cookie } })).statusCode;
const live = async (id: string) =>
  (await api.database.read.rows<{ state: string }>('SELECT state FROM visit WHERE job_id = $1::uuid', [id]))[0]!.state;
const remind = () =>
  remindAll({ database: api.database, runner: api.runner, clock: () => api.clock.now, publicUrl: 'https://firm.example' });
const lapse = () => lapseHolds({ database: api.database, runner: api.runner, clock: () => api.clock.now });
const reminded = (id: string) =>
  api.database.read.rows(`SELECT 1 FROM outgoing_mail WHERE kind = 'reminder_day_before' AND about_id = $1::uuid`, [id]);

describe('when the clock jumps', () => {
  it('an hour forward, holds lapse and their times are free again', async () => {
    const [option] = (await desk.starts()).options;
    const held = await desk.held();
    jump(1);
    await lapse();
    expect(await live(held.id)).not.toBe('held');
    const other = holdBody(option);
    expect((await api.send('office', 'POST', '/api/jobs', { body: other })).status).toBe(201);
    expect((await api.send('office', 'POST', `/api/jobs/${other.id}/confirmation`)).status).toBe(201);
    expect((await api.send('office', 'POST', `/api/jobs/${held.id}/confirmation`)).status).toBe(409);
  });
  it('an hour back, a hold stands, is confirmed, and nobody else gets its time', async () => {
    const { options } = await desk.starts();
    const held = await desk.held();
    jump(-1);
    expect(await lapse()).toBe(0);
    expect(await live(held.id)).toBe('held');
    expect((await desk.starts()).options).not.toContainEqual(options[0]);
    expect((await api.send('office', 'POST', `/api/jobs/${held.id}/confirmation`)).status).toBe(201);
  });
  it('a session lasts its twelve hours by the clock, and outlives a jump back', async () => {
    const cookie = String((await enter()).headers['set-cookie']).split(';')[0]!;
    jump(-1);
    expect(await me(cookie)).toBe(200);
    jump(12.9);
    expect(await me(cookie)).toBe(200);
    jump(0.2);
    expect(await me(cookie)).toBe(401);
  });
  // RFC 6238, 5.2: a code that was taken is not taken again.
  it('a code of the phone is never good twice; after a jump back a recovery code helps until the clock has caught up', async () => {
    const cookie = String((await enter()).headers['set-cookie']).split(';')[0]!;
    const ask = async (method: 'POST' | 'PUT', payload: object) =>
      (await api.app().inject({ method, url: '/api/me/second-factor', headers: { cookie }, payload })).json();
    const { secret } = await ask('POST', { password: PASSWORD });
    const shown = () => new TOTP({ secret: Secret.fromBase32(secret) }).generate({ timestamp: api.clock.now.getTime() });
    const { codes } = await ask('PUT', { code: shown() });
    api.clock.now = new Date(api.clock.now.getTime() + 60_000);
    const code = shown();
    expect((await enter(code)).statusCode).toBe(200);
    jump(-1);
    expect((await enter(code)).statusCode).toBe(401);
    expect((await enter(shown())).statusCode).toBe(401);
    expect((await enter(codes[0])).statusCode).toBe(200);
    jump(1.1);
    expect((await enter(shown())).statusCode).toBe(200);
  });
  it('the trail keeps the order in which it was written, and holds', async () => {
    const seals = async () => (await api.database.read.rows<{ n: number }>('SELECT max(seal_no)::int AS n FROM audit_seal'))[0]!.n;
    while ((await sealAudit(api.database)) > 0);
    const before = await seals();
    jump(-1);
    const { id } = await desk.held();
    while ((await sealAudit(api.database)) > 0);
    const [row] = await api.database.read.rows<{ n: number; last: boolean }>(
      `SELECT s.seal_no::int AS n, a.recorded_at < (SELECT max(recorded_at) FROM audit_row) AS last FROM audit_seal s JOIN audit_row a ON a.id = s.audit_id WHERE a.thing_id = $1::uuid`,
      [id],
    );
    expect(row!.n).toBeGreaterThan(before);
    expect(row!.last, 'its time is before that of older rows').toBe(true);
    expect(await verifyAudit(api.database.read)).toMatchObject({ brokenAt: null, unsealed: 0 });
    jump(2);
  });
  it('rows that a clock wrote days in the past wait for the look at the whole trail, and what follows them is sealed at once', async () => {
    const near = async () => {
      while ((await sealAudit(api.database, { near: true })) > 0);
      return verifyAudit(api.database.read);
    };
    expect(await near()).toMatchObject({ brokenAt: null, unsealed: 0 });
    jump(-50);
    await desk.held();
    expect((await near()).unsealed).toBeGreaterThan(0);
    while ((await sealAudit(api.database)) > 0);
    await desk.held();
    expect(await near()).toMatchObject({ brokenAt: null, unsealed: 0 });
    jump(51);
  });
});

// Daylight saving in America/Chicago (tz database): begins 2026-03-08, ends 2026-11-01, both at 2:00 local time.
describe.each([
  ['begins', '2027-03-13T15:00:00Z', '2027-03-15'],
  ['ends', '2026-10-31T15:00:00Z', '2026-11-02'],
])('in the night in which daylight saving %s', (_, saturday, monday) => {
  it('the visit stays at its local time, and its client is reminded once, on the day before, however often the clock jumps', async () => {
    to(saturday);
    const job = await desk.booked({}, { fromDay: monday, days: 1 });
    const [visit] = await api.database.read.rows<{ at: string }>(
      `SELECT to_char(starts_at AT TIME ZONE 'America/Chicago', 'YYYY-MM-DD HH24') AS at FROM visit WHERE job_id = $1::uuid`,
      [job.id],
    );
    expect(visit!.at).toMatch(new RegExp(`^${monday} (0[89]|1\\d)$`));
    await remind();
    expect(await reminded(job.id)).toEqual([]);
    for (let n = 0; n < 12; n++) {
      jump(n % 3 === 2 ? -1 : 3);
      await remind();
    }
    to(`${monday}T05:30:00Z`);
    await remind();
    jump(-11);
    await remind();
    jump(1);
    await remind();
    expect(await reminded(job.id)).toHaveLength(1);
  });
});
