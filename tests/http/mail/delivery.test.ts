// Tag: time. Mail against a real SMTP server: accepted, refused, cut off, too slow, never accepted, paused, quiet, and filed when there is no server.
import { createHash } from 'node:crypto';
import fs from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { simpleParser } from 'mailparser';
import { beforeEach, describe, expect, it } from 'vitest';
import { deliverMail, type HandOver } from '@backsight/usecases/mail/deliver';
import { noteMail, queueMail, takeWaitingMail, type NewMail, type TryResult } from '@backsight/store/mail';
import { storeFile } from '@backsight/store/sitework/files';
import { noteFile } from '@backsight/store/sitework/report';
import { fileMailer, messageId } from '../../../apps/api/src/http/mailer.ts';
import { testApi } from '../../support/http.ts';
import { FROM, smtpServer } from '../../support/smtp.ts';

const api = testApi();
const { arrived, answers, state } = smtpServer();
const BODY = 'Dear Paula,\n.\nöpen https://x.example/client/abcdefghijklmnopqrstuvwxyz0123456789 please';
const directory = await fs.mkdtemp(path.join(os.tmpdir(), 'backsight-mail-'));
const NOON = new Date('2026-05-12T17:00:00Z');
beforeEach(() => {
  api.clock.now = NOON;
});

async function queue(messageKey: string, more: Partial<NewMail> = {}): Promise<string> {
  const id = api.newId();
  const rest = {
    toAddress: 'paula@test.example',
    toName: 'Paula "P" Prior',
    subject: 'Ünsigned',
    body: BODY,
    aboutKind: 'job',
    aboutId: id,
  };
  await api.database.transaction((tx) => queueMail(tx, { id, messageKey, ...rest, at: api.clock.now, ...more }));
  return id;
}
const deliver = (by: HandOver = state.handOver) =>
  deliverMail({ database: api.database, clock: () => api.clock.now, newId: api.newId, directory, handOver: by });
const row = async (id: string) =>
  (await api.send('office', 'GET', '/api/mail?limit=100')).body.items.find((m: { id: string }) => m.id === id);
const post = (address: string, body: object = {}) => api.send('office', 'POST', `/api/mail/${address}`, { body });
const later = (minutes: number) => {
  api.clock.now = new Date(api.clock.now.getTime() + minutes * 60_000);
};

