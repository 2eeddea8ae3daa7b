// Hands mail to the server of SMTP_URL, or files it as .eml under DATA_DIR/mail when there is none.
import { createHash } from 'node:crypto';
import fs from 'node:fs/promises';
import path from 'node:path';
import nodemailer from 'nodemailer';

export type MailToHand = { id: string; messageKey: string; toAddress: string; toName: string; subject: string; body: string };
export type Sender = { name: string; address: string };

/** The same for every try of one mail (RFC 5322, 3.6.4), so that a mail that arrives twice is seen once. */
export const messageId = (messageKey: string, domain: string): string =>
  `<${createHash('sha256').update(messageKey).digest('hex').slice(0, 40)}@${domain}>`;

const letter = (mail: MailToHand, from: Sender) => ({
  from,
  to: { name: mail.toName, address: mail.toAddress },
  subject: mail.subject,
  text: mail.body,
  messageId: messageId(mail.messageKey, from.address.split('@')[1] ?? 'localhost'),
});

/** Sends through a mail server; what it does not accept, or not in time, throws. */
export function smtpMailer(url: string): (mail: MailToHand, from: Sender) => Promise<'sent'> {
  const transport = nodemailer.createTransport({ url, connectionTimeout: 8000, greetingTimeout: 8000, socketTimeout: 10_000 });
  return async (mail, from) => {
    await transport.sendMail(letter(mail, from));
    return 'sent';
  };
}

/** Files mail as .eml (RFC 5322), one file for each message, named so that a second try replaces the first. */
export function fileMailer(folder: string): (mail: MailToHand, from: Sender) => Promise<'kept'> {
  const transport = nodemailer.createTransport({ streamTransport: true, buffer: true, newline: 'windows' });
  return async (mail, from) => {
    const { message } = await transport.sendMail(letter(mail, from));
    await fs.mkdir(folder, { recursive: true, mode: 0o700 });
    await fs.writeFile(path.join(folder, `${mail.id}.eml`), message as Buffer, { mode: 0o600 });
    return 'kept';
  };
}
