// How the demo firm's mail went: the mail server that it had until yesterday took nearly all of it.
import type { Row } from './memory/tables.ts';

const DAY = 86_400_000;
const HOUR = 3_600_000;
const NOT_THERE = '550 5.1.1 no such mailbox';

/** One of a kind each: the newest confirmation of the past came back, one was refused, one waits for its next try, one was given up. */
function special(mails: readonly Row[], now: Date): Map<string, Partial<Row>> {
  const told = mails.filter(({ kind, recordedAt }) => kind === 'confirmation' && now.getTime() - recordedAt.getTime() > DAY).toReversed();
  const states: Partial<Row>[] = [
    { state: 'bounced', lastError: NOT_THERE },
    { state: 'given_up', attempts: 8, sentAt: null, lastError: '451 4.3.2 try again later' },
    { state: 'refused', sentAt: null, lastError: '552 5.3.4 message too big' },
    { state: 'waiting', attempts: 4, sentAt: null, lastError: '451 4.7.1 greylisted', nextTryAt: new Date(now.getTime() + 2 * HOUR) },
  ];
  return new Map(states.flatMap((state, at) => (told[at * 2] ? [[told[at * 2]!.id as string, state]] : [])));
}

/** Mail of the past was sent, but for a few; that of the last day was kept in the outbox, because the demo has no mail server. */
export function mailed(mails: readonly Row[], now: Date): Row[] {
  const states = special(mails, now);
  return mails.map((mail) => {
    if (now.getTime() - mail.recordedAt.getTime() <= DAY) return { ...mail, state: 'kept', attempts: 1 };
    return { ...mail, state: 'sent', attempts: 1, sentAt: new Date(mail.recordedAt.getTime() + 20_000), ...states.get(mail.id) };
  });
}

/** The address from which one of them came back. */
export const badAddresses = (mails: readonly Row[], now: Date): Row[] =>
  mailed(mails, now)
    .filter(({ state }) => state === 'bounced')
    .map(({ id, toAddress, sentAt }) => ({
      id,
      address: toAddress.toLowerCase(),
      reason: NOT_THERE,
      mailId: id,
      recordedAt: new Date(sentAt.getTime() + HOUR),
      clearedAt: null,
    }));
