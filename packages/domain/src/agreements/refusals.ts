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
  'not-read': { blame: 'input', sentence: 'Please say that you have read it.' },
  'no-consent': { blame: 'input', sentence: 'Please agree to electronic records, or ask the office for paper.' },
  'format-unproven': {
    blame: 'input',
    sentence:
      'The word is not the one in the PDF. Open the PDF, look for it at the top, and type it; if you cannot open it, ask for paper.',
  },
  'drawing-unreadable': { blame: 'input', sentence: 'The drawn signature could not be read. Please draw it again, or sign by typing.' },
  'drawing-empty': { blame: 'input', sentence: 'Please draw your signature in the field, or choose to sign by typing.' },
  'paper-proof-missing': { blame: 'input', sentence: 'Add a photo of the signed paper, or say where the paper is kept.' },
  'paper-photo-kind': { blame: 'input', sentence: 'The photo or scan must be a JPEG, a PNG or a PDF of at most 15 MB.' },
  'answer-reason-missing': { blame: 'input', sentence: 'Please tell us the reason in a few words.' },
  'link-revoked-already': { blame: 'state', sentence: 'This link opens nothing any more.' },
  'paper-wanted': {
    blame: 'state',
    sentence: '{name} does not agree to electronic records any more. Give it on paper, or ask for the consent anew.',
  },
  'name-missing': { blame: 'input', sentence: 'Please type your full name.' },
  'not-your-visit': { blame: 'permission', sentence: 'Only the office or the pair of this job may do this.' },
  'gate-is-open': { blame: 'state', sentence: 'Nothing is missing for this visit.' },
  'reason-too-short': { blame: 'input', sentence: 'Please give the reason in at least 10 characters.' },
  'appointment-cancelled': { blame: 'state', sentence: 'This appointment was cancelled; there is nothing left to sign.' },
  'visit-not-ahead': { blame: 'state', sentence: 'This visit is over or was cancelled.' },
  'approved-already': { blame: 'state', sentence: "An attorney's approval of this text is already recorded." },
  'approval-ahead': { blame: 'input', sentence: 'The day of the approval lies ahead ({on}).' },
  'text-without-clauses': { blame: 'input', sentence: 'A text needs at least one clause.' },
  'clause-empty': { blame: 'input', sentence: 'The clause "{clause}" has no words.' },
  'clause-title-field': { blame: 'input', sentence: 'The title of "{clause}" must not hold a field in braces.' },
  'clause-key-twice': { blame: 'input', sentence: 'Two clauses have the key "{key}".' },
  'clause-rule-wrong': { blame: 'input', sentence: 'When "{clause}" applies is not clear: {problem}' },
  'text-field-unknown': { blame: 'input', sentence: 'The clause "{clause}" asks for {names}, which nobody can fill in.' },
  'text-field-open': { blame: 'input', sentence: 'The clause "{clause}" has braces that do not close around a field.' },
  'text-cites-own-book': {
    blame: 'input',
    sentence: 'The clause "{clause}" names the procedures of the firm. Papers for clients cite the published standard only.',
  },
  'limit-not-set': { blame: 'input', sentence: 'A clause says {field}, but this text sets no such limit.' },
  'limit-not-said': { blame: 'input', sentence: 'This text sets a limit that no clause says: put {field} into one.' },
  'agreement-text-fixed': { blame: 'state', sentence: 'Text {number} is no draft any more and stays as it is. Make a new draft from it.' },
  'agreement-text-not-approved': { blame: 'state', sentence: 'Text {number} is not in use.' },
  'agreement-text-second-person': { blame: 'permission', sentence: 'Somebody else than the author approves a text.' },
  'text-draft-exists': { blame: 'conflict', sentence: 'A draft of this kind is already there. Change or discard that one first.' },
  'text-changes-nothing': { blame: 'state', sentence: 'This draft says the same as the text in force.' },
  'text-from-past': { blame: 'input', sentence: 'A text comes into force now or later, never in the past.' },
  'clause-locked': {
    blame: 'state',
    sentence: 'Locked by an attorney: {clauses}. Only an owner approves other words, naming the attorney who reviewed them, and the day.',
  },
  'clause-unknown': { blame: 'input', sentence: 'The text has no clause {key}.' },
  'text-breaks-rules': {
    blame: 'state',
    sentence:
      'The text goes against rules of the state ({rows}). Only an owner may approve it so, with the reason in at least 10 characters.',
  },
  'last-agreement-text': { blame: 'state', sentence: 'No other text of this kind is in force. Put another one in force first.' },
  'state-unknown': { blame: 'input', sentence: 'No rules of {state} are on file.' },
});
