// Refusals about invoices and payments.
import { refusalList } from '../shared/refusal.ts';

export const feesRefusals = refusalList({
  'nothing-to-invoice': { blame: 'state', sentence: 'There is no fee to invoice for this job.' },
  'no-payer': { blame: 'state', sentence: 'Nobody is named who pays for this job. Name a client or a payer first.' },
  'several-payers': { blame: 'state', sentence: 'By firm policy one party pays for a job. Named as payers are: {names}.' },
  'invoiced-above-fee': {
    blame: 'state',
    sentence: 'Invoices that were partly paid already come to {invoiced}, more than the fee of {fee}. Reverse or refund first.',
  },
  'invoice-not-open': { blame: 'state', sentence: 'Invoice {number} takes no payment: it is {state}.' },
  'more-than-open': { blame: 'state', sentence: 'Only {open} is open on invoice {number}. Nothing was recorded.' },
  'payment-ahead': { blame: 'input', sentence: 'A payment cannot have been received on a day to come ({receivedOn}).' },
  'payment-long-ago': {
    blame: 'input',
    sentence: 'A payment cannot have been received before the invoice was issued, except by up to a year ({receivedOn}).',
  },
  'payment-reference': {
    blame: 'input',
    sentence: 'A payment by {method} needs its reference: the number of the check, card slip or transfer.',
  },
  'invoice-stands': {
    blame: 'state',
    sentence: 'Invoice {number} stands, so its payments are kept. Money is given back once an invoice was withdrawn.',
  },
  'payment-reversed': { blame: 'state', sentence: 'This payment was reversed already.' },
});
