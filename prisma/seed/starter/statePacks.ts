// State rules as they were read for this service: nothing here is legal advice, and every row is to be re-read in the official source.
import type { Certainty, Effect, RuleRow, Topic } from '@backsight/domain/shared/rulePack';

type Days = { fromDay?: string; untilDay?: string };

const row = (
  key: string,
  topic: Topic,
  certainty: Certainty,
  citation: string,
  words: string,
  effect: Effect | null = null,
  { fromDay, untilDay }: Days = {},
): RuleRow => ({ key, topic, words, citation, certainty, effect, fromDay: fromDay ?? null, untilDay: untilDay ?? null });

/** Kept where no period was found: built on the longest times to claim that were read; a policy, not a rule. */
const KEEP_BY_POLICY = row(
  'keep-records',
  'records',
  'none',
  'no rule seen',
  'No period was seen. By policy of the firm: 6 years after the report was delivered, and while a complaint or suit is open.',
  { kind: 'keep', years: 6, from: 'delivered' },
);
const GATE_BY_POLICY = row(
  'written-first',
  'agreement',
  'none',
  'no rule seen',
  'No rule on the form of the agreement was seen. That it is signed before the visit is policy of the firm; no law is claimed for it.',
);
const NO_CAP_RULE = row(
  'cap',
  'cap',
  'none',
  'no rule seen',
  'No rule on limits of liability was seen; that does not mean that there is none.',
);
const NO_CLAIM_RULE = row('claim', 'claim', 'none', 'no rule seen', 'No time to bring a claim was read for this state. Ask an attorney.');

const SPS = 'Wis. Admin. Code SPS 131';

const WISCONSIN: readonly RuleRow[] = [
  row(
    'standard',
    'standard',
    'found',
    `${SPS}.31 to 131.33`,
    'Standards of practice: general, components (1) to (11), contents of reports.',
    {
      kind: 'standard',
      name: `the Wisconsin standards of practice for home inspectors, ${SPS}.31 to 131.33`,
    },
  ),
  { ...GATE_BY_POLICY, citation: 'Wis. Stat. 440.975; SPS 131.33 (only the absence, in the parts read)' },
  row(
    'cap',
    'cap',
    'memory',
    'Wis. Stat. 440.976 (text not seen)',
    'A term that disclaims or limits damages for failing the standards is barred.',
    {
      kind: 'cap_barred',
    },
  ),
  row('claim-statute', 'claim', 'second_hand', 'Wis. Stat. 440.977(1)', '2 years from the completion of the inspection.', {
    kind: 'claim_time',
    years: 2,
    from: 'completed',
  }),
  row(
    'claim-contract',
    'claim',
    'second_hand',
    'Wis. Stat. 893.43',
    'One attorney argues that the 6-year period for contracts may still apply. The longer one counts until an attorney says otherwise.',
    { kind: 'claim_time', years: 6, from: 'completed' },
  ),
  { ...KEEP_BY_POLICY, citation: 'SPS 131 (only the absence, in its contents list)' },
  row(
    'report-names',
    'papers',
    'found',
    'SPS 131.33(1)(bm), (f)',
    'The report names who inspected and who prepared it, its day and that of a revision; a summary lists defects first.',
  ),
  row(
    'repairs',
    'repairs',
    'none',
    'no rule seen',
    'No ban on repairs with a fixed time was seen. By policy the firm never sells repairs on a house that it inspected.',
  ),
  row('interests', 'interests', 'memory', 'Wis. Stat. 440.975, 440.978', 'No pay from two parties and no interest in the property.'),
  row(
    'cooling-off',
    'agreement',
    'memory',
    '16 CFR 429; Wis. Stat. 423.201',
    'A contract signed at home may be cancelled within 3 business days.',
  ),
  row(
    'education',
    'education',
    'second_hand',
    'trade summary of the 2021 act',
    '40 hours in each two years; renewal on 15 December of even years is from memory.',
  ),
];

