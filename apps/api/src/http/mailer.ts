// Hands mail to the server of SMTP_URL, or files it as .eml under DATA_DIR/mail when there is none.
import { createHash } from 'node:crypto';
import fs from 'node:fs/promises';
import path from 'node:path';
import nodemailer from 'nodemailer';
import { writeWhole, type MailToHand } from '@backsight/usecases/mail/deliver';
import { isHere } from '../config.ts';

export type Sender = { name: string; address: string };

/** The same for every try of one mail (RFC 5322, 3.6.4), so that a mail that arrives twice is seen once. */
export const messageId = (messageKey: string, domain: string): string =>
  `<${createHash('sha256').update(messageKey).digest('hex').slice(0, 40)}@${domain}>`;

/** Text and HTML of the same words, an invitation as its own part (RFC 6047), files behind. Says that no person answers (RFC 3834). */
const letter = (mail: MailToHand, from: Sender) => ({
  from,
  to: { name: mail.toName, address: mail.toAddress },
  subject: mail.subject,
  text: mail.body,
  html: mail.html,
  headers: { 'Auto-Submitted': 'auto-generated' },
  attachments: mail.attachments.map(({ name, mediaType, bytes }) => ({ filename: name, contentType: mediaType, content: bytes })),
  messageId: messageId(mail.messageKey, from.address.split('@')[1] ?? 'localhost'),
  ...(mail.calendar === null
    ? {}
    : {
        icalEvent: { method: /^METHOD:(\w+)/m.exec(mail.calendar)?.[1] ?? 'PUBLISH', filename: 'appointment.ics', content: mail.calendar },
      }),
});

const USUAL = { answerMs: 10_000, wholeMs: 60_000 };

/** Mail to a server on another machine is always encrypted, but where the installation allows plain connections. */
export const mailWaits = (url: string, plainHttp: boolean) => ({ ...USUAL, requireTLS: !plainHttp && !isHere(url) });

/** Sends through a mail server; what it does not accept, or not in time, throws. `requireTLS`: with a server that offers no TLS nothing is sent. */
export function smtpMailer(
  url: string,
  { answerMs, wholeMs, requireTLS = false }: { answerMs: number; wholeMs: number; requireTLS?: boolean } = USUAL,
): (mail: MailToHand, from: Sender) => Promise<'sent'> {
  const waits = { connectionTimeout: answerMs, greetingTimeout: answerMs, socketTimeout: answerMs };
  return async (mail, from) => {
    const transport = nodemailer.createTransport({ url, requireTLS, ...waits });
    let timer: NodeJS.Timeout | undefined;
    const late = new Promise<never>((_, reject) => {
      timer = setTimeout(() => reject(new Error('The mail server took too long.')), wholeMs);
    });
    try {
      await Promise.race([transport.sendMail(letter(mail, from)), late]);
      return 'sent';
    } finally {
      clearTimeout(timer);
      transport.close();
    }
  };
}

/** Files mail as .eml (RFC 5322), one file for each message, named so that a second try replaces the first. */
export function fileMailer(folder: string): (mail: MailToHand, from: Sender) => Promise<'kept'> {
  const transport = nodemailer.createTransport({ streamTransport: true, buffer: true, newline: 'windows' });
  return async (mail, from) => {
    const { message } = await transport.sendMail(letter(mail, from));
    await fs.mkdir(folder, { recursive: true, mode: 0o700 });
    await writeWhole(path.join(folder, `${mail.id}.eml`), message as Buffer);
    return 'kept';
  };
}

/** How the server of SMTP_URL is reached, without its password; null when mail is only filed. */
export function serverShown(
  smtpUrl: string | undefined,
  plainHttp: boolean,
): { host: string; port: number; tls: 'from the start' | 'always' | 'when offered'; user: string | null } | null {
  if (!smtpUrl) return null;
  const { protocol, hostname, port, username } = new URL(smtpUrl);
  const secure = protocol === 'smtps:';
  return {
    host: hostname,
    port: Number(port) || (secure ? 465 : 587),
    tls: secure ? 'from the start' : mailWaits(smtpUrl, plainHttp).requireTLS ? 'always' : 'when offered',
    user: username ? decodeURIComponent(username) : null,
  };
}
