// Queues a mail of one kind to somebody outside the firm, in the firm's own wording where it has one.
import { writeLetter, type Values } from '@backsight/domain/mail/letter';
import type { MailKind } from '@backsight/domain/mail/templates';
import type { Attached } from '@backsight/store/mail';
import { findWording, type Wording } from '@backsight/store/mail/wording';
import type { Work } from '../../run.ts';

export type Letter = {
  kind: MailKind;
  messageKey: string;
  to: { name: string; email: string };
  /** Of the fields of this kind, besides the name. */
  values: Values;
  about: { kind: string; id: string };
  urgent?: boolean;
  calendar?: string;
  attachments?: readonly Attached[];
  /** The firm's own wording of this kind, where it was asked for already. */
  wording?: Wording | null;
};

/** @throws Error when a field that must say something is empty: a wording was checked when it was saved, so the caller forgot a value */
export async function sendLetter(work: Work, letter: Letter): Promise<void> {
  const { kind, messageKey, to, values, about, urgent, calendar, attachments, wording } = letter;
  const own = wording === undefined ? await findWording(work.tx, kind) : wording;
  const written = writeLetter(kind, own, { ...values, name: to.name });
  if (!written.ok) throw new Error(`the mail ${kind} cannot be written: ${JSON.stringify(written)}`);
  await work.mail({
    kind,
    messageKey,
    toAddress: to.email,
    toName: to.name,
    ...written.value,
    aboutKind: about.kind,
    aboutId: about.id,
    urgent: urgent ?? false,
    calendar: calendar ?? null,
    attachments: attachments ?? [],
  });
}
