// Refusals about agreements, their signers and the gate.
import { refusalList } from '../shared/refusal.ts';

export const agreementsRefusals = refusalList({
  'no-agreement-text': { blame: 'state', sentence: 'No agreement text is in force.' },
  'unknown-placeholder': { blame: 'state', sentence: 'The agreement text asks for {names}, which nobody can fill in.' },
  'empty-placeholder': { blame: 'state', sentence: 'The agreement cannot be written yet; still missing: {names}.' },
  'no-client': { blame: 'state', sentence: 'This job has no client who could sign.' },
  'client-is-minor': { blame: 'state', sentence: '{names} is a minor and cannot be a client. Name the parent or guardian instead.' },
  'authority-missing': {
    blame: 'input',
    sentence: 'Who signs for somebody else needs the paper that allows it, or the reason why it is not on file.',
  },
  'signed-already': { blame: 'state', sentence: 'This person has already signed.' },
  'address-missing': { blame: 'state', sentence: '{name} has no e-mail address. Ask for one, or take the signature on paper.' },
  'address-in-doubt': {
    blame: 'state',
    sentence:
      'The address of {name} is also that of {owners}. Ask the client for an address of their own, or say that it was asked and send it anyway.',
  },
  'agreement-superseded': { blame: 'state', sentence: 'A newer agreement took the place of this one.' },
  'agreement-changed': { blame: 'conflict', sentence: 'The agreement changed while you were reading. Please read the newest one.' },
  'not-read': { blame: 'input', sentence: 'Please say that you have read the agreement.' },
  'no-consent': { blame: 'input', sentence: 'Please agree to electronic records, or ask the office for paper.' },
  'name-missing': { blame: 'input', sentence: 'Please type your full name.' },
  'not-your-visit': { blame: 'permission', sentence: 'Only the office or the pair of this job may do this.' },
  'gate-is-open': { blame: 'state', sentence: 'Nothing is missing for this visit.' },
  'reason-too-short': { blame: 'input', sentence: 'Please give the reason in at least 10 characters.' },
  'appointment-cancelled': { blame: 'state', sentence: 'This appointment was cancelled; there is nothing left to sign.' },
  'visit-not-ahead': { blame: 'state', sentence: 'This visit is over or was cancelled.' },
  'approved-already': { blame: 'state', sentence: "An attorney's approval of this text is already recorded." },
  'approval-ahead': { blame: 'input', sentence: 'The day of the approval lies ahead ({on}).' },
});
