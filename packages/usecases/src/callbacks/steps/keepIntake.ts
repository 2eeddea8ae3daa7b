// Keeps how a callback came in: by which way, from which mail, and of a near-miss by whom it was caught.
import { mailKey, type LoggedMail } from '@backsight/domain/callbacks/mailKey';
import type { CaughtBy, Danger, Way } from '@backsight/domain/callbacks/intakeWords';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { mailLoggedAs, saveIntake } from '@backsight/store/callbacks/intake';
import { keepText } from '@backsight/store/text';
import type { Work } from '../../run.ts';

export type CameIn = { way: Way; mail?: LoggedMail; dangers?: readonly Danger[]; stepKey?: string; caughtBy?: CaughtBy };

/** What stands in the text of a mail: personal words, so that they can be erased. */
export type MailWords = { sender: string; reference: string };

/** The key of the mail; null when it was none. Refusal: mail-logged-already, with the number of the callback that has it. */
export async function newMail(work: Work, mail: LoggedMail | undefined): Promise<Outcome<string | null>> {
  if (!mail) return accept(null);
  const key = mailKey(mail);
  const number = await mailLoggedAs(work.tx, key);
  return number === null ? accept(key) : refuse('mail-logged-already', { number }, 'mail.reference');
}

export async function keepIntake(work: Work, callbackId: string, key: string | null, came: CameIn): Promise<void> {
  const words = came.mail && JSON.stringify({ sender: came.mail.sender, reference: came.mail.reference } satisfies MailWords);
  await saveIntake(work.tx, {
    callbackId,
    way: came.way,
    dangers: [...(came.dangers ?? [])],
    mailKey: key,
    textId: words ? await keepText(work.tx, work.newId(), words, work.now) : null,
    stepKey: came.stepKey ?? null,
    caughtBy: came.caughtBy ?? null,
    recordedAt: work.now,
  });
}