describe('a mail', () => {
  it('arrives whole as text and HTML, with the Message-ID of its key, and is sent once', async () => {
    const id = await queue('whole');
    expect(await deliver()).toBe(1);
    expect(await deliver()).toBe(0);
    expect(arrived).toHaveLength(1);
    expect(arrived[0]).toMatchObject({
      subject: 'Ünsigned',
      messageId: messageId('whole', 'test.example'),
      from: { text: '"Test Inspections" <office@test.example>' },
    });
    expect(arrived[0]!.headers.get('auto-submitted')).toBe('auto-generated');
    expect(arrived[0]!.text).toContain('Dear Paula,\n.\nöpen https://x.example/client/abcdefghijklmnopqrstuvwxyz0123456789');
    expect(arrived[0]!.html).toContain('<a href="https://x.example/client/abcdefghijklmnopqrstuvwxyz0123456789">');
    expect(await row(id)).toMatchObject({ state: 'sent', attempts: 1, lastError: null, maybeTwice: 0 });
    expect((await row(id)).body).toContain('/client/... please');
  });
  it.each(['later', 'cut', 'slow'] as const)('that the server answers with "%s" first is tried again a minute later', async (first) => {
    answers.push(first);
    const id = await queue(`first ${first}`);
    await deliver();
    const stuck = await row(id);
    expect(stuck).toMatchObject({ state: 'waiting', attempts: 1 });
    expect(stuck.lastError).not.toBe('');
    expect(new Date(stuck.nextTryAt).getTime() - api.clock.now.getTime()).toBe(60_000);
    expect(await deliver()).toBe(0);
    later(1);
    expect(await deliver()).toBe(1);
    expect(await row(id)).toMatchObject({ state: 'sent', attempts: 2, lastError: null });
    expect(arrived.map((m) => m.messageId)).toEqual([messageId(`first ${first}`, 'test.example')]);
  });
  it('that is refused for good is not tried again, and leaves its address alone', async () => {
    answers.push('refuse');
    const id = await queue('refused');
    await deliver();
    later(600);
    expect(await deliver()).toBe(0);
    expect(await row(id)).toMatchObject({ state: 'refused', attempts: 1 });
    expect((await row(id)).lastError).toContain('not wanted');
    expect((await api.send('office', 'GET', '/api/mail/settings')).body.badAddresses).toEqual([]);
  });
  it('is given up after eight tries with the last error in sight, and goes out when somebody tries again', async () => {
    answers.push(...Array.from({ length: 8 }, () => 'later' as const));
    const id = await queue('never');
    for (const minutes of [1, 5, 25, 120, 120, 120, 120, 1]) {
      await deliver();
      later(minutes);
    }
    expect(await row(id)).toMatchObject({ state: 'given_up', attempts: 8 });
    expect((await row(id)).lastError).toContain('try later');
    expect((await api.send('anna', 'POST', `/api/mail/${id}/try`, { body: {} })).status).toBe(403);
    expect((await post(`${id}/try`)).status).toBe(201);
    await deliver();
    expect(await row(id)).toMatchObject({ state: 'sent' });
    expect(await post(`${id}/try`)).toMatchObject({ status: 409, body: { code: 'mail-not-stuck' } });
  });
  it('is taken by one of two workers only', async () => {
    for (let n = 0; n < 6; n++) await queue(`race ${n}`);
    const [a, b] = await Promise.all([deliver(), deliver()]);
    expect(a + b).toBe(6);
    expect(new Set(arrived.map((m) => m.messageId)).size).toBe(6);
    expect(arrived).toHaveLength(6);
  });
  it('is accepted also when the note comes after its lease, while a failure under an old lease changes nothing', async () => {
    const id = await queue('late-note');
    const take = (minutes: number) => {
      const now = new Date(NOON.getTime() + minutes * 60_000);
      const leaseUntil = new Date(now.getTime() + 60_000);
      return api.database.transaction(async (tx) => ({
        leaseUntil,
        mail: await takeWaitingMail(tx, { now, leaseUntil, urgentOnly: false }),
      }));
    };
    const [old, now] = [await take(0), await take(2)];
    expect([old.mail?.id, now.mail?.id]).toEqual([id, id]);
    const note = (result: TryResult) => api.database.transaction((tx) => noteMail(tx, id, old.leaseUntil, result));
    await note({ state: 'given_up', error: 'too slow', at: NOON });
    expect(await row(id)).toMatchObject({ state: 'waiting' });
    await note({ state: 'sent', at: NOON });
    expect(await row(id)).toMatchObject({ state: 'sent' });
  });
  it('carries its files and its invitation', async () => {
    const bytes = Buffer.from('%PDF-1.7 certificate');
    const sha256 = await storeFile(directory, bytes);
    expect(sha256).toBe(createHash('sha256').update(bytes).digest('hex'));
    await api.database.transaction((tx) =>
      noteFile(tx, { sha256, bytes: bytes.length, name: 'certificate.pdf', mediaType: 'application/pdf', at: api.clock.now }),
    );
    const calendar = 'BEGIN:VCALENDAR\r\nMETHOD:REQUEST\r\nEND:VCALENDAR\r\n';
    const id = await queue('files', { attachments: [{ sha256, name: 'certificate.pdf' }], calendar });
    await deliver();
    const [pdf, ics] = ['application/pdf', 'application/ics'].map((type) => arrived[0]!.attachments.find((a) => a.contentType === type));
    expect(pdf!.content.equals(bytes)).toBe(true);
    expect([ics!.filename, ics!.content.toString()]).toEqual(['appointment.ics', calendar]);
    expect(await row(id)).toMatchObject({ attachments: ['certificate.pdf'], invitation: true });
  });
  it('cannot begin a header of its own', async () => {
    await queue('injected', { subject: 'Hello\r\nBcc: other@test.example', toName: 'Paula\nBcc: third@test.example', body: 'x' });
    await deliver();
    expect(arrived[0]!.subject).toBe('Hello Bcc: other@test.example');
    expect(arrived[0]!.bcc).toBeUndefined();
    expect([...arrived[0]!.headers.keys()]).not.toContain('bcc');
    const raw = {
      id: api.newId(),
      messageKey: 'raw',
      toAddress: 'a@test.example',
      toName: 'A',
      subject: 'x\r\nBcc: b',
      body: 'x',
      state: 'waiting',
    };
    const at = api.clock.now;
    await expect(
      api.database.transaction(({ db }) =>
        db.outgoingMail.create({ data: { ...raw, nextTryAt: at, aboutKind: 'job', aboutId: raw.id, recordedAt: at } }),
      ),
    ).rejects.toThrow(/outgoing_mail_one_line/);
  });
});

