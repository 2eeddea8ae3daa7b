import { refusalList } from '../shared/refusal.ts';

export const peopleRefusals = refusalList({
  'email-taken': { blame: 'conflict', sentence: 'Another person already signs in with this e-mail address.' },
  'sign-in-failed': { blame: 'permission', sentence: 'The e-mail address or the password is not right.' },
  'sign-in-paused': { blame: 'permission', sentence: 'Too many failed attempts. Try again in {minutes} minutes.' },
  'last-owner': { blame: 'state', sentence: 'The firm needs at least one owner who can sign in.' },
  'password-too-short': { blame: 'input', sentence: 'A password needs at least 12 characters.' },
  'role-not-yours-to-give': { blame: 'permission', sentence: 'Only an owner gives a role other than inspector.' },
  'password-wrong': { blame: 'input', sentence: 'The present password is not right.' },
  'days-backwards': { blame: 'input', sentence: 'The last day must not be before the first.' },
  'license-once-at-a-time': { blame: 'conflict', sentence: 'This person already holds a license of this kind on some of these days.' },
  'license-number-known': { blame: 'conflict', sentence: 'A license with this number and first day is already there.' },
  'qualification-known': { blame: 'conflict', sentence: 'This qualification from this day on is already there.' },
  'work-pattern-once-at-a-time': { blame: 'conflict', sentence: 'Two spans of usual hours overlap on the same weekday.' },
  'work-hours-backwards': { blame: 'input', sentence: 'Work must end after it begins.' },
  'absence-backwards': { blame: 'input', sentence: 'An absence must end after it begins.' },
  'absence-too-long': {
    blame: 'input',
    sentence: 'One absence takes at most 366 days. For longer, enter the day on which the person leaves.',
  },
  'absence-withdrawn': { blame: 'state', sentence: 'This absence was already withdrawn.' },
  'same-person': { blame: 'input', sentence: 'Choose two different people.' },
  'pairing-contradicts': { blame: 'state', sentence: 'The opposite rule is in force for these two. End it first.' },
  'pairing-known': { blame: 'state', sentence: 'This rule is already in force for these two.' },
  'bar-known': { blame: 'conflict', sentence: 'This person is already kept away from this property.' },
  'kit-serial-known': { blame: 'conflict', sentence: 'A piece with this serial number is already there.' },
  'kit-calibration-missing': { blame: 'input', sentence: 'This kind of kit is calibrated: say until when.' },
});
