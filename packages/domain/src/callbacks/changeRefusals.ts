// Why a corrective action, a look for the same gap elsewhere or a review may be refused.
import { refusalList } from '../shared/refusal.ts';

export const changeRefusals = refusalList({
  'no-callback-for-action': { blame: 'input', sentence: 'A corrective action comes from at least one callback that has a conclusion.' },
  'action-closed': { blame: 'state', sentence: 'This corrective action is {state} already.' },
  'action-takes-no-revision': { blame: 'input', sentence: 'Only a corrective action of the kind "revision" is linked to one.' },
  'action-waits-for-revision': { blame: 'state', sentence: 'This is done when its revision has been approved and is in force.' },
  'due-day-past': { blame: 'input', sentence: 'The due day {day} is over.' },
  'due-day-missing': { blame: 'input', sentence: 'Say until when it is done.' },
  'review-before-due': { blame: 'input', sentence: 'The review comes on or after the due day {dueOn}.' },
  'review-half-planned': { blame: 'input', sentence: 'A review has a day and somebody who does it.' },
  'reviewer-no-judge': { blame: 'input', sentence: 'An owner or a lead inspector reviews: the figures are for them alone.' },
  'revision-withdrawn': { blame: 'state', sentence: 'Revision {number} was withdrawn: it never comes into force. Link another one.' },
  'text-names-case': {
    blame: 'input',
    sentence: 'This goes to people who have nothing to do with the callback. Leave out {what} ("{found}").',
  },
  'action-without-what': { blame: 'input', sentence: 'Say what was done.' },
  'dropped-without-why': { blame: 'input', sentence: 'Say why nothing more is done.' },
  'training-without-people': { blame: 'input', sentence: 'Say who attended.' },
  'kit-without-which': { blame: 'input', sentence: 'Say which kit.' },
  'done-day-ahead': { blame: 'input', sentence: '{day} has not come yet.' },
  'done-before-decided': { blame: 'input', sentence: 'This was decided on {day}: it cannot have been done before.' },
  'nothing-in-force': { blame: 'state', sentence: 'Nothing has changed yet, so there is nothing to review.' },
  'review-next-day': { blame: 'input', sentence: '"Too early to tell" needs a later day for the next review.' },
  'not-in-list-elsewhere': { blame: 'input', sentence: 'Job {number} was not done by this step under this revision.' },
  'look-first': { blame: 'state', sentence: 'Look at the record of that job first and say whether it has the same gap.' },
  'no-gap-to-tell': { blame: 'state', sentence: 'The look at that job found no gap, so there is nothing to tell.' },
  'telling-is-the-owners': {
    blame: 'permission',
    sentence: 'Whether other clients are told is the decision of an owner. A danger to people is told at once, also by whoever is on call.',
  },
  'insurer-word-missing': {
    blame: 'input',
    sentence: "Write down the insurer's word: who said it, when and where it is on file. Only a danger to people does not wait for it.",
  },
  'attorney-word-missing': { blame: 'input', sentence: "A legal paper is among the callbacks: write down the attorney's word too." },
  'told-already': { blame: 'conflict', sentence: 'The client of that job has been told already.' },
  'danger-letter-empty': { blame: 'input', sentence: 'Say what the danger is and what to do until it is looked at.' },
});
