import { refusalList } from '../shared/refusal.ts';

export const planRefusals = refusalList({
  'plan-days-order': { blame: 'input', sentence: 'The last day lies before the first.' },
  'plan-days-past': { blame: 'input', sentence: 'These days are past: there is nothing left to plan.' },
  'plan-days-many': { blame: 'input', sentence: 'A plan spans {most} days at most.' },
  'plan-not-finished': { blame: 'state', sentence: 'This plan has nothing to accept.' },
  'plan-ended': { blame: 'state', sentence: 'This plan is no longer being made.' },
  'plan-groups': { blame: 'input', sentence: 'Choose moves of one plan: these do not belong together.' },
  'plan-other-variant': { blame: 'state', sentence: 'Another of these plans was accepted already. Ask for a new one.' },
  'plan-accepted': { blame: 'state', sentence: 'One of these moves was accepted already.' },
  'plan-outdated': { blame: 'conflict', sentence: 'Nothing was changed, because none of it fits any more. {sentences}' },
  'what-if-no-visits': {
    blame: 'state',
    sentence: 'There is no visit on record from {from} to {to}{also}: there is nothing to plan anew. Choose other weeks.',
  },
  'absence-not-approved': { blame: 'state', sentence: 'Only an approved absence keeps somebody from visits. Approve it first.' },
  'visit-promise': { blame: 'input', sentence: 'The window that is promised holds the start, and is no longer than 14 days.' },
  'weather-closure-times': { blame: 'input', sentence: 'The closed time ends after it begins, and lasts 31 days at most.' },
  'closure-past': { blame: 'input', sentence: 'This time is over already.' },
  'town-not-known': { blame: 'input', sentence: 'The firm serves no town named "{town}".' },
});
