// Refusals about outgoing mail.
import { refusalList } from '../shared/refusal.ts';

export const mailRefusals = refusalList({
  'mail-not-stuck': { blame: 'state', sentence: 'This mail is {state}; only one that waits or was given up can be tried again.' },
});