const NEW_YORK: readonly RuleRow[] = [
  row('standard', 'standard', 'found', '19 NYCRR Subpart 197-5', 'Standards of practice, 197-5.1 to 197-5.16.', {
    kind: 'standard',
    name: 'the New York standards of practice, 19 NYCRR Subpart 197-5',
  }),
  row(
    'written-first',
    'agreement',
    'found',
    '19 NYCRR 197-4.2',
    'A written agreement before the inspection, with scope and cost and fixed clauses, in type of 6 points or more. The fixed clauses are to be copied from the rule.',
    { kind: 'written_first', fields: ['services', 'fee'] },
  ),
  NO_CAP_RULE,
  row('claim-contract', 'claim', 'memory', 'CPLR 213', '6 years for contracts; the start was not read and is taken as completion.', {
    kind: 'claim_time',
    years: 6,
    from: 'completed',
  }),
  row('claim-malpractice', 'claim', 'memory', 'CPLR 214(6)', '3 years for malpractice, if it applies; the start is taken as completion.', {
    kind: 'claim_time',
    years: 3,
    from: 'completed',
  }),
  KEEP_BY_POLICY,
  row(
    'repairs',
    'repairs',
    'memory',
    '19 NYCRR 197-4.7',
    'Rules against repairing or soliciting repair on inspected homes; for how long was not read.',
    {
      kind: 'no_paid_repairs',
      months: null,
    },
  ),
  row('education', 'education', 'second_hand', 'state overview page', '24 hours for each renewal of two years.'),
];

const ILLINOIS: readonly RuleRow[] = [
  row(
    'standard',
    'standard',
    'found',
    '68 Ill. Adm. Code 1410.200',
    'Standards of practice; last amended 2 February 2024.',
    {
      kind: 'standard',
      name: 'the Illinois standards of practice, 68 Ill. Adm. Code 1410.200',
    },
    { fromDay: '2024-02-02' },
  ),
  row(
    'scope',
    'scope',
    'found',
    '225 ILCS 441/1-10',
    'An inspection covers two or more listed components and is tied to a sale or lease: a look at one component alone may fall outside.',
  ),
  row('act-ends', 'scope', 'found', '225 ILCS 441', 'The act repeals itself on 1 January 2027 unless it is extended.', null, {
    untilDay: '2026-12-31',
  }),
  row(
    'written-first',
    'agreement',
    'second_hand',
    '68 Ill. Adm. Code 1410.200',
    'A written agreement with the client before the inspection.',
    {
      kind: 'written_first',
      fields: [],
    },
  ),
  row('copy-kept', 'agreement', 'found', '68 Ill. Adm. Code 1410.240', 'The executed copy of the agreement must be kept.'),
  NO_CAP_RULE,
  row(
    'claim-written',
    'claim',
    'memory',
    '735 ILCS 5/13-206',
    '10 years for written contracts; the start was not read and is taken as completion.',
    {
      kind: 'claim_time',
      years: 10,
      from: 'completed',
    },
  ),
  row('claim-other', 'claim', 'memory', '735 ILCS 5/13-205', '5 years for oral contracts and property; the start is taken as completion.', {
    kind: 'claim_time',
    years: 5,
    from: 'completed',
  }),
  row(
    'keep-records',
    'records',
    'found',
    '68 Ill. Adm. Code 1410.240',
    'Contract, report, supplements and supporting data: the longer of 5 years after the inspection and 2 years after the final disposition of a case.',
    {
      kind: 'keep',
      years: 5,
      from: 'inspected',
    },
  ),
  row(
    'register',
    'records',
    'found',
    '68 Ill. Adm. Code 1410.240(c), (d)',
    'A register in sequence with inspection day, final report day, supplements, client and address; produced within 30 days of a request.',
  ),
  row(
    'report-names',
    'papers',
    'found',
    '68 Ill. Adm. Code 1410.250(b)',
    "The report shows names and license numbers of every inspector who contributed, and when the signer's license ends.",
  ),
  row(
    'report-to-others',
    'report',
    'found',
    '68 Ill. Adm. Code 1410.250(g)',
    "Results go to others only with the client's written consent.",
  ),
  row(
    'repairs',
    'repairs',
    'memory',
    'Illinois code',
    'Rules against repairing or soliciting repair on inspected homes; for how long was not read.',
    {
      kind: 'no_paid_repairs',
      months: null,
    },
  ),
  row('education', 'education', 'memory', 'not checked', '12 hours in each two years.'),
];

