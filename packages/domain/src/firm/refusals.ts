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
  'sheet-not-read': { blame: 'input', sentence: '{says}' },
  'sheet-too-large': {
    blame: 'input',
    sentence: 'The file has {size} MB; at most {most} MB are taken in at once. Part it, and keep the first line in each part.',
  },
  'sheet-columns-missing': { blame: 'input', sentence: 'Choose the columns for: {fields}.' },
  'sheet-column-twice': { blame: 'input', sentence: 'The column "{column}" is chosen for {fields}. Choose it once.' },
  'sheet-column-none': { blame: 'input', sentence: 'The file has no column {column}.' },
  'sheet-field-none': { blame: 'input', sentence: 'There is no field "{field}".' },
  'bring-in-is': { blame: 'state', sentence: '{state} Look at it again.' },
  'bring-in-state-order': { blame: 'state', sentence: 'This spreadsheet is in another state by now, so this cannot be done.' },
  'bring-in-kept': { blame: 'state', sentence: 'From which spreadsheet something came is never changed.' },
  'bring-in-nothing': { blame: 'state', sentence: 'No row of this file would be added.' },
  'bring-in-left-out': {
    blame: 'state',
    sentence: '{left} rows have something to put right and would be left out. Say that they may be, or put them right first.',
  },
  'bring-in-changed': {
    blame: 'conflict',
    sentence:
      'What is on file has changed since this file was looked at: {fresh} rows would be added now, not {before}. It was looked at again.',
  },
  'bring-in-depended-on': {
    blame: 'state',
    sentence: 'Something has come to depend on what this spreadsheet brought: {what}. Nothing was taken out.',
  },
  'visit-before-brought-in': {
    blame: 'state',
    sentence: 'Only the visit of a job that was brought in from a spreadsheet took place before.',
  },
  'owner-limit-open': { blame: 'input', sentence: "The owner's limit stays open: somebody must be able to approve." },
});
