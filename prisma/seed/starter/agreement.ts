// Examples of agreement texts. No attorney has reviewed them; the service says so until an owner records that one has.
// They limit no liability: a term that disclaims or limits damages for failing the standards is understood to be barred in Wisconsin
// (Wis. Stat. 440.976, from memory). They cite the published standard only, and claim no law for what is policy of the firm.
import type { Clause, TextKind, TextLimits } from '@backsight/domain/agreements/text';
import { ALWAYS, type Applicability } from '@backsight/domain/shared/applicability';

export type StarterText = { kind: TextKind; title: string; consentText: string; clauses: readonly Clause[]; limits: TextLimits };

const CONSENT = `Signing and receiving papers electronically
You may have this agreement and later papers on paper instead: tell the office, without charge.
Your consent covers this agreement, the appointment and the report for this inspection only.
You may withdraw it at any time by telling the office; what was signed before stays valid.
Tell the office when your e-mail address changes.
To read and keep these papers you need a device with an internet browser, and a way to save or print pages. By opening this page you show that you can.`;

const clause = (key: string, title: string, body: string, more: Partial<Pick<Clause, 'applies' | 'client'>> = {}): Clause => ({
  ...{ key, title, body, applies: ALWAYS, client: 'anybody' },
  ...more,
});
const has = (value: string): Applicability => ({ fact: 'features', compare: 'includes', value });

const PARTIES = clause('parties', '', 'Between **{{firm}}** ("the firm") and **{{client}}** ("the client").');
const CANCELLING = clause('cancelling', 'Cancelling, moving, no access', '{{cancellation}}\n\n{{no_access}}');
const NOTICE = clause(
  'notice_and_look',
  'If something seems to have been missed',
  'Please tell the firm in writing within 14 days of noticing it, and let the firm look before it is repaired, unless repair is needed to prevent danger or more damage: then photograph it first. Nothing in this section shortens a time that the law gives.',
);
const CLAIM = clause('claim_window', 'Time to bring a claim', '{{claim_window}}');
const DISPUTES = clause(
  'disputes',
  'If we disagree',
  '1. The client tells the firm in writing what is in dispute, and the firm answers in writing within 10 working days.\n2. If that does not settle it, both meet once, with a mediator when either asks for one; they share the cost of the mediator.\n3. After that either may go to court. A claim that small claims court may hear can be taken there at any time.',
);
const CONFLICTS = clause(
  'conflicts',
  'Conflicts of interest',
  'The firm does no repair work on houses it has inspected and pays nobody for referrals. The fee does not depend on what is found or on whether a sale closes.',
);
const PROVIDERS = clause('providers', '', '{{notices}}');

const INSPECTION: readonly Clause[] = [
  PARTIES,
  clause(
    'inspection',
    'The inspection',
    `Property: {{address}}
Appointment: {{appointment}}
Services: {{services}}
Inspectors: {{pair}}

The firm inspects the readily accessible, installed systems and components named in {{standard}}, by looking and by operating normal controls. The firm sends two licensed inspectors; if one is prevented, the client is told beforehand.`,
  ),
  clause('fee', 'The fee', 'Fee: {{fee}}\n\n{{terms}}'),
  clause(
    'report',
    'The report',
    'The client receives a written report, with a summary of defects first, by {{report_due}}. A defect is a condition that would significantly impair the health or safety of occupants, or that, if not repaired, would significantly shorten the normal life of the component. The report is for the client alone; others receive it only with the written consent of the client.',
  ),
  clause(
    'limits_of_looking',
    'What the inspection is not',
    'It is no guarantee, no insurance and no code inspection. What is hidden, unsafe to reach or not accessible on the day is not inspected, and the report says so and why. Snow, soil and belongings are not moved. Environmental hazards, pests, wells, septic systems, pools and lawn sprinklers are included only where named under services.',
  ),
  clause(
    'pool_looked_at',
    'The pool and spa',
    'Pool and spa are looked at as they stand, with their equipment run by normal controls. They are not emptied, nobody dives, and leaks below the water line, barriers and local ordinances are not judged.',
    { applies: { all: [{ any: [has('pool'), has('spa')] }, { service: 'pool_spa' }] } },
  ),
  clause('pool_left_out', 'The pool and spa', 'A pool or spa at the property was not ordered and is not inspected.', {
    applies: { all: [{ any: [has('pool'), has('spa')] }, { not: { service: 'pool_spa' } }] },
  }),
  clause(
    'access',
    'Access, utilities and safety',
    'The client arranges that the property can be entered and that water, electricity and fuel are on. What is found switched off stays off and is reported.',
  ),
  clause(
    'owner_readers',
    'Later readers of the report',
    'The client owns the house and orders this look before selling it. The report says what was seen on the day of the visit, for the client. Whoever reads it later relies on it at their own risk unless the firm agrees with them in writing; a buyer is advised to order an inspection of their own.',
    { client: 'owner' },
  ),
  clause(
    'owner_occupant',
    'The client lives in the house',
    'The client opens every room, hatch and panel that is to be looked at, and tells the firm of past leaks, fires, insects and repairs as far as known. That the client knows the house changes nothing in the time to bring a claim.',
    { client: 'owner' },
  ),
  CANCELLING,
  NOTICE,
  CLAIM,
  DISPUTES,
  CONFLICTS,
  PROVIDERS,
];

