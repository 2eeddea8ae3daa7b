// What the office does about one mail: try it again now, note that it came back, send it anew; and clears an address.
import { holdsKey } from '@backsight/domain/mail/retry';
import { accept, refuse } from '@backsight/domain/shared/outcome';
import { findToResend, lockMail, noteBounce, tryAgainAt } from '@backsight/store/mail';
import { clearBad, markBad } from '@backsight/store/mail/badAddresses';
import { FIRM_THING } from '../firm/steps/localDay.ts';
import type { Act } from '../run.ts';

const said = (state: string): string => state.replaceAll('_', ' ');

/** Puts a mail that is stuck first in line again. */
export const tryMailAgain: Act<{ id: string }, { id: string }> = {
  operation: 'mail.try_again',
  run: async (work, { id }) => {
    const mail = await lockMail(work.tx, id);
    if (!mail) return refuse('not-found', { thing: 'mail' });
    if (mail.state !== 'waiting' && mail.state !== 'given_up') return refuse('mail-not-stuck', { state: said(mail.state) });
    await tryAgainAt(work.tx, id, work.now);
    await work.did('mail', id, { stateBefore: mail.state });
    return accept({ id });
  },
};

/** Notes that an accepted mail came back: its address is marked, and nothing more is sent there until it is cleared. */
export const noteMailBounce: Act<{ id: string; reason: string }, { id: string }> = {
  operation: 'mail.note-bounce',
  run: async (work, { id, reason }) => {
    const mail = await lockMail(work.tx, id);
    if (!mail) return refuse('not-found', { thing: 'mail' });
    if (mail.state !== 'sent') return refuse('mail-not-sent', { state: said(mail.state) });
    await noteBounce(work.tx, id, reason);
    await markBad(work.tx, { id: work.newId(), address: mail.toAddress, reason, mailId: id, at: work.now });
    await work.did('mail', id, { bounced: true });
    return accept({ id });
  },
};

/** Sends the same words as a new mail, linked to the first: to the same address, or to another one. */
export const sendMailAnew: Act<{ id: string; toAddress: string | null }, { id: string }> = {
  operation: 'mail.send-anew',
  keepKeyForEver: true,
  run: async (work, { id, toAddress }) => {
    const mail = await findToResend(work.tx, id);
    if (!mail) return refuse('not-found', { thing: 'mail' });
    if (mail.state === 'waiting') return refuse('mail-not-done');
    if (holdsKey(mail.body)) return refuse('mail-link-spent');
    const { id: _, at: __, state: ___, ...same } = mail;
    await work.mail({
      ...same,
      toAddress: toAddress ?? mail.toAddress,
      messageKey: `anew:${id}:${work.newId()}`,
      urgent: true,
      resendOf: id,
    });
    await work.did('mail', id, { sentAnew: true, otherAddress: toAddress !== null });
    return accept({ id });
  },
};

/** The address is right after all, or works again. */
export const clearBadAddress: Act<{ address: string }, { cleared: boolean }> = {
  operation: 'mail.clear-address',
  run: async (work, { address }) => {
    if (!(await clearBad(work.tx, address, work.now))) return refuse('not-found', { thing: 'address' });
    await work.did('firm', FIRM_THING, { addressCleared: true });
    return accept({ cleared: true });
  },
};

/** A mail to whoever asks, to see that the mail server takes it. */
export const sendTestMail: Act<{ name: string; email: string }, { id: string }> = {
  operation: 'mail.test',
  run: async (work, { name, email }) => {
    const id = work.newId();
    await work.mail({
      kind: 'test',
      messageKey: `test:${id}`,
      toAddress: email,
      toName: name,
      subject: 'Test of the mail server',
      body: `Dear ${name},\n\nthis mail shows that the service can send mail. Nothing needs doing.`,
      aboutKind: 'firm',
      aboutId: FIRM_THING,
      urgent: true,
    });
    await work.did('firm', FIRM_THING, { testMail: true });
    return accept({ id });
  },
};
