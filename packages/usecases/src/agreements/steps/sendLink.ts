// Mails a signer the private link, with the appointment. A new link ends the one before it.
import { appointmentInWords } from '@backsight/domain/agreements/facts';
import type { JobForAgreement } from '@backsight/store/agreements/job';
import { findWording } from '@backsight/store/mail/wording';
import { comingOf } from '../../jobs/steps/coming.ts';
import { sendLetter } from '../../mail/steps/letter.ts';
import type { Work } from '../../run.ts';

export type LinkMail = {
  signerId: string;
  name: string;
  email: string;
  token: string;
  publicUrl: string;
  job: JobForAgreement;
  /** again: somebody asked for it just now; reminder: the clock did. */
  why: 'issued' | 'again' | 'reminder';
};

/** Queues the mail with the link. The only place where a link is made, and it begins with PUBLIC_URL. */
export async function sendLink(work: Work, { job, why, ...m }: LinkMail): Promise<void> {
  const kind = why === 'reminder' ? 'reminder_signing' : 'agreement';
  const [coming, wording] = await Promise.all([comingOf(work, job), findWording(work.tx, kind)]);
  await sendLetter(work, {
    kind,
    wording,
    messageKey: why === 'issued' ? `agreement:${m.signerId}` : `agreement-${why}:${m.signerId}:${work.newId()}`,
    to: m,
    values: {
      address: job.address,
      job: String(job.number),
      firm: job.firm,
      firm_phone: job.firmPhone,
      appointment: job.visit ? `The appointment is ${appointmentInWords(job.visit, job.zone)}.` : '',
      coming,
      link: `${m.publicUrl}/client/${m.token}`,
    },
    about: { kind: 'job', id: job.id },
    urgent: why === 'again',
  });
}