describe('a service that dies', () => {
  it('between acceptance and note sends once more under the same Message-ID, and counts it', async () => {
    const id = await queue('crash');
    const accepted = new Promise<void>((resolve) => {
      void deliver(async (mail) => {
        await state.handOver(mail);
        resolve();
        return new Promise(() => {}); // never comes back: the process is gone
      });
    });
    await accepted;
    expect(await deliver()).toBe(0);
    later(3);
    expect(await deliver()).toBe(1);
    expect(arrived.map((m) => m.messageId)).toEqual([messageId('crash', 'test.example'), messageId('crash', 'test.example')]);
    expect(await row(id)).toMatchObject({ state: 'sent', maybeTwice: 1 });
  });
  it('cannot bring an accepted mail back, not even by hand in the database', async () => {
    const id = await queue('once');
    await deliver();
    await expect(
      api.database.transaction(({ db }) => db.outgoingMail.update({ where: { id }, data: { state: 'waiting', sentAt: null } })),
    ).rejects.toThrow(/mail_sent_once/);
  });
});

describe('an address', () => {
  const settings = async () => (await api.send('office', 'GET', '/api/mail/settings')).body;
  const to = { toAddress: 'Gone@test.example', toName: 'Gone', body: 'plain' };
  const party = { id: '', name: 'Gone', email: 'gone@TEST.example', minor: false, recordedAt: NOON };
  it('that the server does not know is marked, and nothing more is sent there until it is cleared', async () => {
    await api.database.transaction(({ db }) => db.party.create({ data: { ...party, id: api.newId() } }));
    answers.push('nobody');
    const id = await queue('nobody', to);
    await deliver();
    expect(await row(id)).toMatchObject({ state: 'refused' });
    expect(await settings()).toMatchObject({ badAddresses: [{ address: 'gone@test.example', people: ['Gone'] }] });
    const next = await queue('nobody 2', to);
    await deliver();
    expect((await row(next)).lastError).toContain('came back before');
    expect(arrived).toEqual([]);
    expect((await post('clear-address', { address: 'GONE@test.example' })).status).toBe(201);
    expect((await post('clear-address', { address: 'GONE@test.example' })).status).toBe(404);
    await queue('nobody 3', to);
    await deliver();
    expect(arrived).toHaveLength(1);
  });
  it('from which mail came back is marked by hand, once the mail was sent; the words then go out anew to another', async () => {
    const id = await queue('bounces', to);
    expect(await post(`${id}/bounce`, { reason: 'mailbox full' })).toMatchObject({ status: 409, body: { code: 'mail-not-sent' } });
    expect(await post(`${id}/anew`, { toAddress: null })).toMatchObject({ status: 409, body: { code: 'mail-not-done' } });
    await deliver();
    expect((await post(`${id}/bounce`, { reason: 'mailbox full' })).status).toBe(201);
    expect(await row(id)).toMatchObject({ state: 'bounced', lastError: 'mailbox full' });
    expect((await settings()).badAddresses).toMatchObject([{ reason: 'mailbox full' }]);
    const home = (await api.send('office', 'GET', '/api/home')).body.lists;
    expect(home.find(({ key }: { key: string }) => key === 'addressesToAsk')).toMatchObject({ count: 1, items: [{ title: 'Gone' }] });
    expect((await post(`${id}/anew`, { toAddress: 'new@test.example' })).status).toBe(201);
    await deliver();
    expect(arrived.at(-1)!.to).toMatchObject({ text: '"Gone" <new@test.example>' });
    const sent = (await api.send('office', 'GET', '/api/mail?limit=100&state=sent')).body.items;
    expect(sent.filter((m: { resendOf: string | null }) => m.resendOf === id)).toHaveLength(1);
    const link = await queue('with a link');
    await deliver();
    expect(await post(`${link}/anew`, { toAddress: null })).toMatchObject({ status: 409, body: { code: 'mail-link-spent' } });
  });
});

