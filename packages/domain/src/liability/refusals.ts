// Refusals of the liability pages.
import { refusalList } from '../shared/refusal.ts';

export const liabilityRefusals = refusalList({
  'least-above-most': { blame: 'input', sentence: 'The least effect is above the most.' },
  'outlook-step-missing': { blame: 'input', sentence: 'Choose the step whose minutes or effect you give.' },
  'no-policy-in-force': {
    blame: 'state',
    sentence: 'No professional liability policy is in force today, so that a deductible changes nothing.',
  },
  'outlook-not-yet': { blame: 'input', sentence: 'This instant is still to come; an outlook rests on what is known.' },
  'quarter-not-begun': { blame: 'input', sentence: 'This quarter has not begun.' },
  'outlook-name-taken': { blame: 'conflict', sentence: 'A kept outlook has this name already.' },
});