const TEXAS: readonly RuleRow[] = [
  row('standard', 'standard', 'found', '22 TAC 535.227 to 535.233', 'Standards of practice in seven sections.', {
    kind: 'standard',
    name: 'the Texas standards of practice, 22 TAC 535.227 to 535.233',
  }),
  GATE_BY_POLICY,
  NO_CAP_RULE,
  row(
    'claim-negligence',
    'claim',
    'memory',
    'Tex. CPRC 16.003',
    '2 years for negligence; the start was not read and is taken as completion.',
    {
      kind: 'claim_time',
      years: 2,
      from: 'completed',
    },
  ),
  row('claim-contract', 'claim', 'memory', 'Tex. CPRC 16.004, 16.051', '4 years for contracts; the start is taken as completion.', {
    kind: 'claim_time',
    years: 4,
    from: 'completed',
  }),
  row('keep-records', 'records', 'memory', 'state rules, not checked', 'The report is kept 2 years.', {
    kind: 'keep',
    years: 2,
    from: 'delivered',
  }),
  row(
    'insurance-proof',
    'records',
    'found',
    'state agency, answers to questions',
    'Proof of continuous liability cover for the license period before, 2 years.',
  ),
  row(
    'report-due',
    'report',
    'memory',
    '22 TAC 535.222',
    'The report within 2 days unless agreed otherwise; the start was not read and is taken as the day of the inspection.',
    { kind: 'report_due', days: 2, unit: 'days', from: 'inspected', unlessAgreed: true },
  ),
  row(
    'repairs',
    'repairs',
    'memory',
    '22 TAC 535.220',
    'Rules against repairing or soliciting repair on inspected homes; for how long was not read.',
    {
      kind: 'no_paid_repairs',
      months: null,
    },
  ),
  row('education', 'education', 'memory', 'not checked', '32 hours in each two years.'),
];

const CALIFORNIA: readonly RuleRow[] = [
  GATE_BY_POLICY,
  row(
    'cap',
    'cap',
    'found',
    'Cal. Bus. & Prof. Code 7198',
    "A waiver of the inspector's duty, or a cap at the price of the report, is against public policy and invalid.",
    {
      kind: 'cap_barred',
    },
  ),
  row('claim-statute', 'claim', 'found', 'Cal. Bus. & Prof. Code 7199', '4 years from the day of the inspection, at most.', {
    kind: 'claim_time',
    years: 4,
    from: 'inspected',
  }),
  row('claim-discovery', 'claim', 'found', '106 Cal. App. 4th 1315 (2003)', 'Courts count from the discovery of the matter.', {
    kind: 'claim_time',
    years: 4,
    from: 'discovered',
  }),
  row(
    'claim-clause',
    'claim',
    'found',
    '106 Cal. App. 4th 1315 (2003)',
    'A clause of the contract that cut the time to one year was not upheld.',
    {
      kind: 'shorter_time_barred',
    },
  ),
  KEEP_BY_POLICY,
  row(
    'repairs',
    'repairs',
    'found',
    'Cal. Bus. & Prof. Code 7197(a)(1)',
    'Neither inspector nor company may do or offer repairs for an additional fee on a structure reported on in the past 12 months.',
    {
      kind: 'no_paid_repairs',
      months: 12,
    },
  ),
  row(
    'interests',
    'interests',
    'found',
    'Cal. Bus. & Prof. Code 7197(a)(3), (4)',
    'No fee that depends on findings or closing; no reward to agent or owner for referrals.',
  ),
];

