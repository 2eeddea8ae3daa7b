// Mails a signer the private link, with the appointment. A new link ends the one before it.
import { appointmentInWords, timeInWords } from '@backsight/domain/agreements/facts';
import { comingWords } from '@backsight/domain/agreements/notices';
import type { JobForAgreement } from '@backsight/store/agreements/job';
import { findAttendance } from '@backsight/store/jobs/attendance';
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
  const coming = await comingOf(work, job);
  const body = [
    `Dear ${m.name},`,
    '',
    `please read and sign the agreement for the inspection of ${job.address}. ${when}`.trim(),
    '',
    ...(coming === '' ? [] : [coming, '']),
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

/** Who comes, when the client is to be there, and who attends. */
async function comingOf(work: Work, { id, visit, zone }: JobForAgreement): Promise<string> {
  const attendance = visit && (await findAttendance(work.tx, id));
  if (!attendance) return '';
  const { arrives, arriveAt, attendees } = attendance;
  const none = arriveAt === null || arriveAt >= new Date(visit.endsAt);
  return comingWords({
    pair: visit.pair.map(({ name }) => name),
    arriveAt: none ? null : timeInWords(arriveAt, zone),
    forWalkThrough: arrives === 'walk_through',
    attendees,
  });
}
