// Mail against a real SMTP server: accepted, refused first, cut off while sending, never accepted, and filed when there is no server.
import fs from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import pg from 'pg';
import { simpleParser, type ParsedMail } from 'mailparser';
import { SMTPServer } from 'smtp-server';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { deliverMail, type HandOver } from '@backsight/usecases/mail/deliver';
import { fileMailer, messageId, smtpMailer } from '../../apps/api/src/http/mailer.ts';
import { testApi } from '../support/http.ts';

const api = testApi();
const FROM = { name: 'Test Inspections', address: 'office@test.example' };
const arrived: ParsedMail[] = [];
let answers: ('accept' | 'refuse' | 'later' | 'cut')[] = [];
let server: SMTPServer;
let handOver: HandOver;

beforeAll(async () => {
  server = new SMTPServer({
    disabledCommands: ['AUTH', 'STARTTLS'],
    onData(stream, session, done) {
      const answer = answers.shift() ?? 'accept';
      if (answer === 'cut') {
        const { connections } = server as unknown as { connections: Set<{ id: string; _socket: { destroy: () => void } }> };
        for (const one of connections) if (one.id === session.id) one._socket.destroy();
        return;
      }
      void simpleParser(stream).then((mail) => {
        if (answer === 'accept') arrived.push(mail);
        done(
          answer === 'accept'
            ? null
            : Object.assign(new Error(answer === 'later' ? 'try later' : 'no such mailbox'), {
                responseCode: answer === 'later' ? 451 : 550,
              }),
        );
      });
    },
  });
  server.on('error', () => {});
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.server.address() as { port: number };
  const mailer = smtpMailer(`smtp://127.0.0.1:${port}`);
  handOver = (mail) => mailer(mail, FROM);
});
afterAll(() => new Promise<void>((resolve) => server.close(resolve)));
beforeEach(() => {
  arrived.length = 0;
  answers = [];
});

async function queue(
  messageKey: string,
  body = 'Dear Paula,\n.\nöpen https://x.example/client/abcdefghijklmnopqrstuvwxyz0123456789 please',
): Promise<string> {
  const id = api.newId();
  await api.database.transaction(({ db }) =>
    db.outgoingMail.create({
      data: {
        id,
        messageKey,
        toAddress: 'paula@test.example',
        toName: 'Paula "P" Prior',
        subject: 'Ünsigned',
        body,
        state: 'waiting',
        nextTryAt: api.clock.now,
        aboutKind: 'job',
        aboutId: id,
        recordedAt: api.clock.now,
      },
    }),
  );
  return id;
}
const deliver = (by: HandOver = handOver) => deliverMail({ database: api.database, clock: () => api.clock.now, handOver: by });
const row = async (id: string) =>
  (await api.send('office', 'GET', '/api/mail?limit=100')).body.items.find((m: { id: string }) => m.id === id);
async function asOwnerOfTheDatabase(sql: string): Promise<void> {
  const client = new pg.Client(api.url);
  await client.connect();
  await client.query(sql);
  await client.end();
}
const later = (minutes: number) => {
  api.clock.now = new Date(api.clock.now.getTime() + minutes * 60_000);
};

describe('a mail', () => {
  it('arrives whole, with the Message-ID of its key, and is sent once', async () => {
    const id = await queue('whole');
    expect(await deliver()).toBe(1);
    expect(await deliver()).toBe(0);
    expect(arrived).toHaveLength(1);
    expect(arrived[0]).toMatchObject({
      subject: 'Ünsigned',
      messageId: messageId('whole', 'test.example'),
      from: { text: '"Test Inspections" <office@test.example>' },
    });
    expect(arrived[0]!.text).toContain('Dear Paula,\n.\nöpen https://x.example/client/abcdefghijklmnopqrstuvwxyz0123456789');
    expect(await row(id)).toMatchObject({ state: 'sent', attempts: 1, lastError: null });
    expect((await row(id)).body).toContain('/client/... please');
  });
  it.each(['refuse', 'later', 'cut'] as const)('that the server answers with "%s" first is tried again a minute later', async (first) => {
    answers = [first];
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
  it('is given up after eight tries with the last error in sight, and goes out when somebody tries again', async () => {
    answers = Array.from({ length: 8 }, () => 'refuse' as const);
    const id = await queue('never');
    for (const minutes of [1, 5, 25, 120, 120, 120, 120, 1]) {
      await deliver();
      later(minutes);
    }
    expect(await row(id)).toMatchObject({ state: 'given_up', attempts: 8 });
    expect((await row(id)).lastError).toContain('no such mailbox');
    expect((await api.send('anna', 'POST', `/api/mail/${id}/try`, { body: {} })).status).toBe(403);
    expect((await api.send('office', 'POST', `/api/mail/${id}/try`, { body: {} })).status).toBe(201);
    await deliver();
    expect(await row(id)).toMatchObject({ state: 'sent' });
    expect(await api.send('office', 'POST', `/api/mail/${id}/try`, { body: {} })).toMatchObject({
      status: 409,
      body: { code: 'mail-not-stuck' },
    });
  });
  it('goes out again under the same Message-ID when the service dies between acceptance and note', async () => {
    await queue('crash');
    const dying: HandOver = async (mail) => {
      await handOver(mail);
      await asOwnerOfTheDatabase(
        `SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE datname = current_database() AND state = 'idle in transaction' AND pid <> pg_backend_pid()`,
      );
      return 'sent';
    };
    await expect(deliver(dying)).rejects.toThrow();
    await deliver();
    expect(arrived.map((m) => m.messageId)).toEqual([messageId('crash', 'test.example'), messageId('crash', 'test.example')]);
  });
  it('is taken by one of two workers only', async () => {
    for (let n = 0; n < 6; n++) await queue(`race ${n}`);
    const [a, b] = await Promise.all([deliver(), deliver()]);
    expect(a + b).toBe(6);
    expect(new Set(arrived.map((m) => m.messageId)).size).toBe(6);
    expect(arrived).toHaveLength(6);
  });
});

describe('without a server', () => {
  it('mail is filed as .eml that a mail reader opens, and stays readable with its link', async () => {
    const folder = await fs.mkdtemp(path.join(os.tmpdir(), 'backsight-mail-'));
    const id = await queue('filed');
    const mailer = fileMailer(path.join(folder, 'mail'));
    await deliver((mail) => mailer(mail, FROM));
    const parsed = await simpleParser(await fs.readFile(path.join(folder, 'mail', `${id}.eml`)));
    expect(parsed).toMatchObject({ subject: 'Ünsigned', messageId: messageId('filed', 'test.example') });
    expect(await row(id)).toMatchObject({ state: 'kept' });
    expect((await row(id)).body).toContain('/client/abcdef');
    await fs.rm(folder, { recursive: true });
  });
});

it('the outbox is paged, newest first, and is for the office', async () => {
  const first = (await api.send('owner', 'GET', '/api/mail?limit=2')).body;
  const second = (await api.send('owner', 'GET', `/api/mail?limit=2&before=${first.next}`)).body;
  expect(first.items).toHaveLength(2);
  expect(first.items[1].id > second.items[0].id).toBe(true);
  expect((await api.send('lead', 'GET', '/api/mail')).status).toBe(403);
});
