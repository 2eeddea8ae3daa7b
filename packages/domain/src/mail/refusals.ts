// Refusals about outgoing mail, its wordings, and contacts.
import { refusalList } from '../shared/refusal.ts';

export const mailRefusals = refusalList({
  'mail-not-stuck': { blame: 'state', sentence: 'This mail is {state}; only one that waits or was given up can be tried again.' },
  'mail-not-sent': { blame: 'state', sentence: 'This mail is {state}; only one that a mail server accepted can come back.' },
  'mail-not-done': { blame: 'state', sentence: 'This mail still waits; it can be sent anew once it was sent or failed.' },
  'mail-link-spent': {
    blame: 'state',
    sentence: 'This mail held a private link, of which no copy is kept. Send a new link from the agreement of the job.',
  },
  'mail-sent-once': { blame: 'state', sentence: 'A mail server accepted this mail; it is not sent again.' },
  'mail-paused-already': { blame: 'state', sentence: 'The outbox is paused already.' },
  'mail-not-paused': { blame: 'state', sentence: 'The outbox is not paused.' },
  'mail-unknown-field': { blame: 'input', sentence: 'Nobody can fill in {names}. This mail knows {known}.' },
  'mail-empty-field': { blame: 'state', sentence: 'This mail cannot be written yet; still missing: {names}.' },
  'mail-field-missing': { blame: 'input', sentence: 'Without {names} this mail is of no use to who gets it.' },
  'mail-wording-locked': {
    blame: 'state',
    sentence:
      'Words that an attorney reviewed are locked (reviewed by {attorney}, {on}). Only an owner records a review or puts other words in their place, naming who reviewed those and the day.',
  },
  'mail-wording-built-in': { blame: 'state', sentence: 'This mail has the built-in wording already.' },
  'mail-no-address': { blame: 'state', sentence: '{name} has no e-mail address.' },
  'contact-not-of-job': { blame: 'input', sentence: 'This person is not on the job.' },
  'contact-ahead': { blame: 'input', sentence: 'A contact is logged once it was made.' },
  'certificate-missing': { blame: 'state', sentence: 'No certificate of insurance in force is on file. Add it under Firm, Insurance.' },
});
