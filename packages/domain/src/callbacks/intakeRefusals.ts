// Why taking in, linking, a photo or the advice in danger may be refused.
import { refusalList } from '../shared/refusal.ts';

export const intakeRefusals = refusalList({
  'noticed-after-received': { blame: 'input', sentence: '{day} is after {receivedOn}, the day on which this was received.' },
  'mail-not-come-yet': { blame: 'input', sentence: 'A mail cannot have come later than now.' },
  'mail-logged-already': { blame: 'conflict', sentence: 'This mail is logged already, as number {number}. Open that one.' },
  'danger-without-mark': { blame: 'input', sentence: 'Tick that somebody may be in danger, or leave out from what.' },
  'step-only-of-near-miss': { blame: 'input', sentence: 'Only a near-miss says at once who caught it and at which step.' },
  'link-of-another-property': { blame: 'input', sentence: 'Only callbacks of the same property are linked, and none with itself.' },
  'near-miss-not-linked': { blame: 'input', sentence: 'A near-miss is linked to nothing.' },
  'linked-already': { blame: 'state', sentence: 'Number {number} is linked already. Take that link back first.' },
  'not-linked': { blame: 'state', sentence: 'This is linked to nothing.' },
  'duplicate-of-a-duplicate': { blame: 'state', sentence: 'Number {number} is in a link of duplicates already. Link to the first one.' },
  'duplicate-owner-only': { blame: 'state', sentence: 'One of the two is for the owner alone, so they stay apart.' },
  'duplicate-of-closed': { blame: 'state', sentence: 'Number {number} is closed. Open it again first, or say that it came back.' },
  'duplicate-decided': { blame: 'state', sentence: 'This is {state} or has a remedy or money: it is no duplicate any more.' },
  'duplicate-stays-closed': {
    blame: 'state',
    sentence: 'This is the same as an earlier one. Take the link back instead, with the reason.',
  },
  'job-unchanged': { blame: 'input', sentence: 'It is about job {number} already.' },
  'job-move-decided': {
    blame: 'state',
    sentence:
      'Under job {number} there is already: {what}. That stays with that job. Take it in anew under the right job, with this number in its words, and close this one with the reason.',
  },
  'job-move-linked': {
    blame: 'state',
    sentence: 'It is linked to another callback of the property. Take that link back first, for the other job is of another property.',
  },
  'advice-length': { blame: 'input', sentence: 'The advice has {least} to {most} letters.' },
  'callback-photos-full': { blame: 'state', sentence: 'There are {most} photos already. Send the rest by mail.' },
  'callback-photo-closed': { blame: 'state', sentence: 'This is closed; send a new report to add photos.' },
  'question-only': { blame: 'state', sentence: 'Only an open question is answered this way.' },
  'link-opens-nothing': { blame: 'permission', sentence: 'This link opens nothing any more. Please call the office for a new one.' },
  'no-link-without-agreement': { blame: 'state', sentence: 'This person has no private link: only those who sign the agreement have one.' },
});
