// Tag: time.
// When mail is tried again.
import { expect, it } from 'vitest';
import { nextTry, verdictOn, withoutKeys } from '@backsight/domain/mail/retry';

const now = new Date('2026-05-12T15:00:00Z');

it('waits longer after each failure and gives up after eight', () => {
  const waits = [1, 2, 3, 4, 5, 6, 7, 8].map((failures) => {
    const next = nextTry(failures, now);
    return next && (next.getTime() - now.getTime()) / 60_000;
  });
  expect(waits).toEqual([1, 5, 25, 120, 120, 120, 120, null]);
});

// RFC 5321, 4.2.1: a 5yz reply is permanent, a 4yz reply is not.
it.each([
  [{ responseCode: 550, command: 'RCPT TO' }, 'address'],
  [{ responseCode: 554, command: 'DATA' }, 'message'],
  [{ responseCode: 535, command: 'AUTH PLAIN' }, 'later'],
  [{ responseCode: 550, command: 'MAIL FROM' }, 'later'],
  [{ responseCode: 450, command: 'RCPT TO' }, 'later'],
  [{ responseCode: 600, command: 'RCPT TO' }, 'later'],
  [{}, 'later'],
  [{ command: 'CONN', code: 'ESOCKET', originalCode: 'ECONNREFUSED' }, 'unreached'],
  [{ command: 'CONN', code: 'ESOCKET', originalCode: 'ECONNRESET' }, 'later'],
  [{ responseCode: 421, command: 'CONN' }, 'later'],
] as const)('of the answer %j it is for %s', (answer, verdict) => expect(verdictOn(answer)).toBe(verdict));

it('takes the key out of a private link and leaves other words alone', () => {
  expect(withoutKeys('Open https://x.example/client/abcdefghijklmnopqrstuvwxyz_-0123 now, see /client/short')).toBe(
    'Open https://x.example/client/... now, see /client/short',
  );
});
