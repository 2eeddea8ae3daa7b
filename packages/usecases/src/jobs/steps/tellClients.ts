// Mails the clients of a booked job that it was cancelled, or that a visit was moved.
import { appointmentInWords } from '@backsight/domain/agreements/facts';
import { cancelledMail, movedMail, type Moved } from '@backsight/domain/agreements/notices';
import type { JobForAgreement } from '@backsight/store/agreements/job';
import type { Work } from '../../run.ts';

const withAddress = ({ parties }: JobForAgreement) =>
  parties.flatMap((p) => (p.role === 'client' && p.email !== null ? [{ ...p, email: p.email }] : []));

/** `job` as it was before the cancelling, so that its appointment can still be named. */
export async function tellCancelled(
  work: Work,
  job: JobForAgreement,
  paid: readonly { payerId: string; cents: number }[],
  askedToSign: boolean,
): Promise<void> {
  const { id, number, zone, visit, address, firm, firmPhone } = job;
  if (!visit) return;
  const appointment = appointmentInWords(visit, zone);
  for (const { partyId, name, email } of withAddress(job)) {
    const paidCents = paid.filter(({ payerId }) => payerId === partyId).reduce((sum, { cents }) => sum + cents, 0);
    const body = cancelledMail({ name, address, appointment, paidCents, askedToSign, firm, firmPhone });
    await work.mail({
      messageKey: `cancelled:${id}:${partyId}`,
      toAddress: email,
      toName: name,
      subject: `Your appointment is cancelled, job ${number}`,
      body,
      aboutKind: 'job',
      aboutId: id,
    });
  }
}

type Times = { startsAt: Date; endsAt: Date };
export type MovedVisit = {
  visitId: string;
  version: number;
  what: string;
  before: Times;
  after: Times;
  pair: readonly string[];
  agreement: Moved['agreement'];
};

const words = ({ startsAt, endsAt }: Times, zone: string): string =>
  appointmentInWords({ startsAt: startsAt.toISOString(), endsAt: endsAt.toISOString() }, zone);

/** Each move of a visit is told once. */
export async function tellMoved(work: Work, job: JobForAgreement, m: MovedVisit): Promise<void> {
  const { id, number, zone, address, firm, firmPhone } = job;
  const { what, pair, agreement } = m;
  for (const { partyId, name, email } of withAddress(job)) {
    const body = movedMail({
      name,
      what,
      address,
      before: words(m.before, zone),
      after: words(m.after, zone),
      pair,
      agreement,
      firm,
      firmPhone,
    });
    await work.mail({
      messageKey: `moved:${m.visitId}:${m.version}:${partyId}`,
      toAddress: email,
      toName: name,
      subject: `The new time of your appointment, job ${number}`,
      body,
      aboutKind: 'job',
      aboutId: id,
    });
  }
}
