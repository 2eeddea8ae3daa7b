// Wordings of mail over HTTP: listed with fields, looked at with a real job, saved, used, and back to the built-in one.
import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { deskOf } from '../../support/desk.ts';
import { testApi } from '../../support/http.ts';
import { withStarter } from '../../support/starter.ts';

const api = testApi();
withStarter(api);
const desk = deskOf(api);
let job: { id: string; visitId: string };
beforeAll(async () => {
  job = await desk.booked();
}, 60_000);

const one = async (kind: string) =>
  (await api.send('office', 'GET', '/api/mail/wordings')).body.find((w: { kind: string }) => w.kind === kind);
const post = (address: string, body: object = {}, who: 'office' | 'lead' | 'owner' = 'office') =>
  api.send(who, 'POST', `/api/mail/wordings/${address}`, { body });

describe('a wording', () => {
  it('is listed with its fields, and is for the office', async () => {
    const wording = await one('agreement');
    expect(wording).toMatchObject({ builtIn: true, history: [] });
    expect(wording.fields).toContainEqual({ name: 'link', about: 'the private link', optional: false, must: true });
    expect((await api.send('lead', 'GET', '/api/mail/wordings')).status).toBe(403);
  });
  it('is looked at with a real job, and nothing is kept', async () => {
    const body = { subject: 'See you, job {{job}}', body: 'Dear {{name}}, on {{appointment}} <b>', jobId: job.id };
    const seen = (await api.send('office', 'POST', '/api/mail/wordings/confirmation/preview', { body, once: true })).body;
    const { number } = await desk.job(job.id);
    expect(seen.subject).toBe(`See you, job ${number}`);
    expect(seen.body).toMatch(/^Dear .+, on \w+day, May \d+, 2026/);
    expect(seen.html).toContain('&lt;b&gt;');
    expect(await one('confirmation')).toMatchObject({ builtIn: true });
    const other = { ...body, jobId: randomUUID() };
    expect((await api.send('office', 'POST', '/api/mail/wordings/confirmation/preview', { body: other, once: true })).status).toBe(404);
  });
  it.each([
    ['{{appointment}} {{password}}', 'mail-unknown-field'],
    ['no time in it', 'mail-field-missing'],
  ])('that says %j is refused, at its text', async (text, code) => {
    const answer = await post('confirmation', { subject: 'x', body: text });
    expect(answer.body).toMatchObject({ code });
    expect(await one('confirmation')).toMatchObject({ builtIn: true });
  });
  it('of the firm is used from then on, with its history, until the built-in one is wanted again', async () => {
    expect((await post('cancellation/built-in')).body).toMatchObject({ code: 'mail-wording-built-in' });
    expect((await post('cancellation', { subject: 'Off: job {{job}}', body: 'Hello {{name}}: {{money}}' })).status).toBe(201);
    expect(await one('cancellation')).toMatchObject({
      builtIn: false,
      history: [{ recordedBy: 'Otto Office', subject: 'Off: job {{job}}' }],
    });
    api.clock.now = new Date(api.clock.now.getTime() + 60_000);
    const { version } = await desk.job(job.id);
    await api.send('office', 'PUT', `/api/jobs/${job.id}/cancellation`, {
      body: { reason: 'The sale fell through.', waive: false, waiver: '' },
      version,
    });
    const [mail] = await desk.mails(`cancelled:${job.id}:%`);
    expect(mail!.body).toMatch(/^Hello .+: It was cancelled less than 24 hours before/);
    api.clock.now = new Date(api.clock.now.getTime() + 60_000);
    expect((await post('cancellation/built-in')).status).toBe(201);
    const after = await one('cancellation');
    expect(after).toMatchObject({ builtIn: true });
    expect(after.history.map((h: { body: string | null }) => h.body === null)).toEqual([true, false]);
  });
  it('that an attorney reviewed is locked until an owner names a new review', async () => {
    const words = { subject: 'About {{number}}', body: 'Dear {{name}}, {{decision}}' };
    const review = { attorney: 'A. Counsel', on: '2026-05-11' };
    const soon = () => void (api.clock.now = new Date(api.clock.now.getTime() + 60_000));
    expect((await post('decision', { ...words, review })).body).toMatchObject({ code: 'mail-wording-locked', field: 'attorney' });
    expect((await post('decision', { ...words, review }, 'owner')).status).toBe(201);
    expect(await one('decision')).toMatchObject({ review });
    soon();
    expect((await post('decision', { ...words, body: 'Hello {{decision}}' }, 'owner')).body.code).toBe('mail-wording-locked');
    expect((await post('decision/built-in', {}, 'office')).body.code).toBe('mail-wording-locked');
    expect((await post('decision/built-in', { review: { ...review, on: '2031-01-01' } }, 'owner')).body.code).toBe('approval-ahead');
    expect((await post('decision/built-in', { review }, 'owner')).status).toBe(201);
    expect(await one('decision')).toMatchObject({ review: null, builtIn: true });
  });
  it('that was is never changed', async () => {
    await expect(api.database.transaction(({ db }) => db.mailWording.updateMany({ data: { body: 'x' } }))).rejects.toThrow();
  });
});

describe('a client', () => {
  it('was sent the appointment and its cancelling as calendar entries under one uid, with a rising sequence', async () => {
    const rows = await api.database.read.rows<{ calendar: string }>(
      `SELECT calendar FROM outgoing_mail WHERE about_id = $1::uuid AND calendar IS NOT NULL ORDER BY id`,
      [job.id],
    );
    const told = rows.map(({ calendar }) => ({
      method: /METHOD:(\w+)/.exec(calendar)![1],
      uid: /UID:(.+)\r/.exec(calendar)![1],
      sequence: Number(/SEQUENCE:(\d+)/.exec(calendar)![1]),
    }));
    expect(told.map(({ method }) => method)).toEqual(['REQUEST', 'CANCEL']);
    expect(told.map(({ uid }) => uid)).toEqual(Array.from({ length: 2 }, () => `visit-${job.visitId}@backsight`));
    expect(told[1]!.sequence).toBeGreaterThan(told[0]!.sequence);
  });
});
