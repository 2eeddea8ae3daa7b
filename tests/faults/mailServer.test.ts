// The mail server is down for hours, slow, takes a mail and breaks off, or refuses one recipient: letters wait, leave once, and the owner sees it.
import net from 'node:net';
import { beforeAll, describe, expect, it } from 'vitest';
import { deliverMail, type HandOver } from '@backsight/usecases/mail/deliver';
import { queueMail } from '@backsight/store/mail';
import { smtpMailer } from '../../apps/api/src/http/mailer.ts';
import { freePort } from '../support/program.ts';
import { testApi } from '../support/http.ts';
import { FROM, smtpServer } from '../support/smtp.ts';

const api = testApi();
const { arrived, answers, state } = smtpServer();
let nowhere: HandOver;
beforeAll(async () => {
  const mailer = smtpMailer(`smtp://127.0.0.1:${await freePort()}`, { answerMs: 400, wholeMs: 3000 });
  nowhere = (mail) => mailer(mail, FROM);
});

const NOON = new Date('2026-05-12T17:00:00Z');
const at = (minutes: number) => (api.clock.now = new Date(NOON.getTime() + minutes * 60_000));
const deliver = (handOver: HandOver) =>
  deliverMail({ database: api.database, clock: () => api.clock.now, newId: api.newId, directory: '/nowhere', handOver });
const queue = (key: string, toAddress = `${key}@test.example`) =>
  api.database.transaction((tx) => {
    const id = api.newId();
    const rest = { toName: 'Paula Prior', subject: key, body: 'Dear Paula', aboutKind: 'job', aboutId: id };
    return queueMail(tx, { id, messageKey: key, toAddress, ...rest, at: api.clock.now });
  });
const rows = () =>
  api.database.read.rows<{ key: string; state: string; attempts: number; twice: number; error: string | null }>(
    'SELECT message_key AS key, state, attempts, maybe_twice AS twice, last_error AS error FROM outgoing_mail ORDER BY id',
  );
const seenBy = async (who: 'owner' | 'office') =>
  (await api.send(who, 'GET', '/api/home')).body.lists.find(({ key }: { key: string }) => key === 'mailFailed').count;

describe('a mail server that is down', { timeout: 120_000 }, () => {
  it('keeps letters waiting without giving any up, the owner sees it after an hour, and each leaves once when it is back', async () => {
    at(0);
    for (let n = 0; n < 12; n++) await queue(`down-${n}`);
    const rounds = [0, 20, 40, 120, 240, 360, 480, 600, 720, 840, 960, 1_080, 1_200, 1_320];
    for (const minute of rounds) {
      at(minute);
      await deliver(nowhere);
      if (minute === 40) expect([await seenBy('owner'), await seenBy('office')]).toEqual([0, 0]);
    }
    at(24 * 60);
    const waiting = await rows();
    expect(waiting.map(({ error: _, ...row }) => row)).toEqual(
      Array.from({ length: 12 }, (_, n) => ({ key: `down-${n}`, state: 'waiting', attempts: 0, twice: 0 })),
    );
    // One letter in each round asks for all, and keeps what it heard.
    const heard = waiting.filter(({ error }) => error !== null).length;
    expect(heard).toBeGreaterThan(0);
    expect([await seenBy('owner'), await seenBy('office')]).toEqual([heard, heard]);
    at(24 * 60 + 2);
    expect(await deliver(state.handOver)).toBe(12);
    expect(await deliver(state.handOver)).toBe(0);
    expect(arrived.map(({ subject }) => subject).toSorted()).toEqual(Array.from({ length: 12 }, (_, n) => `down-${n}`).toSorted());
    expect(await rows()).toEqual(
      Array.from({ length: 12 }, (_, n) => ({ key: `down-${n}`, state: 'sent', attempts: 1, twice: 0, error: null })),
    );
    expect(await seenBy('owner')).toBe(0);
    console.log(JSON.stringify({ fault: 'mail server down for a day', letters: 12, rounds: rounds.length, lost: 0, twice: 0 }));
  });
  it('is asked once in a round, not once for each letter', async () => {
    at(48 * 60);
    for (let n = 0; n < 5; n++) await queue(`round-${n}`);
    let asked = 0;
    const counting: HandOver = (mail) => {
      asked += 1;
      return nowhere(mail);
    };
    await deliver(counting);
    expect(asked).toBe(1);
    at(48 * 60 + 2);
    while ((await deliver(state.handOver)) > 0);
    expect(arrived).toHaveLength(5);
  });
});

describe('a mail server that answers', () => {
  it.each([
    ['later', 'waiting', 'sent'],
    ['cut', 'waiting', 'sent'],
    ['slow', 'waiting', 'sent'],
    ['refuse', 'refused', 'refused'],
    ['nobody', 'refused', 'refused'],
  ] as const)('"%s" to one of three letters keeps no other, and it is %s, then %s', async (answer, first, then) => {
    at(72 * 60);
    answers.push('accept', answer);
    for (const n of [1, 2, 3]) await queue(`${answer}-${n}`);
    await deliver(state.handOver);
    const states = async () => (await rows()).filter(({ key }) => key.startsWith(`${answer}-`)).map((row) => row.state);
    expect(await states()).toEqual(['sent', first, 'sent']);
    at(73 * 60);
    await deliver(state.handOver);
    expect(await states()).toEqual(['sent', then, 'sent']);
    expect(arrived.map(({ subject }) => subject).toSorted()).toEqual([1, ...(then === 'sent' ? [2] : []), 3].map((n) => `${answer}-${n}`));
  });
  it('that it has the letter and breaks off before that is heard gets it again, with the same Message-ID, and never more than it is tried', async () => {
    at(96 * 60);
    let lose = 1;
    const server = net.createServer((client) => {
      const behind = net.connect(state.port, '127.0.0.1');
      client.on('error', () => behind.destroy()).pipe(behind);
      behind
        .on('error', () => client.destroy())
        .on('data', (piece) => {
          if (lose > 0 && /^250 .*queued|^250 OK: message/im.test(piece.toString())) {
            lose -= 1;
            client.destroy();
          } else client.write(piece);
        });
    });
    await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
    const mailer = smtpMailer(`smtp://127.0.0.1:${(server.address() as net.AddressInfo).port}`, { answerMs: 1500, wholeMs: 6000 });
    await queue('unheard');
    await deliver((mail) => mailer(mail, FROM));
    expect((await rows()).at(-1)).toMatchObject({ state: 'waiting', attempts: 1 });
    at(96 * 60 + 1);
    await deliver((mail) => mailer(mail, FROM));
    expect((await rows()).at(-1)).toMatchObject({ state: 'sent', attempts: 2 });
    expect(arrived).toHaveLength(2);
    expect(new Set(arrived.map(({ messageId }) => messageId)).size).toBe(1);
    await new Promise((resolve) => server.close(resolve));
  });
});
