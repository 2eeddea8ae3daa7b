// Tag: time.
// Reminders: to sign, to pay and of tomorrow's visit; once each, never to who did it, not in quiet hours, not when switched off.
import { beforeEach, describe, expect, it } from 'vitest';
import { remindAll } from '@backsight/usecases/mail/remind';
import { deskOf } from '../../support/desk.ts';
import { testApi } from '../../support/http.ts';
import { withStarter } from '../../support/starter.ts';

const api = testApi();
withStarter(api);
const desk = deskOf(api);
const START = new Date(api.clock.now);
beforeEach(() => {
  api.clock.now = START;
});
const remind = () =>
  remindAll({ database: api.database, runner: api.runner, clock: () => api.clock.now, publicUrl: 'https://firm.example' });
const mailsOf = (kind: string) =>
  api.database.read.rows<{ body: string; about: string }>(
    'SELECT body, about_id::text AS about FROM outgoing_mail WHERE kind = $1 ORDER BY id',
    [kind],
  );
const to = (iso: string) => {
  api.clock.now = new Date(iso);
};
const settings = async (edit: object) => {
  const { version, quietFromMinute, quietUntilMinute, signAfterDays, payBeforeDays, payOverdueDays, dayBefore } = (
    await api.send('office', 'GET', '/api/mail/settings')
  ).body;
  const body = { quietFromMinute, quietUntilMinute, signAfterDays, payBeforeDays, payOverdueDays, dayBefore, ...edit };
  expect((await api.send('office', 'PUT', '/api/mail/settings', { body, version })).status).toBe(200);
};
const OFF = { signAfterDays: 0, payBeforeDays: 0, payOverdueDays: 0, dayBefore: false };

describe('somebody who has not signed', () => {
  it('gets a fresh link after the days of the settings, at most three, and none once it is signed', async () => {
    await settings({ ...OFF, signAfterDays: 2 });
    const job = await desk.booked({}, { fromDay: '2026-05-25', days: 7 });
    to('2026-05-13T17:00:00Z');
    expect(await remind()).toBe(0);
    to('2026-05-15T17:00:00Z');
    expect(await remind()).toBe(1);
    expect(await remind()).toBe(0);
    const [mail] = await mailsOf('reminder_signing');
    expect(mail!.about).toBe(job.id);
    const link = /https:\/\/firm\.example(\/client\/[\w-]+)/.exec(mail!.body)![1]!;
    expect((await api.send('nobody', 'GET', link)).status).toBe(200);
    to('2026-05-17T18:00:00Z');
    expect(await remind()).toBe(1);
    to('2026-05-19T19:00:00Z');
    expect(await remind()).toBe(1);
    to('2026-05-21T20:00:00Z');
    expect(await remind()).toBe(0);
    expect(await mailsOf('reminder_signing')).toHaveLength(3);
  });
});

describe('tomorrow’s visit', () => {
  it('is reminded of once for each start, by day, and not when it was cancelled', async () => {
    await settings({ ...OFF, dayBefore: true });
    const job = await desk.booked({}, { fromDay: '2026-05-20', days: 1 });
    const off = await desk.booked({}, { fromDay: '2026-05-21', days: 1 });
    const { version } = await desk.job(off.id);
    const waived = { reason: 'Sold.', waive: true, waiver: 'Goodwill for once.' };
    await api.send('office', 'PUT', `/api/jobs/${off.id}/cancellation`, { body: waived, version });
    to('2026-05-18T17:00:00Z');
    expect(await remind()).toBe(0);
    to('2026-05-19T11:00:00Z'); // 6:00 AM: quiet
    expect(await remind()).toBe(0);
    to('2026-05-19T13:00:00Z');
    expect(await remind()).toBe(1);
    expect(await remind()).toBe(0);
    const mails = await mailsOf('reminder_day_before');
    expect(mails.map(({ about }) => about)).toEqual([job.id]);
    expect(mails[0]!.body).toContain('tomorrow we come to');
    to('2026-05-20T15:00:00Z');
    expect(await remind()).toBe(0);
  });
  it('waits while mail is paused', async () => {
    await desk.booked({}, { fromDay: '2026-05-22', days: 1 });
    await api.send('office', 'POST', '/api/mail/pause', { body: { reason: 'Looking at a wording' } });
    to('2026-05-21T15:00:00Z');
    expect(await remind()).toBe(0);
    api.clock.now = START;
    await api.send('office', 'POST', '/api/mail/resume', { body: {} });
    to('2026-05-21T15:00:00Z');
    expect(await remind()).toBe(1);
  });
});

describe('an invoice', () => {
  it('is reminded of before and after its due day, once each, and not again', async () => {
    await settings({ ...OFF, payBeforeDays: 2, payOverdueDays: 7 });
    const job = await desk.booked({}, { fromDay: '2026-06-10', days: 1 });
    const { invoice } = await desk.job(job.id);
    const noon = (day: string, days: number) => new Date(Date.parse(`${day}T17:00:00Z`) + days * 86_400_000);
    const told = async (days: number) => {
      api.clock.now = noon(invoice.dueOn, days);
      await remind();
      await remind();
      return (await mailsOf('reminder_payment')).filter(({ about }) => about === invoice.id).length;
    };
    expect([await told(-3), await told(-2), await told(6), await told(7), await told(9)]).toEqual([0, 1, 1, 2, 2]);
    const mails = (await mailsOf('reminder_payment')).filter(({ about }) => about === invoice.id);
    expect(mails.map(({ body }) => /It (is|was) due/.exec(body)![1])).toEqual(['is', 'was']);
  });
});