const WASHINGTON: readonly RuleRow[] = [
  row('standard', 'standard', 'found', 'WAC 308-408C', 'Standards of practice; sections -020, -070 to -090, -110 and -120 were read.', {
    kind: 'standard',
    name: 'the Washington standards of practice, WAC 308-408C',
  }),
  row('written-first', 'agreement', 'memory', 'WAC 308-408C-030 (text not seen)', 'What the agreement contains, and the duty to keep it.', {
    kind: 'written_first',
    fields: [],
  }),
  row(
    'conflicts-first',
    'agreement',
    'found',
    'WAC 308-408C-020(2), (7)',
    'Conflicts are disclosed in writing before the client signs; pay from more than one party needs written disclosure.',
    {
      kind: 'clause_needed',
      clause: 'conflicts',
    },
  ),
  NO_CAP_RULE,
  NO_CLAIM_RULE,
  row('keep-records', 'records', 'memory', 'state rules, not checked', '3 years.', { kind: 'keep', years: 3, from: 'delivered' }),
  row(
    'repairs',
    'repairs',
    'found',
    'WAC 308-408C-020(8)',
    'No repair, replacement or upgrade for compensation for one year after completion; binds firm, employees and affiliates.',
    {
      kind: 'no_paid_repairs',
      months: 12,
    },
  ),
  row('education', 'education', 'memory', 'not checked', '24 hours in each two years.'),
];

const REPORT_START = 'the start was not read and is taken as the day of the inspection.';

const NORTH_CAROLINA: readonly RuleRow[] = [
  row(
    'written-first',
    'agreement',
    'memory',
    '11 NCAC 08 .1103, .1104',
    'A signed written contract before the inspection, with services, cost and exclusions.',
    {
      kind: 'written_first',
      fields: ['services', 'fee'],
    },
  ),
  NO_CAP_RULE,
  row('claim', 'claim', 'memory', 'N.C.G.S. 1-52', '3 years for contract and negligence; the start is taken as completion.', {
    kind: 'claim_time',
    years: 3,
    from: 'completed',
  }),
  row('keep-records', 'records', 'memory', 'state rules, not checked', '3 years.', { kind: 'keep', years: 3, from: 'delivered' }),
  row('report-due', 'report', 'memory', 'N.C.G.S. 143-151.58', `The report within 3 business days; ${REPORT_START}`, {
    kind: 'report_due',
    days: 3,
    unit: 'businessDays',
    from: 'inspected',
    unlessAgreed: false,
  }),
];

const MARYLAND: readonly RuleRow[] = [
  GATE_BY_POLICY,
  row(
    'cap',
    'cap',
    'memory',
    'Md. Code, Bus. Occ. & Prof. 16-4A-01',
    'A limit of liability must be agreed in writing before the work; of the section only the heading was read.',
  ),
  NO_CLAIM_RULE,
  row(
    'keep-records',
    'records',
    'found',
    'Md. Code, Bus. Occ. & Prof. 16-4A-05',
    'Contract, report and all supporting data, 5 years from delivery; anew for 5 years after a dispute ends once notice of litigation was given.',
    { kind: 'keep', years: 5, from: 'delivered' },
  ),
  row('report-due', 'report', 'memory', 'Md. Code, Bus. Occ. & Prof. 16-4A-01', `The report within 7 business days; ${REPORT_START}`, {
    kind: 'report_due',
    days: 7,
    unit: 'businessDays',
    from: 'inspected',
    unlessAgreed: false,
  }),
  row('education', 'education', 'second_hand', 'state overview page', '30 hours for each renewal of two years.'),
];

/** `versionDay` is the day from which this reading counts; a new reading is a new version, and the old ones stay. */
export const STATE_PACKS = [
  { jurisdiction: 'US-WI', versionDay: '2026-07-01', name: 'Wisconsin', rows: WISCONSIN },
  { jurisdiction: 'US-NY', versionDay: '2026-07-01', name: 'New York', rows: NEW_YORK },
  { jurisdiction: 'US-IL', versionDay: '2026-07-01', name: 'Illinois', rows: ILLINOIS },
  { jurisdiction: 'US-TX', versionDay: '2026-11-28', name: 'Texas', rows: TEXAS },
  { jurisdiction: 'US-CA', versionDay: '2026-07-01', name: 'California', rows: CALIFORNIA },
  { jurisdiction: 'US-WA', versionDay: '2026-07-01', name: 'Washington', rows: WASHINGTON },
  { jurisdiction: 'US-NC', versionDay: '2026-11-28', name: 'North Carolina', rows: NORTH_CAROLINA },
  { jurisdiction: 'US-MD', versionDay: '2026-11-28', name: 'Maryland', rows: MARYLAND },
] as const;
