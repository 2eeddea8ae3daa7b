// Mails the clients of a booked job that an appointment stands, was moved, or was cancelled; each with its calendar entry.
import { appointmentInWords } from '@backsight/domain/agreements/facts';
import { agreementWords, comesWords, moneyWords, SIGNING_OVER, type AgreementAfterMove } from '@backsight/domain/agreements/notices';
import { isSoon } from '@backsight/domain/mail/quiet';
import type { MailKind } from '@backsight/domain/mail/templates';
import type { Values } from '@backsight/domain/mail/letter';
import type { JobForAgreement } from '@backsight/store/agreements/job';
import type { Work } from '../../run.ts';
import { findWording } from '@backsight/store/mail/wording';
import { inviter, type Invited } from '../../mail/steps/invitation.ts';
import { sendLetter } from '../../mail/steps/letter.ts';

type Times = { startsAt: Date; endsAt: Date };

const withAddress = ({ parties }: JobForAgreement) =>
  parties.flatMap((p) => (p.role === 'client' && p.email !== null ? [{ ...p, email: p.email }] : []));

const words = ({ startsAt, endsAt }: Times, zone: string): string =>
  appointmentInWords({ startsAt: startsAt.toISOString(), endsAt: endsAt.toISOString() }, zone);

type Telling = {
  kind: MailKind;
  /** Unique for ever; the client's id follows. */
  key: string;
  values: Values;
  urgent: boolean;
  invite?: { method: 'REQUEST' | 'CANCEL'; visit: Omit<Invited, 'summary' | 'location'>; what: string };
  /** What differs from client to client. */
  own?: (partyId: string) => Values;
};

async function tellEach(work: Work, job: JobForAgreement, t: Telling): Promise<void> {
  const { id, number, address, firm, firmPhone } = job;
  const { invite } = t;
  const summary = invite ? `${firm}: ${invite.what}` : '';
  const [invitation, wording] = await Promise.all([
    invite && inviter(work, invite.method, { ...invite.visit, summary, location: address }),
    findWording(work.tx, t.kind),
  ]);
  const values = { ...t.values, address, job: String(number), firm, firm_phone: firmPhone };
  for (const to of withAddress(job))
    await sendLetter(work, {
      kind: t.kind,
      messageKey: `${t.key}:${to.partyId}`,
      to,
      values: { ...values, ...t.own?.(to.partyId) },
      about: { kind: 'job', id },
      urgent: t.urgent,
      wording,
      ...(invitation ? { calendar: invitation(to) } : {}),
    });
}

type CancelledAbout = {
  /** What goes back to whom. */
  paid: readonly { payerId: string; cents: number }[];
  askedToSign: boolean;
  /** What is charged because it came late. */
  kept: { cents: number; hours: number } | null;
};

/** `job` as it was before the cancelling, so that its appointment can still be named. */
export async function tellCancelled(work: Work, job: JobForAgreement, { paid, askedToSign, kept }: CancelledAbout): Promise<void> {
  const { visit } = job;
  if (!visit) return;
  const times = { startsAt: new Date(visit.startsAt), endsAt: new Date(visit.endsAt) };
  await tellEach(work, job, {
    kind: 'cancellation',
    key: `cancelled:${job.id}`,
    values: { appointment: words(times, job.zone), signing: askedToSign ? SIGNING_OVER : '' },
    urgent: isSoon(times.startsAt, work.now),
    invite: { method: 'CANCEL', visit: { visitId: visit.id, version: visit.version + 1, ...times }, what: 'inspection' },
    own: (partyId) => ({
      money: moneyWords(
        paid.filter(({ payerId }) => payerId === partyId).reduce((sum, { cents }) => sum + cents, 0),
        kept,
      ),
    }),
  });
}

type Booked = { key: string; visitId: string; version: number; what: string; at: Times; coming: string; charge?: string };

/** Tells the clients of an appointment that stands. */
export const tellBooked = (work: Work, job: JobForAgreement, b: Booked): Promise<void> =>
  tellEach(work, job, {
    kind: 'confirmation',
    key: b.key,
    values: { what: b.what, appointment: words(b.at, job.zone), coming: b.coming, charge: b.charge ?? '' },
    urgent: isSoon(b.at.startsAt, work.now),
    invite: { method: 'REQUEST', visit: { visitId: b.visitId, version: b.version, ...b.at }, what: b.what },
  });

type WhoComes = { visit: Times & { id: string }; pair: readonly string[]; along: readonly { name: string }[] };

/** Tells the clients who comes after that changed without a new time. */
export const tellWhoComes = (work: Work, job: JobForAgreement, { visit, pair, along }: WhoComes): Promise<void> =>
  tellEach(work, job, {
    kind: 'who_comes',
    key: `who-comes:${visit.id}:${work.now.getTime()}`,
    values: {
      appointment: words(visit, job.zone),
      coming: comesWords(
        pair,
        along.map((one) => one.name),
      ),
    },
    urgent: isSoon(visit.startsAt, work.now),
  });

export type MovedVisit = {
  /** The visit that is told of, and the one that stands in the calendar now. */
  visitId: string;
  version: number;
  entry: { visitId: string; version: number };
  what: string;
  before: Times;
  after: Times;
  pair: readonly string[];
  along?: readonly string[];
  /** When the client's side is to be there, in a sentence; empty when nobody of it comes. */
  there: string;
  agreement: AgreementAfterMove;
  fee?: string | null;
};

/** Each move of a visit is told once. */
export const tellMoved = (work: Work, job: JobForAgreement, m: MovedVisit): Promise<void> =>
  tellEach(work, job, {
    kind: 'move',
    key: `moved:${m.visitId}:${m.version}`,
    values: {
      what: m.what,
      appointment: words(m.after, job.zone),
      before: words(m.before, job.zone),
      coming: comesWords(m.pair, m.along),
      walk_through: m.there,
      agreement: agreementWords(m.agreement),
      fee: m.fee ?? '',
    },
    urgent: isSoon(m.after.startsAt, work.now) || isSoon(m.before.startsAt, work.now),
    invite: { method: 'REQUEST', visit: { ...m.entry, ...m.after }, what: m.what },
  });
