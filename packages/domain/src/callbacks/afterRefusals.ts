// Why a letter, a check after closing, an appeal or a client's answer may be refused.
import { refusalList } from '../shared/refusal.ts';

export const afterRefusals = refusalList({
  'callback-changed': {
    blame: 'conflict',
    sentence: '{who} changed this callback meanwhile ({what}). Look at it again, then press once more; what you typed is still here.',
  },
  'assignee-cannot': {
    blame: 'input',
    sentence: 'Name a lead inspector, an owner or somebody of the office; in a matter for the owner alone, an owner.',
  },
  'letter-unfinished': { blame: 'input', sentence: 'Still to be filled in: {parts}.' },
  'letter-locked-words': {
    blame: 'input',
    sentence: 'An attorney reviewed this wording: what stands between its fields stays. Missing: {missing}.',
  },
  'letter-without-reservation': {
    blame: 'input',
    sentence: 'The letter no longer says "without admission of responsibility". Only an owner may leave that out.',
  },
  'offer-not-marked': { blame: 'input', sentence: 'An offer of money is marked as made to settle. Put in: {mark}' },
  'letter-needs-address': { blame: 'input', sentence: '{name} has no e-mail address: write the letter for paper.' },
  'no-visit-booked': { blame: 'state', sentence: 'No visit for this callback is booked: book it under the remedy "re-visit".' },
  'no-appeal-decided': { blame: 'state', sentence: 'No appeal of this callback has been decided.' },
  'check-not-open': { blame: 'state', sentence: 'Nothing is to be asked after here.' },
  'check-again-only': { blame: 'input', sentence: 'Only when nobody was reached is it asked once more.' },
  'repeat-is-itself': { blame: 'input', sentence: 'Name the other callback: the one that came back.' },
  'repeat-elsewhere': { blame: 'input', sentence: 'That callback is about another property.' },
  'appeal-needs-words': { blame: 'input', sentence: 'Please say what we should look at again.' },
  'nothing-to-appeal': { blame: 'state', sentence: 'No decision was told by letter, so there is nothing to appeal.' },
  'appeal-open': { blame: 'state', sentence: 'An appeal is being looked at already.' },
  'appealed-already': { blame: 'state', sentence: 'This decision was appealed once already.' },
  'appeal-late': { blame: 'state', sentence: 'The time to appeal ended on {day}.' },
  'appeal-not-open': { blame: 'state', sentence: 'No appeal is open.' },
  'appeal-for-other-owner': {
    blame: 'permission',
    sentence: 'You concluded this or were on the job. {names} did neither, and decides the appeal.',
  },
  'appeal-needs-reviewer': {
    blame: 'input',
    sentence:
      'You concluded this or were on the job, and no other owner is free of it. Name who from outside looked at it, or say that nobody else could.',
  },
  'answer-not-yet': { blame: 'state', sentence: 'This is not closed yet: you will be asked then.' },
  'answer-late': { blame: 'state', sentence: 'The time to answer ended on {day}.' },
});
