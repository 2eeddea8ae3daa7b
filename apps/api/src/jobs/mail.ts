// Sends what waits in the outbox, every two seconds.
import path from 'node:path';
import { firmName } from '@backsight/usecases/firm/readFirm';
import { deliverMail, type HandOver } from '@backsight/usecases/mail/deliver';
import { fileMailer, mailWaits, smtpMailer } from '../http/mailer.ts';
import type { Job, Services } from '../http/services.ts';

const mailers = new WeakMap<Services, ReturnType<typeof mailerOf>>();

const mailerOf = ({ config }: Services) =>
  config.smtpUrl ? smtpMailer(config.smtpUrl, mailWaits(config.smtpUrl, config.plainHttp)) : fileMailer(path.join(config.dataDir, 'mail'));

/** Sends every mail whose time has come, from the firm's own address. */
export async function sendWaitingMail(services: Services): Promise<number> {
  const firm = await firmName(services.database.read);
  if (!firm) return 0;
  const mailer = mailers.get(services) ?? mailerOf(services);
  mailers.set(services, mailer);
  const handOver: HandOver = (mail) => mailer(mail, { name: firm.name, address: firm.email });
  const { database, clock, newId, config, stopping } = services;
  return deliverMail({ database, clock, newId, directory: config.dataDir, handOver, stopping });
}

export const mail: Job = { name: 'send mail', everyMs: 2000, run: sendWaitingMail };
