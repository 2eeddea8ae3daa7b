// Refusals about fee schedules, services, inquiries and pay.
import { refusalList } from '../shared/refusal.ts';

export const feeScheduleRefusals = refusalList({
  'fee-schedule-fixed': {
    blame: 'state',
    sentence: 'This fee schedule is {state}, so it stays as it is. Copy it into a new draft to change it.',
  },
  'fee-schedule-back': {
    blame: 'input',
    sentence: 'A schedule can be put in force from today ({today}) on; jobs keep the schedule of their booking.',
  },
  'fee-schedule-begun': {
    blame: 'state',
    sentence: 'This fee schedule is in force already and cannot be taken back. Put another one in force.',
  },
  'fee-schedule-service': { blame: 'input', sentence: 'A rule names the service "{service}", which the firm does not have.' },
  'period-too-long': { blame: 'input', sentence: 'Choose a period of at most three years, its first day before its last.' },
  'service-key-taken': { blame: 'state', sentence: 'There is a service with this short name already.' },
  'base-service-stays': { blame: 'state', sentence: 'The inspection itself is always offered.' },
  'inquiry-closed': { blame: 'state', sentence: 'This inquiry was closed already: {outcome}.' },
  'follow-up-past': { blame: 'input', sentence: 'The follow-up day is past.' },
  'discount-above-fee': { blame: 'input', sentence: 'The discount is more than the fee of {fee}. Nothing was changed.' },
  'discount-late': {
    blame: 'state',
    sentence: 'The job is {state}; its fee takes no discount any more. Write a credit note on its invoice.',
  },
  'discount-limit': { blame: 'state', sentence: 'You may take up to {limit} off a fee. An owner may take off more.' },
  'discount-paid': {
    blame: 'state',
    sentence: 'More was paid already than the fee would be. Write a credit note on the invoice, then give the rest back.',
  },
  'discount-reason': { blame: 'input', sentence: 'Say why the discount is given.' },
  'fee-at-new-time': {
    blame: 'conflict',
    sentence: 'At the new time the fee is {nowUsd}, not {toldUsd}. Look at the difference before moving.',
  },
  'fee-kept-reason': { blame: 'input', sentence: 'Say why the fee stays as it was agreed.' },
  'pay-frozen': {
    blame: 'input',
    sentence: 'Pay was worked out through {day} by the rule then in force. A new rule begins on a later day.',
  },
});
