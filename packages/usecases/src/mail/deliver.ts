// Sends what waits in the outbox. Each mail is sent, and noted, in a transaction of its own that holds its row.
import { nextTry, withoutKeys } from '@backsight/domain/mail/retry';
import type { Database } from '@backsight/store/database';
import { noteMail, takeWaitingMail, type WaitingMail } from '@backsight/store/mail';

/** Hands one mail over; answers 'sent' when a server accepted it, 'kept' when it was only filed. Throws when it was not accepted. */
export type HandOver = (mail: WaitingMail) => Promise<'sent' | 'kept'>;

export type Delivery = { database: Database; clock: () => Date; handOver: HandOver };

const MOST_AT_ONCE = 50;

/**
 * Sends waiting mails whose time has come; answers how many were tried. At least once: when the service dies between the
 * server's acceptance and the note, the mail goes out again under the same Message-ID, so that mail readers see one.
 */
export async function deliverMail(delivery: Delivery): Promise<number> {
  for (let tried = 0; tried < MOST_AT_ONCE; tried++) if (!(await deliverOne(delivery))) return tried;
  return MOST_AT_ONCE;
}

function deliverOne({ database, clock, handOver }: Delivery): Promise<boolean> {
  return database.transaction(async (tx) => {
    const [mail] = await takeWaitingMail(tx, clock(), 1);
    if (!mail) return false;
    const result = await handOver(mail).then(
      (state) => ({ state }),
      (error: unknown) => ({ error: reasonOf(error) }),
    );
    const at = clock();
    if ('state' in result)
      await noteMail(tx, mail.id, { state: result.state, at, ...(result.state === 'sent' ? { body: withoutKeys(mail.body) } : {}) });
    else {
      const next = nextTry(mail.attempts + 1, at);
      await noteMail(tx, mail.id, { state: next ? 'waiting' : 'given_up', error: result.error, ...(next ? { nextTryAt: next } : {}), at });
    }
    return true;
  });
}

const reasonOf = (error: unknown): string => (error instanceof Error ? error.message : String(error)).replace(/\s+/g, ' ').slice(0, 300);
