// Why a conclusion, its confirmation, an account, a kind of error or a hold may be refused.
import { refusalList } from '../shared/refusal.ts';

export const opinionRefusals = refusalList({
  'conclusion-unconfirmed': {
    blame: 'state',
    sentence: 'Whoever concluded was on this job: somebody who was not there confirms the conclusion before anything is decided on it.',
  },
  'conclusion-superseded': { blame: 'conflict', sentence: 'There is a newer conclusion: read that one.' },
  'confirmation-not-needed': {
    blame: 'state',
    sentence: 'This conclusion was made by somebody who was not on the job: it needs no confirmation.',
  },
  'confirmed-already': { blame: 'state', sentence: 'This conclusion is confirmed already.' },
  'own-conclusion': { blame: 'permission', sentence: 'Nobody confirms their own conclusion.' },
  'confirmer-on-the-job': { blame: 'permission', sentence: 'You were on this job: somebody who was not there confirms the conclusion.' },
  'somebody-else-confirms': { blame: 'state', sentence: 'There are {others} in the firm who were not on the job and can confirm it.' },
  'outside-needs-words': {
    blame: 'input',
    sentence: 'Write who outside the firm looked at it, or why nobody does, in ten letters or more.',
  },
  'circumstance-needs-words': { blame: 'input', sentence: 'Say in the reasons what else contributed.' },
  'error-kinds-off': {
    blame: 'state',
    sentence: 'Kinds of error are off. An owner who has asked the attorney turns them on in the settings of the firm.',
  },
  'attorney-was-not-asked': {
    blame: 'input',
    sentence: 'Only an owner who has asked the attorney turns this on: write who was asked, and on which day.',
  },
  'error-kind-of-a-step': { blame: 'input', sentence: 'A kind of error belongs to a step: name the step that it happened at.' },
  'account-not-on-the-job': { blame: 'input', sentence: '{name} was not on this job.' },
  'account-asked-already': { blame: 'state', sentence: '{name} is asked already.' },
  'account-not-asked': { blame: 'permission', sentence: 'You were not asked for an account of this job.' },
  'account-given-already': {
    blame: 'state',
    sentence: 'Your account stays as you gave it. Add a further one to correct it or to say more.',
  },
  'account-none-yet': { blame: 'state', sentence: 'You have given no account yet that something could be added to.' },
  'evidence-held': {
    blame: 'state',
    sentence:
      'Nothing of this job may be erased or taken away now: its evidence is held while a callback is open or until an owner lifts the hold.',
  },
  'hold-lifted': { blame: 'state', sentence: 'This hold is lifted already.' },
});
