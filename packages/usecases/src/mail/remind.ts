// Reminds by mail: to sign, to pay, and of tomorrow's visit. Each act looks again whether it was done meanwhile.
import { DateTime } from 'luxon';
import { appointmentInWords } from '@backsight/domain/agreements/facts';
import { isQuiet } from '@backsight/domain/mail/quiet';
import { formatUsd } from '@backsight/domain/shared/money';
import { accept, refuse } from '@backsight/domain/shared/outcome';
import { findSigner, lockSigner, newestAgreement } from '@backsight/store/agreements';
import { findJobForAgreement } from '@backsight/store/agreements/job';
import type { Database } from '@backsight/store/database';
import { findInvoice, lockInvoice } from '@backsight/store/fees';
import { findFirm } from '@backsight/store/firm';
import { paymentKey, unpaidAround, unsignedSince, visitsOn, type OpenInvoice } from '@backsight/store/mail/reminders';
import { findMailSettings } from '@backsight/store/mail/settings';
import { findVisit } from '@backsight/store/schedule/visits';
import { renewLink } from '../agreements/steps/renewLink.ts';
import { localDay } from '../firm/steps/localDay.ts';
import { comingOf } from '../jobs/steps/coming.ts';
import type { Act, Runner } from '../run.ts';
import { sendLetter } from './steps/letter.ts';

const NOTHING_LEFT = { told: false };
type Told = { told: boolean };

/** A signer who has not signed gets a fresh link. */
export const remindToSign: Act<{ signerId: string; publicUrl: string }, Told> = {
  operation: 'mail.remind-to-sign',
  run: async (work, { signerId, publicUrl }) => {
    await lockSigner(work.tx, signerId);
    const signer = await findSigner(work.tx, signerId);
    const job = signer && (await findJobForAgreement(work.tx, signer.jobId));
    if (!signer || !job) return refuse('not-found', { thing: 'signer' });
    const standing = (await newestAgreement(work.tx, signer.jobId))?.id === signer.agreementId;
    const told = signer.signature === null && standing && signer.email !== null && job.visit !== null;
    if (told)
      await renewLink(work, {
        signer: { ...signer, email: signer.email! },
        job,
        publicUrl,
        sharedAddress: signer.sharedAddress,
        why: 'reminder',
      });
    await work.did('signer', signerId, { reminded: told });
    return accept({ told });
  },
};

/** Whoever pays an invoice that is still open is told what is open. */
export const remindToPay: Act<OpenInvoice, Told> = {
  operation: 'mail.remind-to-pay',
  run: async (work, { id, name, email, when }) => {
    await lockInvoice(work.tx, id);
    const invoice = await findInvoice(work.tx, id);
    const firm = await findFirm(work.tx);
    if (!invoice || !firm) return refuse('not-found', { thing: 'invoice' });
    const openCents = invoice.totalCents - invoice.paidCents;
    const told = invoice.state === 'issued' && openCents > 0;
    const day = DateTime.fromISO(invoice.dueOn, { zone: 'utc', locale: 'en-US' }).toFormat('cccc, LLLL d, yyyy');
    if (told)
      await sendLetter(work, {
        kind: 'reminder_payment',
        messageKey: paymentKey(id, invoice.dueOn, when),
        to: { name, email },
        values: {
          firm: firm.name,
          firm_phone: firm.phone,
          address: invoice.address,
          invoice: String(invoice.number),
          open: formatUsd(openCents),
          due: when === 'before' ? `It is due on ${day}.` : `It was due on ${day}.`,
        },
        about: { kind: 'invoice', id },
      });
    await work.did('invoice', id, { reminded: told, when });
    return accept({ told });
  },
};

/** The clients of a visit hear of it once more on the day before. */
export const remindOfVisit: Act<{ visitId: string }, Told> = {
  operation: 'mail.remind-of-visit',
  run: async (work, { visitId }) => {
    const visit = await findVisit(work.tx, visitId);
    const job = visit && (await findJobForAgreement(work.tx, visit.jobId));
    if (!visit || !job) return refuse('not-found', { thing: 'visit' });
    if (visit.state !== 'booked') {
      await work.did('visit', visitId, { reminded: false });
      return accept(NOTHING_LEFT);
    }
    const times = { startsAt: visit.startsAt.toISOString(), endsAt: visit.endsAt.toISOString() };
    const coming = job.visit?.id === visitId ? await comingOf(work, job) : '';
    for (const { partyId, name, email, role } of job.parties)
      if (role === 'client' && email !== null)
        await sendLetter(work, {
          kind: 'reminder_day_before',
          messageKey: `reminder-day:${visitId}:${visit.startsAt.getTime() / 1000}:${partyId}`,
          to: { name, email },
          values: {
            firm: job.firm,
            firm_phone: job.firmPhone,
            address: job.address,
            job: String(job.number),
            what: visit.kind.replaceAll('_', ' '),
            appointment: appointmentInWords(times, job.zone),
            coming,
          },
          about: { kind: 'job', id: job.id },
        });
    await work.did('visit', visitId, { reminded: true });
    return accept({ told: true });
  },
};

const DAY = 86_400_000;
type Parts = { database: Database; runner: Runner; clock: () => Date; publicUrl: string };

/** Reminds of what is due by the firm's settings, outside its quiet hours and unless mail is paused; answers how many were told. */
export async function remindAll({ database, runner, clock, publicUrl }: Parts): Promise<number> {
  const [reader, now] = [database.read, clock()];
  const settings = await findMailSettings(reader);
  const { zone, today } = await localDay(reader, now);
  if (settings.pausedAt || isQuiet(now, zone, settings)) return 0;
  const by = { actor: { kind: 'service' } } as const;
  const done: { ok: boolean; value?: Told }[] = [];
  const { signAfterDays, payBeforeDays, payOverdueDays } = settings;
  if (signAfterDays > 0)
    for (const signerId of await unsignedSince(reader, { now, sentBefore: new Date(now.getTime() - signAfterDays * DAY) }))
      done.push(await runner.run(remindToSign, { signerId, publicUrl }, by));
  for (const invoice of await unpaidAround(reader, { today, zone, before: payBeforeDays, overdue: payOverdueDays }))
    done.push(await runner.run(remindToPay, invoice, by));
  const tomorrow = DateTime.fromISO(today, { zone }).plus({ days: 1 }).toISODate()!;
  if (settings.dayBefore)
    for (const visitId of await visitsOn(reader, { day: tomorrow, zone })) done.push(await runner.run(remindOfVisit, { visitId }, by));
  return done.filter(({ value }) => value?.told).length;
}
