// The papers of a past job: agreement and signatures, invoice and payment, report and its delivery.
import { createHash } from 'node:crypto';
import { agreementFacts } from '@backsight/domain/agreements/facts';
import { NOT_REVIEWED } from '@backsight/domain/agreements/render';
import { dayIn } from '@backsight/store/database';
import { dayOf, hoursAfter, minutesAfter, ZONE } from '../calendar.ts';
import { FIRM, PEOPLE } from '../people.ts';
import type { Booked, Firm } from './jobRows.ts';
import type { Pen } from './pen.ts';

const sha256 = (text: string): string => createHash('sha256').update(text, 'utf8').digest('hex');

export function addPapers(pen: Pen, firm: Firm, booked: Booked): void {
  addAgreement(pen, firm, booked);
  addInvoice(pen, booked);
  addReport(pen, booked);
}

/** What the client signed, in the few words that the firm used in its first years. */
function wordsOf({ job, caller, number, bookedAt, startsAt, endsAt, feeCents, terms, reportedAt }: Booked): string {
  const facts = agreementFacts({
    ...{ number, firm: FIRM.name, firmPhone: FIRM.phone, address: `${job.home.address}, ${job.home.town}, WI`, zone: ZONE, terms },
    ...{ reportDueAt: reportedAt.toISOString(), feeCents, feeKnown: true, clients: caller.clients.map(({ name }) => name!) },
    visit: {
      startsAt: startsAt.toISOString(),
      endsAt: endsAt.toISOString(),
      pair: [job.first, job.second].map(({ name }) => ({ name, license: null })),
    },
    services: [{ name: 'Home inspection', provider: null, contractsWithUs: null }],
  });
  return [
    NOT_REVIEWED,
    `Between ${facts.firm} ("the firm") and ${facts.client} ("the client"), ${dayOf(bookedAt)}.`,
    `Property: ${facts.address}\nAppointment: ${facts.appointment}\nInspectors: ${facts.pair}\nFee: ${facts.fee}. ${facts.terms}`,
    'The firm inspects the readily accessible, installed systems and components named in the Wisconsin standards of practice for home inspectors, Wis. Admin. Code SPS 131.31 to 131.33, by looking and by operating normal controls, and gives the client a written report.',
    'The inspection is no warranty, and tells nothing of what could not be seen on its day.',
  ].join('\n\n');
}

function addAgreement(pen: Pen, { text }: Firm, booked: Booked): void {
  const { jobId, caller, bookedAt, endsAt, startsAt, job } = booked;
  const issuedAt = minutesAfter(bookedAt, 4);
  const body = wordsOf(booked);
  const agreement = { id: pen.id(issuedAt), jobId, textId: text.id, body, sha256: sha256(body) };
  pen.add('agreement', { ...agreement, issuedAt, recordedAt: issuedAt });
  const late = booked.despite?.missing === 'agreement-unsigned';
  const signedAt = late
    ? minutesAfter(endsAt, -25)
    : new Date(issuedAt.getTime() + job.chance.next() * 0.8 * (startsAt.getTime() - issuedAt.getTime()));
  for (const client of caller.clients) {
    const signerId = pen.id(issuedAt);
    pen.add('signer', {
      ...{ id: signerId, agreementId: agreement.id, partyId: client.id, capacity: 'self', sentAt: issuedAt },
      ...{ tokenHash: sha256(signerId), tokenEndsAt: hoursAfter(endsAt, 720) },
    });
    pen.add('signature', {
      ...{ id: pen.id(signedAt), signerId, nameTextId: pen.keep(client.name!, signedAt).id, sha256: agreement.sha256 },
      ...{ consentSha256: sha256(text.consent), method: 'paper', device: '', ipHash: '', keptWhere: `binder ${booked.number}` },
      ...{ happenedAt: signedAt, recordedAt: signedAt },
    });
  }
}

function addInvoice(pen: Pen, b: Booked): void {
  const { jobId, caller, number, feeCents, bookedAt } = b;
  const issuedAt = minutesAfter(bookedAt, 5);
  const id = pen.id(issuedAt);
  const late = b.despite?.missing === 'fee-unpaid';
  const paidAt = b.terms === 'due_at_booking' && !late ? minutesAfter(issuedAt, 180) : minutesAfter(b.endsAt, 10);
  const dueOn = dayIn(dayOf(b.terms === 'due_at_booking' ? issuedAt : b.startsAt));
  pen.add('invoice', {
    ...{ id, jobId, number, state: 'paid', payerId: caller.payerId, totalCents: feeCents, issuedAt, dueOn, recordedAt: issuedAt },
  });
  b.lines.forEach(({ label, cents }, position) => pen.add('invoiceLine', { invoiceId: id, position, label, cents }));
  const method = b.job.chance.pick(['check', 'card', 'bank'] as const);
  const named = { partyId: caller.payerId, jobId };
  post(pen, { id, kind: 'invoice', memo: `Invoice ${number}`, at: issuedAt, actorId: PEOPLE.office.id }, [
    { ...named, account: 'receivable', cents: feeCents },
    { ...named, account: 'fee-income', cents: -feeCents },
  ]);
  const entryId = pen.id(paidAt);
  post(pen, { id: entryId, kind: 'payment', memo: `Payment of invoice ${number}`, at: paidAt, actorId: PEOPLE.office.id }, [
    { ...named, account: 'bank', cents: feeCents },
    { ...named, account: 'receivable', cents: -feeCents },
  ]);
  pen.add('payment', {
    ...{ id: pen.id(paidAt), invoiceId: id, method, cents: feeCents, reference: `T${number}`, entryId, recordedBy: PEOPLE.office.id },
    ...{ receivedOn: dayIn(dayOf(paidAt)), recordedAt: paidAt },
  });
}

export type Entry = { id: string; kind: string; memo: string; at: Date; actorId: string };
export type Line = { account: string; cents: number; partyId?: string; jobId?: string; callbackId?: string };

/** Posts one entry whose lines come to nothing together. */
export function post(pen: Pen, { id, kind, memo, at, actorId }: Entry, lines: readonly Line[]): void {
  pen.add('ledgerEntry', { id, kind, memo, actorId, happenedOn: dayIn(dayOf(at)), recordedAt: at });
  lines.forEach((line, position) => pen.add('ledgerLine', { ...line, entryId: id, position }));
}

function addReport(pen: Pen, { job, jobId, caller, number, endsAt, reportedAt }: Booked): void {
  const id = pen.id(endsAt);
  const [inspectedOn, reportOn] = [dayIn(job.day), dayIn(dayOf(reportedAt))];
  pen.add('report', {
    ...{ id, jobId, version: 1, source: 'drafted', body: { summary: [], systems: [] }, registerNo: number },
    ...{ inspectedBy: [job.first.id, job.second.id], preparedBy: job.first.id, inspectedOn, completedOn: inspectedOn, reportOn },
    recordedAt: reportedAt,
  });
  for (const { id: partyId } of caller.clients)
    pen.add('reportDelivery', {
      id: pen.id(reportedAt),
      reportId: id,
      partyId,
      method: 'mail',
      deliveredAt: reportedAt,
      recordedAt: reportedAt,
    });
}
