// Tag: time.
// What to invoice, to whom, and which payments are taken.
import { describe, expect, it } from 'vitest';
import { decideInvoices, depositAsked, dueOn, type JobToInvoice, type MoneyRules } from '@backsight/domain/fees/billing';
import { taxWithin } from '@backsight/domain/fees/tax';
import { ageOf, cameBack, decidePayment, mayReverse, type InvoiceFacts, type PaymentCommand } from '@backsight/domain/fees/invoice';

const job: JobToInvoice = {
  terms: 'due_at_visit',
  visitOn: '2026-05-19',
  payers: [],
  clients: [{ partyId: 'c', name: 'Cleo' }],
  lines: [{ label: 'Base', cents: 45_000 }],
  invoices: [],
};
const open = { id: 'i', number: 1001, totalCents: 45_000, taxCents: 0, paidCents: 0, lessCents: 0, payerId: 'c' };

describe('what to invoice', () => {
  it('is the whole fee, to the client, due at the visit', () => {
    expect(decideInvoices(job, '2026-05-12')).toMatchObject({
      ok: true,
      value: { issue: [{ payerId: 'c', totalCents: 45_000, dueOn: '2026-05-19' }], withdraw: [] },
    });
  });
  it('goes to the payer when one is named', () => {
    expect(decideInvoices({ ...job, payers: [{ partyId: 'p', name: 'Pia' }] }, '2026-05-12')).toMatchObject({
      value: { issue: [{ payerId: 'p' }] },
    });
  });
  it('stays quiet when the invoice that is there says it all', () => {
    expect(decideInvoices({ ...job, invoices: [open] }, '2026-05-12')).toMatchObject({ ok: true, value: { same: open } });
  });
  it('takes the place of an unpaid invoice for another fee', () => {
    expect(decideInvoices({ ...job, invoices: [{ ...open, totalCents: 40_000 }] }, '2026-05-12')).toMatchObject({
      value: { issue: [{ totalCents: 45_000 }], withdraw: [{ id: 'i' }] },
    });
  });
  it('asks for the difference when the first invoice was partly paid', () => {
    const answer = decideInvoices({ ...job, invoices: [{ ...open, totalCents: 40_000, paidCents: 10 }] }, '2026-05-12');
    expect(answer).toMatchObject({
      value: {
        issue: [{ totalCents: 5_000, lines: [{ cents: 45_000 }, { label: 'Already on invoice 1001', cents: -40_000 }] }],
        withdraw: [],
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
    expect(decideInvoices({ ...job, ...change }, '2026-05-12')).toMatchObject({ ok: false, code });
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

const invoice: InvoiceFacts = { number: 1001, state: 'issued', balanceCents: 6_000, issuedOn: '2026-05-01' };
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
    ['of a withdrawn invoice', { state: 'withdrawn' as const, balanceCents: -4_000 }, {}, 'invoice-not-open', undefined],
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

it.each([
  ['returned_check', true],
  ['card_dispute', true],
  ['recorded_by_mistake', false],
  ['given_back', false],
] as const)('a payment taken back as %s may be charged for: %s', (reason, may) => expect(cameBack(reason)).toBe(may));

describe('several payers', () => {
  const rules: MoneyRules = {
    severalPayers: true,
    depositPercent: 50,
    closingDays: 30,
    tax: { name: 'Tax', thousandths: 0, services: [] },
  };
  const two: JobToInvoice = {
    ...job,
    rules,
    lines: [{ label: 'Base', cents: 10_001 }],
    payers: [
      { partyId: 'p', name: 'Pia', weight: 1 },
      { partyId: 'q', name: 'Quin', weight: 1 },
    ],
  };
  it('get an invoice each; the odd cent goes to the earlier one (largest remainder), and the lines sum to the total', () => {
    const decided = decideInvoices(two, '2026-05-12');
    if (!decided.ok || 'same' in decided.value) throw new Error('not issued');
    expect(decided.value.issue.map(({ payerId, totalCents }) => [payerId, totalCents])).toEqual([
      ['p', 5_001],
      ['q', 5_000],
    ]);
    for (const { lines, totalCents } of decided.value.issue) expect(lines.reduce((sum, { cents }) => sum + cents, 0)).toBe(totalCents);
  });
  it('stay as they are when each invoice says the share', () => {
    const invoices = [
      { ...open, totalCents: 5_001, payerId: 'p' },
      { ...open, id: 'j', number: 1002, totalCents: 5_000, payerId: 'q' },
    ];
    expect(decideInvoices({ ...two, invoices }, '2026-05-12')).toMatchObject({ value: { same: { id: 'j' } } });
  });
  it('share what somebody else did not begin to pay', () => {
    const invoices = [{ ...open, totalCents: 4_001, paidCents: 1, payerId: 'c' }];
    expect(decideInvoices({ ...two, invoices }, '2026-05-12')).toMatchObject({
      value: { issue: [{ totalCents: 3_000 }, { totalCents: 3_000 }], withdraw: [] },
    });
  });
});

describe('a credit note', () => {
  it('takes its part of the tax, the last one what is left of it: together the tax of the invoice, never more', () => {
    const tax = (cents: number, creditedCents: number, creditedTaxCents: number) =>
      taxWithin(cents, { totalCents: 100, taxCents: 5, creditedCents, creditedTaxCents });
    // 33 of 100 hold 1.65 cents of tax, which is 2; 34 would hold 1.7 as well, and 1 is left.
    expect([tax(33, 0, 0), tax(33, 33, 2), tax(34, 66, 4)]).toEqual([2, 2, 1]);
    expect(tax(100, 0, 0)).toBe(5);
    expect(tax(10, 80, 5)).toBe(0);
    expect(taxWithin(34, { totalCents: 100, taxCents: 0, creditedCents: 66, creditedTaxCents: 0 })).toBe(0);
  });
  const credited = { ...open, totalCents: 45_000, paidCents: 45_000, lessCents: 5_000 };
  it('for a fee that fell makes the invoice right', () =>
    expect(decideInvoices({ ...job, lines: [{ label: 'Base', cents: 40_000 }], invoices: [credited] }, '2026-05-12')).toMatchObject({
      value: { same: credited },
    }));
  it('given as a courtesy calls for no new invoice', () =>
    expect(decideInvoices({ ...job, invoices: [credited] }, '2026-05-12')).toMatchObject({ value: { same: credited } }));
});

it.each([
  [{ terms: 'deposit' as const, deposit: { cents: 10_000 } }, 10_000],
  [{ terms: 'deposit' as const, deposit: { cents: 99_999 } }, 45_001],
  [{ terms: 'deposit' as const, deposit: { percent: 33 } }, 14_850],
  [{ terms: 'deposit' as const }, 22_501],
  [{ terms: 'due_at_visit' as const, deposit: { cents: 10_000 } }, 0],
])('%o asks for a deposit of %i cents of $450.01', (terms, cents) => expect(depositAsked(terms, 45_001)).toBe(cents));

it('is due on the day of the closing that was told, whether or not the sale closes', () => {
  expect(dueOn('billed_to_closing', '2026-05-19', '2026-05-12', { dueOn: '2026-06-30' })).toBe('2026-06-30');
  expect(dueOn('billed_to_closing', '2026-05-19', '2026-05-12', { closingDays: 10 })).toBe('2026-05-29');
  expect(dueOn('due_at_visit', '2026-05-19', '2026-05-12', { dueOn: '2026-06-30' })).toBe('2026-05-19');
});

it('is given back whole only while that much is to be given back', () => {
  const back = { reason: 'given_back' as const, cents: 500 };
  expect(mayReverse({ number: 1, state: 'withdrawn', balanceCents: -500 }, back).ok).toBe(true);
  expect(mayReverse({ number: 1, state: 'withdrawn', balanceCents: -499 }, back)).toMatchObject({ code: 'invoice-stands' });
  expect(mayReverse({ number: 1, state: 'paid', balanceCents: 0 }, back)).toMatchObject({ code: 'invoice-stands' });
  expect(mayReverse({ number: 1, state: 'paid', balanceCents: 0 }, { ...back, reason: 'returned_check' }).ok).toBe(true);
});
