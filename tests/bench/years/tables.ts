// Which tables a firm of many years is made of, and how far back a row of each may be copied. What is not named here exists once:
// the book of procedures, fees, texts, corrective actions, appointments of providers, danger alerts, files.

/** People and their kit: once for each team, not moved in time. */
export const PEOPLE = [
  'person',
  'person_role',
  'person_qualification',
  'person_size',
  'work_pattern',
  'license',
  'acknowledgement',
  'revision_answer',
  'absence',
  'work_exception',
  'pairing_rule',
  'kit_item',
  'kit_check',
  'pay_rule',
];

export type Copied = {
  /** Rows that are copied at all. */
  only?: string;
  /** Rows of what is still to come or under way: copied to the other teams of today, never to the past. */
  now?: string;
  /** Rows of what is not settled: no older than two blocks, since a firm settles what is older. */
  open?: string;
  /** Column that names what the row is about without a foreign key. */
  about?: string;
};

const OVER = `('reported', 'ended', 'cancelled', 'lapsed')`;
/** Of the steps of each record so many in forty are kept: the demo's records have some 140, a firm's usual book some 85. */
const STEPS = 'abs(hashtext(o.step_key)) % 40 < 25';
const soon = (table: string, has: string): string => `NOT EXISTS (SELECT FROM ${table} WHERE ${has} AND reach < 0)`;

/** Everything that hangs on jobs: once for each block of weeks and team. What a row points to stands before it. */
export const JOBS: Record<string, Copied> = {
  kept_text: {},
  property: {},
  fact_sheet: {},
  party: {},
  job: {
    now: `o.state NOT IN ${OVER} OR EXISTS (SELECT FROM visit v WHERE v.job_id = o.id AND v.state IN ('held', 'booked', 'on_site'))`,
    open: `EXISTS (SELECT FROM invoice i WHERE i.job_id = o.id AND i.state IN ('draft', 'issued'))`,
  },
  job_event: {},
  job_party: {},
  job_service: {},
  job_fee_line: {},
  job_discount: {},
  job_need: { open: `o.kind IN ('ending_fee', 'report_owed', 'walk_through') AND o.state IN ('open', 'asked')` },
  visit: {},
  assignment: {},
  visit_pay: {},
  visit_kit: {},
  visit_ending: {},
  gate_override: {},
  drive_mark: {},
  later_look: { open: `o.state = 'offered'` },
  test_item: {},
  test_step: {},
  site_record: {},
  site_package: {},
  record_item: {},
  package_step: { only: STEPS },
  step_entry: { only: `${STEPS} OR o.value ? 'act'` },
  report: {},
  report_delivery: {},
  invoice: {},
  invoice_line: {},
  callback: { open: `o.state <> 'closed'` },
  callback_intake: {},
  callback_event: {},
  callback_clock: {},
  callback_assessment: {},
  after_check: { open: 'o.outcome IS NULL' },
  conclusion: {},
  conclusion_confirmation: {},
  remedy: {},
  remedy_approval: {},
  agreement: {},
  signer: {},
  signature: {},
  sealed_paper: {},
  ledger_entry: {
    now: `EXISTS (SELECT FROM ledger_line l JOIN base.job j ON j.id = l.job_id WHERE l.entry_id = o.id AND j.reach = 0)`,
    open: `EXISTS (SELECT FROM ledger_line l LEFT JOIN base.job j ON j.id = l.job_id LEFT JOIN base.callback c ON c.id = l.callback_id WHERE l.entry_id = o.id AND greatest(j.reach, c.reach) > -1000)`,
  },
  ledger_line: {},
  invoice_act: {},
  payment: {},
  remedy_payment: {},
  callback_recovery: {},
  clearance: {},
  contact_note: {},
  education_entry: {},
  outgoing_mail: { now: `o.state = 'waiting'`, open: `o.state IN ('refused', 'given_up')`, about: 'about_id' },
  audit_row: { about: 'thing_id' },
};

/** Houses and parties whose jobs are all still to come are no older than their jobs; asked once the jobs are known. */
export const NO_OLDER_THAN_JOBS: Record<string, string> = {
  property: soon('base.job', 'property_id = o.id'),
  party: soon('base.job_party', 'party_id = o.id'),
};
