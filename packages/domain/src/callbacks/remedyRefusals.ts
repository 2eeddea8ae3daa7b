// Why a remedy, its money, an offer, a release, a notice to the insurer or a court case may be refused.
import { refusalList } from '../shared/refusal.ts';

export const remedyRefusals = refusalList({
  'payee-is-the-firm': { blame: 'input', sentence: 'The firm cannot pay itself: name who gets the money.' },
  'outside-reviewer-not-needed': {
    blame: 'state',
    sentence:
      'There are {leads} lead inspectors: one of them, or an owner, is the second person. An outside reviewer is for a firm with one.',
  },
  'reviewer-not-outside': { blame: 'input', sentence: 'Name somebody who does not work for the firm.' },
  'reviewer-needs-words': { blame: 'input', sentence: 'Write down what the reviewer said, in ten letters or more.' },
  'direct-is-the-insurers': { blame: 'input', sentence: 'Only what the insurer paid can have gone to the other side itself.' },
  'remedy-unchanged': { blame: 'input', sentence: 'Amount and payee are those already.' },
  'entry-reversed-already': { blame: 'conflict', sentence: 'This was taken back already.' },
  'entry-not-reversible': { blame: 'state', sentence: 'Only payments and money that came back are taken back here.' },
  'recovery-first': {
    blame: 'state',
    sentence: 'For this callback {recoveredCents} cents came back: take that back first, or more would have come back than was paid.',
  },
  'refund-above-fee': {
    blame: 'input',
    sentence: 'More than was paid cannot go back: of invoice {number} {leftCents} cents were paid and have not gone back.',
  },
  'no-fee-paid': { blame: 'state', sentence: 'No fee was paid for this job, so none can go back.' },
  'not-as-estimated': { blame: 'input', sentence: 'Amount and contractor are those of the chosen estimate: {cents} cents.' },
  'choice-needs-why': { blame: 'input', sentence: 'Say why this estimate was chosen.' },
  'conflict-needs-reason': { blame: 'state', sentence: 'Say in ten letters or more why you go on: {conflicts}' },
  'offer-day-past': { blame: 'input', sentence: '{day} is over: an offer stands until a day to come.' },
  'offer-stands': { blame: 'conflict', sentence: 'An offer of this remedy stands already: withdraw it first.' },
  'offer-ended': { blame: 'state', sentence: 'This offer was {state}.' },
  'offer-open': { blame: 'state', sentence: 'An offer of this remedy stands: withdraw it first.' },
  'payment-waits-for-release': { blame: 'state', sentence: 'This payment waits for the signed settlement release.' },
  'payment-needs-approval': { blame: 'state', sentence: 'This remedy has not been approved.' },
  'remedy-paid-once': { blame: 'conflict', sentence: 'This remedy was paid already, perhaps just now by somebody else.' },
  'recovered-within-paid': { blame: 'conflict', sentence: 'More cannot come back than was paid.' },
  'no-release-text': { blame: 'state', sentence: 'No text of a settlement release is in force: see Agreement texts.' },
  'release-signed': { blame: 'conflict', sentence: 'The settlement release is signed already.' },
  'claimant-unknown': {
    blame: 'state',
    sentence: 'Nobody is named who speaks for this claim: a settlement release needs somebody to sign it.',
  },
  'court-before-filing': { blame: 'input', sentence: 'The case was filed on {filedOn}: it cannot have ended before.' },
  'court-dismissed-owes-nothing': { blame: 'input', sentence: 'A case that was dismissed leaves nothing owed.' },
  'court-paid-already': { blame: 'input', sentence: '{cents} cents were paid on it already.' },
  'court-above-owed': { blame: 'input', sentence: 'Of this {leftCents} cents are still to pay.' },
  'court-open': { blame: 'state', sentence: 'Of the court case {leftCents} cents are still to pay, or it has no outcome yet.' },
  'before-it-came-in': { blame: 'input', sentence: 'This callback came in on {receivedOn}.' },
  'notice-needs-details': {
    blame: 'state',
    sentence: 'Record the notice itself: on which day, by which way, and what the insurer was told.',
  },
  'supplement-not-handed-over': {
    blame: 'state',
    sentence:
      'No supplement was handed over since this was proposed: write a further version of the report of job {number} and hand it over.',
  },
  'visit-not-done': { blame: 'state', sentence: 'The visit has not been done, or its record is not sealed yet.' },
  'policy-same': { blame: 'input', sentence: 'The callback falls under this policy already.' },
  'policy-aggregate-low': { blame: 'input', sentence: 'The most for all claims cannot be less than the most for one.' },
  'policy-end-outside': { blame: 'input', sentence: 'The last day lies between the first day and the end on file: {endsOn}.' },
});
