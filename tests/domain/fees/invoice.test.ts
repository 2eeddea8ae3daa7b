// What to invoice, to whom, and which payments are taken.
import { describe, expect, it } from 'vitest';
import {
  ageOf,
  decideInvoice,
  decidePayment,
  dueOn,
  type InvoiceFacts,
  type JobToInvoice,
  type PaymentCommand,
} from '@backsight/domain/fees/invoice';

const job: JobToInvoice = {
  terms: 'due_at_visit',
  visitOn: '2026-05-19',
  payers: [],
  clients: [{ partyId: 'c', name: 'Cleo' }],
  lines: [{ label: 'Base', cents: 45_000 }],
  invoices: [],
};
const open = { id: 'i', number: 1001, totalCents: 45_000, paidCents: 0, payerId: 'c' };

describe('what to invoice', () => {
  it('is the whole fee, to the client, due at the visit', () => {
    expect(decideInvoice(job, '2026-05-12')).toMatchObject({
      ok: true,
      value: { issue: { payerId: 'c', totalCents: 45_000, dueOn: '2026-05-19', withdraw: [] } },
    });
  });
  it('goes to the payer when one is named', () => {
    expect(decideInvoice({ ...job, payers: [{ partyId: 'p', name: 'Pia' }] }, '2026-05-12')).toMatchObject({
      value: { issue: { payerId: 'p' } },
    });
  });
  it('stays quiet when the invoice that is there says it all', () => {
    expect(decideInvoice({ ...job, invoices: [open] }, '2026-05-12')).toMatchObject({ ok: true, value: { same: open } });
  });
  it('takes the place of an unpaid invoice for another fee', () => {
    expect(decideInvoice({ ...job, invoices: [{ ...open, totalCents: 40_000 }] }, '2026-05-12')).toMatchObject({
      value: { issue: { totalCents: 45_000, withdraw: [{ id: 'i' }] } },
    });
  });
  it('asks for the difference when the first invoice was partly paid', () => {
    const answer = decideInvoice({ ...job, invoices: [{ ...open, totalCents: 40_000, paidCents: 10 }] }, '2026-05-12');
    expect(answer).toMatchObject({
      value: {
        issue: { totalCents: 5_000, withdraw: [], lines: [{ cents: 45_000 }, { label: 'Already on invoice 1001', cents: -40_000 }] },
      },
    });
  });
  it.each([
    [
      'two payers',
      {
        payers: [
          { partyId: 'p', name: 'Pia' },
          { partyId: 'q', name: 'Quin' },
        ],
      },
      'several-payers',
    ],
    ['nobody to pay', { clients: [] }, 'no-payer'],
    ['no fee', { lines: [] }, 'nothing-to-invoice'],
    ['more paid for than the fee', { invoices: [{ ...open, totalCents: 50_000, paidCents: 1 }] }, 'invoiced-above-fee'],
  ])('is refused with %s', (_, change, code) => {
    expect(decideInvoice({ ...job, ...change }, '2026-05-12')).toMatchObject({ ok: false, code });
  });
});

// Common practice: a fee may never wait for the closing for ever.
it.each([
  ['due_at_booking', '2026-05-19', '2026-05-12'],
  ['due_at_visit', '2026-05-19', '2026-05-19'],
  ['deposit', '2026-05-19', '2026-05-19'],
  ['billed_to_closing', '2026-05-19', '2026-06-18'],
  ['due_at_visit', '2026-05-01', '2026-05-12'],
] as const)('%s with a visit on %s is due on %s', (terms, visitOn, due) => expect(dueOn(terms, visitOn, '2026-05-12')).toBe(due));

const invoice: InvoiceFacts = { number: 1001, state: 'issued', totalCents: 10_000, paidCents: 4_000, issuedOn: '2026-05-01' };
const cash: PaymentCommand = { method: 'cash', reference: '', cents: 6_000, receivedOn: '2026-05-12' };

describe('a payment', () => {
  it('is taken in full or in part', () => {
    expect(decidePayment(invoice, cash, '2026-05-12')).toMatchObject({ ok: true, value: { openCents: 0 } });
    expect(decidePayment(invoice, { ...cash, cents: 1 }, '2026-05-12')).toMatchObject({ value: { openCents: 5_999 } });
  });
  it.each([
    ['above what is open', {}, { cents: 6_001 }, 'more-than-open', 'cents'],
    ['of a day to come', {}, { receivedOn: '2026-05-13' }, 'payment-ahead', 'receivedOn'],
    ['of years ago', {}, { receivedOn: '2023-05-13' }, 'payment-long-ago', 'receivedOn'],
    ['by check without its number', {}, { method: 'check' as const }, 'payment-reference', 'reference'],
    ['of a withdrawn invoice', { state: 'withdrawn' as const }, {}, 'invoice-not-open', undefined],
    ['of a draft', { state: 'draft' as const, number: null }, {}, 'invoice-not-open', undefined],
  ])('%s is refused', (_, i, p, code, field) => {
    const answer = decidePayment({ ...invoice, ...i }, { ...cash, ...p }, '2026-05-12');
    expect(answer).toMatchObject(field ? { ok: false, code, field } : { ok: false, code });
  });
  it('says how much is open when it is too much', () => {
    expect(decidePayment(invoice, { ...cash, cents: 7_000 }, '2026-05-12')).toMatchObject({ about: { open: '$60.00', openCents: 6_000 } });
  });
});

it.each([
  ['2026-05-13', 'not due'],
  ['2026-05-12', '0-30'],
  ['2026-04-12', '0-30'],
  ['2026-04-11', '31-60'],
  ['2026-03-13', '31-60'],
  ['2026-03-12', '61-90'],
  ['2026-02-10', 'over 90'],
])('due on %s stands under %s on May 12', (due, band) => {
  expect(ageOf(due, '2026-05-12').band).toBe(band);
});