const REINSPECTION: readonly Clause[] = [
  PARTIES,
  clause(
    'scope',
    'What is looked at again',
    `Property: {{address}}
Appointment: {{appointment}}
Inspectors: {{pair}}

This visit belongs to the inspection of job {{first_job}} and is limited to these items of its report:

{{items}}

Nothing else is inspected, and the rest of the first report is neither repeated nor brought up to date. The look tells whether an item still shows what the report said; it is no warranty of anybody's work.`,
  ),
  clause('fee', 'The fee and the report', 'Fee: {{fee}}\n\n{{terms}}\n\nA short written report on the items follows by {{report_due}}.'),
  CANCELLING,
  NOTICE,
  clause('claim_window', 'Time to bring a claim', '{{claim_window}}\n\nThis visit does not begin the time for the first inspection anew.'),
  CONFLICTS,
];

const RELEASE_CONSENT = CONSENT.replace(
  'this agreement, the appointment and the report for this inspection only',
  'this paper only',
).replaceAll('this agreement', 'this paper');

const RELEASE: readonly Clause[] = [
  clause('parties', '', 'Between **{{firm}}** ("the firm") and **{{client}}** ("the claimant").'),
  clause('matter', 'What this is about', 'The claimant brought callback {{callback}} about the inspection of {{address}}, job {{job}}.'),
  clause('payment', 'What is paid', 'The firm pays {{amount}} to {{payee}} within 14 days after this paper is signed.'),
  clause(
    'ends',
    'What ends with it',
    'With that payment the claim that callback {{callback}} describes is settled, against the firm, its owners and its inspectors. What it does not describe, and what nobody could know when this was signed, is not settled by it.',
  ),
  clause(
    'no_admission',
    'No admission',
    'The payment is made to settle what is in dispute. Neither side admits by it that anything was done wrong or that anything was owed.',
  ),
  clause(
    'advice',
    'Before signing',
    'The claimant may show this paper to an attorney, and need not sign it. Nothing in it keeps anybody from speaking with the board that licenses inspectors.',
  ),
];

const NOTHING_LIMITED: TextLimits = { cap: { kind: 'none' }, claimMonths: null };

export const AGREEMENT_TEXTS: readonly StarterText[] = [
  { kind: 'inspection', title: 'Pre-inspection agreement', consentText: CONSENT, clauses: INSPECTION, limits: NOTHING_LIMITED },
  { kind: 'reinspection', title: 'Agreement on a re-inspection', consentText: CONSENT, clauses: REINSPECTION, limits: NOTHING_LIMITED },
  { kind: 'settlement_release', title: 'Settlement release', consentText: RELEASE_CONSENT, clauses: RELEASE, limits: NOTHING_LIMITED },
];
