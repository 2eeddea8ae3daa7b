import { refusalList } from '../shared/refusal.ts';

export const personalRefusals = refusalList({
  'retention-too-short': {
    blame: 'input',
    sentence: 'The state rules on file say {years} years for {state} ({citation}): the firm may keep longer, never shorter.',
  },
  'retention-not-over': {
    blame: 'state',
    sentence: 'The time for which this has to be kept is not over. Nothing was disposed of: look at the list again.',
  },
  'not-finished': {
    blame: 'state',
    sentence: 'A job that is not finished, or whose invoice is open, is not disposed of. Nothing was disposed of: look at the list again.',
  },
  'nothing-to-dispose-of': { blame: 'state', sentence: 'There is nothing of this kind to dispose of. Look at the list again.' },
  'disposed-already': { blame: 'conflict', sentence: 'Some of this was disposed of already. Look at the list again.' },
  'job-disposed': {
    blame: 'missing',
    sentence:
      'The file of job {number} was disposed of on {day}, when its time was over. Its number, days, state and amounts, the ledger and the audit trail stay.',
  },
  'still-at-work': { blame: 'state', sentence: '{name} works for the firm: say the last day at work first.' },
  'erased-already': { blame: 'state', sentence: 'Nothing is left that may go now. What stays, and until when, is in the list.' },
  'erasure-changed': {
    blame: 'conflict',
    sentence: 'What goes and what stays changed since the list was shown. Nothing was erased: look at the list again.',
  },
  'file-not-reviewed': {
    blame: 'permission',
    sentence: 'Until an owner says that the attorney reviewed it, this file is for review only.',
  },
  'file-reviewed': { blame: 'state', sentence: 'This file was said to be reviewed already.' },
});
