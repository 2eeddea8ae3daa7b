// Why a callback, a remedy or a corrective action may be refused.
import { refusalList } from '../shared/refusal.ts';
import { clockRefusals } from './clockRefusals.ts';
import { intakeRefusals } from './intakeRefusals.ts';
export { opinionRefusals } from './opinionRefusals.ts';
export { changeRefusals } from './changeRefusals.ts';
export { afterRefusals } from './afterRefusals.ts';
export { remedyRefusals } from './remedyRefusals.ts';

export const callbackRefusals = refusalList({
  ...clockRefusals,
  ...intakeRefusals,
  'before-the-inspection': { blame: 'input', sentence: 'This cannot have happened on {day}: the inspection was on {inspectedOn}.' },
  'in-the-future': { blame: 'input', sentence: '{day} has not come yet.' },
  'not-visited-yet': { blame: 'state', sentence: 'Nobody of the firm has been at this property for this job yet.' },
  'legal-paper-needs': {
    blame: 'input',
    sentence: 'A legal paper needs the day and way of service and the deadline that the paper gives. Missing: {missing}.',
  },
  'deadline-before-service': { blame: 'input', sentence: 'The deadline {deadlineOn} lies before the day of service {servedOn}.' },
  'two-who-speak': { blame: 'input', sentence: 'Name one person who speaks: somebody of the job, or somebody new.' },
  'party-of-another-job': { blame: 'input', sentence: 'This person does not belong to the job.' },
  'near-miss-costs-nothing': { blame: 'state', sentence: 'A near-miss was caught in time: it has no remedy and no money.' },
  'question-is-no-callback': {
    blame: 'state',
    sentence:
      'This is a question about the report. It becomes a callback only when somebody says that something was missed, mis-stated or damaged.',
  },
  'kind-not-for-role': {
    blame: 'permission',
    sentence: 'Inspectors record near-misses and damage or injury. The office takes everything else.',
  },
  'callback-state': { blame: 'state', sentence: 'This is {state}; that is possible only while it is {needed}.' },
  'conclusion-missing': { blame: 'state', sentence: 'First conclude what this is traced to.' },
  'cause-needs-step': { blame: 'input', sentence: 'This cause needs the step that it is traced to.' },
  'cause-takes-no-step': { blame: 'input', sentence: 'This cause is not traced to a step.' },
  'step-not-on-this-job': { blame: 'input', sentence: 'The step {step} did not apply to this property on this job.' },
  'entry-of-another-step': { blame: 'input', sentence: 'That entry was not made at this step of this job.' },
  'reserve-below-zero': { blame: 'input', sentence: 'The money set aside cannot be less than nothing.' },
  'reserve-unchanged': { blame: 'input', sentence: 'The money set aside is {cents} cents already.' },
  'own-repair-payee': {
    blame: 'input',
    sentence:
      'The firm itself is no independent contractor. A repair by the firm is a remedy of its own, held against the rules of the state.',
  },
  'own-repair-barred': {
    blame: 'state',
    sentence: 'The rules of {state} bar it: {words} ({citation}; {certainty}). Pay an independent contractor instead.',
  },
  'own-repair-warned': {
    blame: 'state',
    sentence:
      'A firm that repairs a house that it inspected judges its own work. For {state} is on file: {words} ({citation}; {certainty}). Only an owner may go on, with the reason in ten letters or more.',
  },
  'remedy-needs-amount': { blame: 'input', sentence: 'This remedy pays money: it needs an amount above nothing and who is paid.' },
  'remedy-pays-nothing': { blame: 'input', sentence: 'No money leaves with this remedy.' },
  'remedy-needs-reason': { blame: 'input', sentence: 'Declining needs the reasons.' },
  'remedy-state': { blame: 'state', sentence: 'This remedy is {state} already.' },
  'remedy-not-approved': { blame: 'state', sentence: 'This remedy has not been approved.' },
  'no-approval-limit': { blame: 'permission', sentence: 'Your role has no approval limit.' },
  'above-approval-limit': { blame: 'permission', sentence: 'This is above your approval limit of {limitCents} cents.' },
  'second-person-needed': { blame: 'permission', sentence: 'Somebody other than the one who proposed it must approve this.' },
  'payment-needs-clearance': {
    blame: 'state',
    sentence: "No offer, payment or refund leaves before the insurer's consent, or the owner's reason why none is needed, is on file.",
  },
  'reason-is-the-owners': { blame: 'permission', sentence: "Only an owner may record why the insurer's consent is not needed." },
  'reserve-not-negative': { blame: 'conflict', sentence: 'The money set aside for this callback does not cover that.' },
  'reserve-open': { blame: 'state', sentence: 'There are {cents} cents set aside: release them first.' },
  'remedy-open': { blame: 'state', sentence: 'A remedy is still open: carry it out or refuse it first.' },
  'recovery-too-large': { blame: 'input', sentence: 'More cannot come back than the {paidCents} cents that were paid.' },
  'remedy-is-no-visit': { blame: 'state', sentence: 'Only the remedy "re-visit" is booked as a visit.' },
  'visit-booked-already': { blame: 'conflict', sentence: 'This visit is booked already, as job {number}. Move or cancel that one.' },
  'original-pair-alone': {
    blame: 'state',
    sentence:
      'The pair that did the inspection never goes alone to a callback visit: at least one of the two must be somebody who was not there.',
  },
  'letter-needs-words': { blame: 'input', sentence: 'The letter needs the words of what was decided.' },
  'no-letter-in-this': {
    blame: 'state',
    sentence: 'No letter goes out in this: it is for the owner alone, a legal paper (the attorney writes), or a near-miss.',
  },
});
