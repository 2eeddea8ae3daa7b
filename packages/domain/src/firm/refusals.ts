// What may be refused about the firm itself.
import { refusalList } from '../shared/refusal.ts';

export const firmRefusals = refusalList({
  'already-set-up': { blame: 'conflict', sentence: 'The firm is already set up. Sign in instead.' },
  'set-up-code-wrong': { blame: 'permission', sentence: 'The set-up code is not right. It stands where the service was started.' },
  'office-zip-not-known': {
    blame: 'input',
    sentence: 'No place is known for the ZIP code {zip}. Give that of a town nearby, or the latitude and longitude of the office too.',
  },
  'office-place-missing': {
    blame: 'input',
    sentence: 'Say where the office is: its ZIP code tells the state, the time zone and the towns around.',
  },
  'zone-unknown': { blame: 'input', sentence: 'There is no time zone "{zone}". Use a name such as America/Chicago.' },
  'hours-backwards': { blame: 'input', sentence: 'On {day} the office must close after it opens.' },
  'loan-to-self': { blame: 'input', sentence: 'Authority is lent to somebody else.' },
  'loan-not-held': { blame: 'permission', sentence: 'Only authority that you hold yourself can be lent.' },
  'loan-past': { blame: 'input', sentence: 'These days are over.' },
  'loan-borrower-left': { blame: 'state', sentence: 'This person has left the firm.' },
  'policy-days-backwards': { blame: 'input', sentence: 'The policy must end after it begins.' },
  'policy-number-known': { blame: 'conflict', sentence: 'A policy with this number is already there.' },
  'owner-limit-open': { blame: 'input', sentence: "The owner's limit stays open: somebody must be able to approve." },
});