describe('the outbox', () => {
  it('sends nothing while it is paused, and says so on the home', async () => {
    expect((await post('pause', { reason: 'Wrong wording' })).status).toBe(201);
    expect((await post('pause', { reason: 'again' })).status).toBe(409);
    await queue('paused', { urgent: true });
    expect(await deliver()).toBe(0);
    const home = (await api.send('office', 'GET', '/api/home')).body.lists;
    expect(home.find(({ key }: { key: string }) => key === 'mailPaused')).toMatchObject({ count: 1, items: [{ detail: 'Wrong wording' }] });
    expect((await post('resume')).status).toBe(201);
    expect((await post('resume')).status).toBe(409);
    expect(await deliver()).toBe(1);
  });
  it('keeps what is not urgent until the morning where the firm is, on the days on which clocks change too', async () => {
    const instants: [string, number][] = [
      ['2026-05-13T01:59:00Z', 2], // 8:59 PM
      ['2026-05-13T02:00:00Z', 1], // 9 PM
      ['2026-03-08T11:59:00Z', 1], // 6:59 AM CDT, hours after the clock went forward
      ['2026-03-08T12:00:00Z', 2],
      ['2026-11-01T12:59:00Z', 1], // 6:59 AM CST, hours after it went back
      ['2026-11-01T13:00:00Z', 2],
    ];
    for (const [at, sent] of instants) {
      api.clock.now = new Date(at);
      await queue(`plain ${at}`);
      await queue(`urgent ${at}`, { urgent: true });
      expect(await deliver(), at).toBe(sent);
      api.clock.now = new Date(Date.parse(at) + 12 * 3_600_000);
      await deliver();
    }
  });
  it('takes settings, within their bounds, from who saw the newest', async () => {
    const seen = (await api.send('office', 'GET', '/api/mail/settings')).body;
    const body = { quietFromMinute: 1200, quietUntilMinute: 480, signAfterDays: 3, payBeforeDays: 0, payOverdueDays: 10, dayBefore: false };
    const put = (version: number, more: object = {}) =>
      api.send('office', 'PUT', '/api/mail/settings', { body: { ...body, ...more }, version });
    expect((await put(seen.version, { quietUntilMinute: 120 })).status).toBe(422);
    expect((await put(seen.version)).status).toBe(200);
    expect(await put(seen.version)).toMatchObject({ status: 412, body: { code: 'changed-meanwhile' } });
    expect((await api.send('office', 'GET', '/api/mail/settings')).body).toMatchObject({ ...body, server: null });
    await put(seen.version + 1, { quietFromMinute: 1260, quietUntilMinute: 420 });
  });
  it('sends a test mail to who asks', async () => {
    expect((await post('test')).status).toBe(201);
    await deliver();
    expect(arrived[0]).toMatchObject({ subject: 'Test of the mail server', to: { text: '"Otto Office" <otto@test.example>' } });
  });
  it('is paged, newest first, narrowed by state, and is for the office', async () => {
    const first = (await api.send('owner', 'GET', '/api/mail?limit=2')).body;
    const second = (await api.send('owner', 'GET', `/api/mail?limit=2&before=${first.next}`)).body;
    expect(first.items).toHaveLength(2);
    expect(first.items[1].id > second.items[0].id).toBe(true);
    const bounced = (await api.send('owner', 'GET', '/api/mail?state=bounced')).body.items;
    expect(bounced.map((m: { state: string }) => m.state)).toEqual(['bounced']);
    expect((await api.send('lead', 'GET', '/api/mail')).status).toBe(403);
  });
});

it('without a server mail is filed as .eml that a mail reader opens, and stays readable with its link', async () => {
  const id = await queue('filed');
  const mailer = fileMailer(path.join(directory, 'mail'));
  await deliver((mail) => mailer(mail, FROM));
  const parsed = await simpleParser(await fs.readFile(path.join(directory, 'mail', `${id}.eml`)));
  expect(parsed).toMatchObject({ subject: 'Ünsigned', messageId: messageId('filed', 'test.example') });
  expect(await row(id)).toMatchObject({ state: 'kept' });
  expect((await row(id)).body).toContain('/client/abcdef');
});
