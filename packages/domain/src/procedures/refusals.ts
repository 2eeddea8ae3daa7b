// What may be refused about the procedure book.
import { refusalList } from '../shared/refusal.ts';

export const procedureRefusals = refusalList({
  'draft-exists': {
    blame: 'conflict',
    sentence: 'There is already a draft of this procedure (revision {number}). Change that one, or discard it first.',
  },
  'revision-not-a-draft': { blame: 'state', sentence: 'Revision {number} is no draft any more.' },
  'revision-outdated': {
    blame: 'conflict',
    sentence: 'Revision {number} was approved meanwhile. Compare this draft with it, save it again and approve it then.',
  },
  'revision-problems': { blame: 'state', sentence: 'This draft cannot be approved yet: {problems}' },
  'revision-changes-nothing': { blame: 'state', sentence: 'This draft changes nothing.' },
  'revision-looks-personal': {
    blame: 'input',
    sentence: 'This text holds {what}. A revision goes to every phone: leave out clients, addresses and amounts.',
  },
  'approver-is-author': { blame: 'permission', sentence: 'A revision is approved by somebody other than its author.' },
  'in-force-past': { blame: 'input', sentence: 'A revision comes into force now or later, not in the past.' },
  'in-force-before-newest': { blame: 'input', sentence: 'Revision {number} comes into force at {from}; a later one can only follow it.' },
  'grace-before-in-force': { blame: 'input', sentence: 'The last time to acknowledge cannot be before the revision is in force.' },
  'grace-too-short': {
    blame: 'input',
    sentence: 'Inspectors get at least {days} working days to acknowledge, until {earliest}. Only an owner may set less.',
  },
  'grace-reason-missing': { blame: 'input', sentence: 'Say why there is danger enough to give less than {days} working days.' },
  'grace-needs-owner': {
    blame: 'permission',
    sentence: 'Less than two working days to acknowledge is given only by an owner, with a reason.',
  },
  'nothing-to-retire': { blame: 'state', sentence: 'This procedure is not in the book: there is nothing to retire.' },
  'retirement-without-steps': {
    blame: 'state',
    sentence: 'A revision that retires its procedure holds no steps. Discard it and draft anew to change them.',
  },
  'procedure-key-taken': { blame: 'conflict', sentence: 'There is already a procedure with this short name.' },
  'table-too-large': { blame: 'input', sentence: 'This table has {size}. Steps of a draft need less than 1 MB: take out what is no step.' },
  'table-problems': { blame: 'input', sentence: 'Nothing was taken in: {count} to put right first, the first on line {line}: {text}' },
  'questions-first': { blame: 'state', sentence: 'Answer the questions first: {open} still open.' },
  'question-unanswered': { blame: 'input', sentence: 'Answer each question once.' },
  'question-other-answer': { blame: 'input', sentence: 'An answer is not among those to choose from. Open the page again.' },
  'revision-in-force': { blame: 'state', sentence: 'Revision {number} is or was in force and cannot be withdrawn. Draft a new one.' },
  'revision-followed': { blame: 'state', sentence: 'Revision {number} was approved after this one. Withdraw that one first.' },
  'revision-not-approved': { blame: 'state', sentence: 'Revision {number} is not approved.' },
  'already-acknowledged': { blame: 'conflict', sentence: 'You have acknowledged this revision already.' },
  'acknowledged-in-future': { blame: 'input', sentence: 'The time of an acknowledgement cannot lie in the future.' },
  'step-key-twice': { blame: 'input', sentence: 'The key "{key}" is used for two steps.' },
  'step-key-elsewhere': {
    blame: 'input',
    sentence: 'The key "{key}" belongs to another procedure and stays there. Give this step a new key that is derived from it.',
  },
  'step-origin-fixed': { blame: 'input', sentence: 'Where the step "{key}" is derived from was settled when its key was first used.' },
  'step-origin-unknown': { blame: 'input', sentence: 'There is no step "{origin}" from which "{key}" could be derived.' },
  'step-new-meaning': {
    blame: 'input',
    sentence:
      'The step "{title}" would now mean something else ({what}). Give it a new key that is derived from "{key}", so that its figures stay true.',
  },
  'one-revision-in-force': { blame: 'conflict', sentence: 'Another revision of this procedure is in force at that time.' },
  'revision-immutable': { blame: 'state', sentence: 'An approved revision is never changed. Draft a new one.' },
  'revision-second-person': { blame: 'permission', sentence: 'A revision is approved by somebody other than its author.' },
});
