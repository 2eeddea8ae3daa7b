// Refusals about invoices and payments.
import { refusalList } from '../shared/refusal.ts';
import { feeScheduleRefusals } from './scheduleRefusals.ts';

export const feesRefusals = refusalList({
  ...feeScheduleRefusals,
  'nothing-to-invoice': { blame: 'state', sentence: 'There is no fee to invoice for this job.' },
  'no-payer': { blame: 'state', sentence: 'Nobody is named who pays for this job. Name a client or a payer first.' },
  'several-payers': { blame: 'state', sentence: 'By firm policy one party pays for a job. Named as payers are: {names}.' },
  'invoiced-above-fee': {
    blame: 'state',
    sentence:
      'Invoices that were partly paid already come to {invoiced}, more than the fee of {fee}. Write a credit note for the difference first.',
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
    sentence: 'Invoice {number} stands, or not that much is to be given back on it. Write a credit note, then a refund.',
  },
  'invoice-not-changed': { blame: 'state', sentence: 'Invoice {number} is {state}; nothing more can be taken off it.' },
  'credit-above-invoice': { blame: 'state', sentence: 'A credit note can take at most {left} off invoice {number}. Nothing was recorded.' },
  'write-off-limit': { blame: 'state', sentence: 'You may write off up to {limit} at a time. An owner may write off more.' },
  'refund-while-callback': {
    blame: 'state',
    sentence:
      "A callback about this job is open, and neither the insurer's consent nor the owner's reason is on file there: ask an owner before money goes back.",
  },
  'refund-above-paid': { blame: 'state', sentence: 'Only {back} is to be given back on invoice {number}. Nothing was recorded.' },
  'write-off-none': { blame: 'state', sentence: 'This write-off was taken back already, or is none.' },
  'returned-fee-none': { blame: 'state', sentence: 'This charge was taken back already, or is none.' },
  'number-without-gap': { blame: 'state', sentence: 'A number would have been left out. Nothing was recorded; please try again.' },
  'ledger-day-closed': { blame: 'state', sentence: 'The books of that day were closed a moment ago. Please try again.' },
  'closing-not-a-month': { blame: 'input', sentence: 'The books are closed through the last day of a month.' },
  'month-not-over': { blame: 'input', sentence: 'The month is not over: {through} is not past.' },
  'month-closed': { blame: 'state', sentence: 'The books are closed through {through} already.' },
  'month-open': { blame: 'state', sentence: 'The books of {from} are open.' },
  'entry-lines': { blame: 'input', sentence: 'An entry has two lines or more, each with an amount other than 0.' },
  'entry-off': { blame: 'input', sentence: 'The entry is off by {off}: debits must equal credits.' },
  'entry-ahead': { blame: 'input', sentence: 'An entry cannot stand on a day to come ({happenedOn}).' },
  'account-unknown': { blame: 'input', sentence: 'There is no account "{account}".' },
  'account-kept': {
    blame: 'input',
    sentence: 'The account "{account}" is kept by invoices, deposits and callbacks, so that they always agree; it takes no entry by hand.',
  },
  'account-known': { blame: 'state', sentence: 'There is an account of this name already.' },
  'deposit-terms': {
    blame: 'input',
    sentence: 'Give the deposit as an amount or as a percentage, not as both; only terms with a deposit have one.',
  },
  'closing-day-terms': {
    blame: 'input',
    sentence: 'Only a fee that is billed to the closing has a due day of its own, and not one that is past.',
  },
  'shares-of-payers': { blame: 'input', sentence: 'Shares are for the payers of this job, one for each, and not all nothing.' },
  'statement-days': { blame: 'input', sentence: 'A statement ends no earlier than it begins.' },
  'payment-reversed': { blame: 'state', sentence: 'This payment was reversed already.' },
});
