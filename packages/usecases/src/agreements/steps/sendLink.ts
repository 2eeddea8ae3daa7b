// Mails a signer the private link. A new link ends the one before it.
import { appointmentInWords } from '@backsight/domain/agreements/facts';
import type { JobForAgreement } from '@backsight/store/agreements/job';
import type { Work } from '../../run.ts';

export type LinkMail = {
  signerId: string;
  name: string;
  email: string;
  token: string;
  publicUrl: string;
  job: JobForAgreement;
  again: boolean;
};

/** Queues the mail with the link. The only place where a link is made, and it begins with PUBLIC_URL. */
export async function sendLink(work: Work, m: LinkMail): Promise<void> {
  const { job } = m;
  const when = job.visit ? `The appointment is ${appointmentInWords(job.visit, job.zone)}.` : '';
  const body = [
    `Dear ${m.name},`,
    '',
    `please read and sign the agreement for the inspection of ${job.address}. ${when}`.trim(),
    '',
    `${m.publicUrl}/client/${m.token}`,
    '',
    'This link is for you alone; please do not pass it on. If you would rather sign on paper, tell us and we bring it along.',
    '',
    job.firm,
    job.firmPhone,
  ].join('\n');
  const messageKey = m.again ? `agreement-again:${m.signerId}:${work.newId()}` : `agreement:${m.signerId}`;
  await work.mail({
    messageKey,
    toAddress: m.email,
    toName: m.name,
    subject: `Agreement for your inspection, job ${job.number}`,
    body,
    aboutKind: 'job',
    aboutId: m.job.id,
  });
}
