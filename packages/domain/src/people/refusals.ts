import { refusalList } from '../shared/refusal.ts';

export const peopleRefusals = refusalList({
  'email-taken': { blame: 'conflict', sentence: 'Another person already signs in with this e-mail address.' },
  'sign-in-failed': { blame: 'permission', sentence: 'The e-mail address or the password is not right.' },
  'sign-in-paused': { blame: 'permission', sentence: 'Too many failed attempts. Try again in {minutes} minutes.' },
  'last-owner': { blame: 'state', sentence: 'The firm needs at least one owner who can sign in.' },
  'password-too-short': { blame: 'input', sentence: 'A password needs at least 12 characters.' },
});
