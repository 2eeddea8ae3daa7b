// Mails the clients of a booked job that it was cancelled, or that a visit was moved.
import { appointmentInWords } from '@backsight/domain/agreements/facts';
import { bookedMail, cancelledMail, movedMail, whoComesMail, type Moved } from '@backsight/domain/agreements/notices';
import type { JobForAgreement } from '@backsight/store/agreements/job';
import type { Work } from '../../run.ts';

const withAddress = ({ parties }: JobForAgreement) =>
  parties.flatMap((p) => (p.role === 'client' && p.email !== null ? [{ ...p, email: p.email }] : []));

type CancelledAbout = {
  /** What goes back to whom. */
  paid: readonly { payerId: string; cents: number }[];
  askedToSign: boolean;
  /** What is charged because it came late. */
  kept: { cents: number; hours: number } | null;
};

/** `job` as it was before the cancelling, so that its appointment can still be named. */
export async function tellCancelled(work: Work, job: JobForAgreement, about: CancelledAbout): Promise<void> {
  const { paid, askedToSign, kept } = about;
  const { id, number, zone, visit, address, firm, firmPhone } = job;
  if (!visit) return;
  const appointment = appointmentInWords(visit, zone);
  for (const { partyId, name, email } of withAddress(job)) {
    const paidCents = paid.filter(({ payerId }) => payerId === partyId).reduce((sum, { cents }) => sum + cents, 0);
    const body = cancelledMail({ name, address, appointment, paidCents, askedToSign, kept, firm, firmPhone });
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

type Booked = { visitId: string; what: string; at: Times; pair: readonly string[] };

/** Tells the clients of a visit that was booked without a hold, free of charge. */
export async function tellBooked(work: Work, job: JobForAgreement, { visitId, what, at, pair }: Booked): Promise<void> {
  const { id, number, zone, address, firm, firmPhone } = job;
  for (const { partyId, name, email } of withAddress(job))
    await work.mail({
      messageKey: `booked:${visitId}:${partyId}`,
      toAddress: email,
      toName: name,
      subject: `Your appointment, job ${number}`,
      body: bookedMail({ name, what, address, appointment: words(at, zone), pair, firm, firmPhone }),
      aboutKind: 'job',
      aboutId: id,
    });
}

type WhoComes = { visit: Times & { id: string }; pair: readonly string[]; along: readonly { name: string }[] };

/** Tells the clients who comes after that changed without a new time. */
export async function tellWhoComes(work: Work, job: JobForAgreement, { visit, pair, along }: WhoComes): Promise<void> {
  const { id, number, zone, address, firm, firmPhone } = job;
  for (const { partyId, name, email } of withAddress(job))
    await work.mail({
      messageKey: `who-comes:${visit.id}:${work.now.getTime()}:${partyId}`,
      toAddress: email,
      toName: name,
      subject: `Who comes to your appointment, job ${number}`,
      body: whoComesMail({ name, address, appointment: words(visit, zone), pair, along: along.map((one) => one.name), firm, firmPhone }),
      aboutKind: 'job',
      aboutId: id,
    });
}

type Times = { startsAt: Date; endsAt: Date };
export type MovedVisit = {
  visitId: string;
  version: number;
  what: string;
  before: Times;
  after: Times;
  pair: readonly string[];
  along?: readonly string[];
  walkThroughAt?: string | null;
  agreement: Moved['agreement'];
  fee?: string | null;
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
      along: m.along ?? [],
      walkThroughAt: m.walkThroughAt ?? null,
      agreement,
      fee: m.fee ?? null,
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
