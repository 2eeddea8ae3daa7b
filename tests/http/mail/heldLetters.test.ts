// Letters about a job whose evidence is held: each leaves once, the secret of its link goes, and no other word of it changes.
import { beforeAll, describe, expect, it } from 'vitest';
import { deliverMail } from '@backsight/usecases/mail/deliver';
import { MOST_TRIES } from '@backsight/domain/mail/retry';
import { queueMail } from '@backsight/store/mail';
import { testApi } from '../../support/http.ts';
import { openCallback } from '../../support/openCallback.ts';
import { smtpServer } from '../../support/smtp.ts';
import { withStarter } from '../../support/starter.ts';

const api = testApi();
withStarter(api);
const { arrived, state } = smtpServer();
const KEY = 'abcdefghijklmnopqrstuvwxyz0123456789';
let callbackId: string;
beforeAll(async () => {
  api.clock.now = new Date('2026-05-12T17:00:00Z');
  ({ callbackId } = await openCallback(api, ['anna', 'ben']));
  while ((await deliver()) > 0);
});
const deliver = () =>
  deliverMail({ database: api.database, clock: () => api.clock.now, newId: api.newId, directory: '/nowhere', handOver: state.handOver });
const queue = async (messageKey: string): Promise<string> => {
  const id = api.newId();
  const rest = {
    toAddress: 'paula@test.example',
    toName: 'Paula Prior',
    subject: 'We heard you',
    aboutKind: 'callback',
    aboutId: callbackId,
  };
  const body = `Follow it at https://x.example/client/after/${KEY} and pay at https://x.example/client/${KEY}, please.`;
  await api.database.transaction((tx) => queueMail(tx, { id, messageKey, ...rest, body, urgent: true, at: api.clock.now }));
  return id;
};
const row = async (id: string) =>
  (await api.database.read.rows(`SELECT state, body, last_error AS error FROM outgoing_mail WHERE id = $1::uuid`, [id]))[0];

describe('a letter about a held job', () => {
  it('leaves once, and is noted without the secrets of its links', async () => {
    const id = await queue('held-once');
    expect(await deliver()).toBe(1);
    api.clock.now = new Date(api.clock.now.getTime() + 3_600_000);
    expect(await deliver()).toBe(0);
    expect(arrived.map(({ subject }) => subject)).toEqual(['We heard you']);
    const body = 'Follow it at https://x.example/client/after/... and pay at https://x.example/client/..., please.';
    expect(await row(id)).toEqual({ state: 'sent', body, error: null });
  });
  it('keeps its other words: the database refuses to change them', async () => {
    const id = await queue('held-words');
    for (const [column, word] of [
      ['body', 'Something else'],
      ['subject', 'Something else'],
      ['body', `x/client/...`],
    ] as const)
      await expect(
        api.database.transaction((tx) => tx.rows(`UPDATE outgoing_mail SET ${column} = $2 WHERE id = $1::uuid RETURNING 1`, [id, word])),
      ).rejects.toThrow(/evidence_held/);
  });
});

describe('a letter that may have left several times unnoted', () => {
  it('leaves no more, and says so', async () => {
    while ((await deliver()) > 0);
    arrived.length = 0;
    const id = await queue('unnoted');
    await api.database.read.rows(`UPDATE outgoing_mail SET maybe_twice = ${MOST_TRIES} WHERE id = $1::uuid RETURNING 1`, [id]);
    await deliver();
    expect(arrived).toEqual([]);
    expect(await row(id)).toMatchObject({ state: 'given_up', error: expect.stringContaining('Ask whether it arrived') });
  });
});
