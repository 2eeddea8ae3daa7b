// Sends what waits in the outbox. Each mail is taken under a lease, handed over outside any transaction, and noted.
import { mailHtml } from '@backsight/domain/mail/html';
import { isQuiet } from '@backsight/domain/mail/quiet';
import { MOST_TRIES, nextTry, UNREACHED_MINUTES, verdictOn, withoutKeys, type ServerAnswer } from '@backsight/domain/mail/retry';
import type { Database } from '@backsight/store/database';
import { findFirm } from '@backsight/store/firm';
import { noteMail, takeWaitingMail, type TryResult, type WaitingMail } from '@backsight/store/mail';
import { badReason, markBad } from '@backsight/store/mail/badAddresses';
import { findMailSettings } from '@backsight/store/mail/settings';
import { readStoredFile } from '@backsight/store/sitework/files';

export { writeWhole } from '@backsight/store/sitework/files';

export type MailToHand = Omit<WaitingMail, 'attempts' | 'maybeTwice' | 'attachments'> & {
  html: string;
  attachments: { name: string; mediaType: string; bytes: Buffer }[];
};

/** Hands one mail over; answers 'sent' when a server accepted it, 'kept' when it was only filed. Throws when it was not accepted. */
export type HandOver = (mail: MailToHand) => Promise<'sent' | 'kept'>;

/** `directory` is where files are kept. */
export type Delivery = {
  database: Database;
  clock: () => Date;
  newId: () => string;
  directory: string;
  handOver: HandOver;
  /** Whether to take no other mail after the one under way. */
  stopping?: (() => boolean) | undefined;
};

const MOST_AT_ONCE = 50;
/** Longer than any mailer tries. */
const LEASE_MS = 120_000;

/**
 * Sends waiting mails whose time has come; answers how many were tried. Nothing goes out while the outbox is paused, and only what is
 * urgent in quiet hours. At least once: when the service dies between the server's acceptance and the note, the mail goes out again
 * under the same Message-ID once its lease is over, and that is counted.
 */
export async function deliverMail(delivery: Delivery): Promise<number> {
  const { read } = delivery.database;
  const [settings, firm] = [await findMailSettings(read), await findFirm(read)];
  if (settings.pausedAt) return 0;
  const urgentOnly = isQuiet(delivery.clock(), firm?.zone ?? 'UTC', settings);
  for (let tried = 0; tried < MOST_AT_ONCE; tried++) if (delivery.stopping?.() || !(await deliverOne(delivery, urgentOnly))) return tried;
  return MOST_AT_ONCE;
}

/** It may have left each time: it leaves no more, and people see to it. */
const UNNOTED = 'It could not be noted whether this mail was accepted, several times. Ask whether it arrived before it is sent again.';

/** Whether to go on: there was one, and a server to take it. */
async function deliverOne(delivery: Delivery, urgentOnly: boolean): Promise<boolean> {
  const { database, clock } = delivery;
  const now = clock();
  const leaseUntil = new Date(now.getTime() + LEASE_MS);
  const mail = await database.transaction((tx) => takeWaitingMail(tx, { now, leaseUntil, urgentOnly }));
  if (!mail) return false;
  const result = await tryOnce(delivery, mail);
  await database.transaction(async (tx) => {
    await noteMail(tx, mail.id, leaseUntil, result);
    if (result.badAddress)
      await markBad(tx, { id: delivery.newId(), address: mail.toAddress, reason: result.error!, mailId: mail.id, at: result.at });
  });
  return result.counts !== false;
}

async function tryOnce(delivery: Delivery, mail: WaitingMail): Promise<TryResult & { badAddress?: boolean }> {
  if (mail.maybeTwice >= MOST_TRIES) return { state: 'given_up', error: UNNOTED, at: delivery.clock() };
  const bad = await badReason(delivery.database.read, mail.toAddress);
  if (bad !== null) return { state: 'refused', error: `Not sent: mail to this address came back before. ${bad}`, at: delivery.clock() };
  try {
    const state = await delivery.handOver(await whole(delivery, mail));
    return { state, at: delivery.clock(), ...(state === 'sent' ? { body: withoutKeys(mail.body) } : {}) };
  } catch (error) {
    return failed(error, mail.attempts + 1, delivery.clock());
  }
}

async function whole({ directory }: Delivery, { attempts: _, maybeTwice: __, attachments, ...mail }: WaitingMail): Promise<MailToHand> {
  const files = attachments.map(async ({ sha256, name, mediaType }) => ({
    name,
    mediaType,
    bytes: await readStoredFile(directory, sha256),
  }));
  return { ...mail, html: mailHtml(mail.subject, mail.body), attachments: await Promise.all(files) };
}

function failed(error: unknown, failures: number, at: Date): TryResult & { badAddress?: boolean } {
  const reason = reasonOf(error);
  const verdict = verdictOn(error as ServerAnswer);
  if (verdict === 'unreached') {
    const nextTryAt = new Date(at.getTime() + UNREACHED_MINUTES * 60_000);
    return { state: 'waiting', error: reason, nextTryAt, at, counts: false };
  }
  if (verdict !== 'later') return { state: 'refused', error: reason, at, badAddress: verdict === 'address' };
  const next = nextTry(failures, at);
  return { state: next ? 'waiting' : 'given_up', error: reason, ...(next ? { nextTryAt: next } : {}), at };
}

const reasonOf = (error: unknown): string => (error instanceof Error ? error.message : String(error)).replace(/\s+/g, ' ').slice(0, 300);
