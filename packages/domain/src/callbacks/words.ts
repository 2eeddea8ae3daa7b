// The closed lists of callbacks, each with the words that people read.

export const SPEAKERS = {
  client: 'client',
  seller: 'seller',
  occupant: 'occupant',
  tenant: 'tenant',
  agent: 'agent',
  later_buyer: 'later buyer',
  attorney: 'attorney',
  board: 'license board',
  insurer: 'insurer',
  pair: 'pair on site',
} as const;
export type Speaker = keyof typeof SPEAKERS;

export const KINDS = {
  missed: 'something missed or mis-stated',
  damage_or_injury: 'damage or injury during the visit',
  conduct: 'service or conduct',
  fee: 'fee',
  board_complaint: 'license-board complaint',
  demand_or_suit: 'demand letter or suit',
  records_request: 'records request or subpoena',
  question: 'question about the report',
  near_miss: 'near-miss',
} as const;
export type Kind = keyof typeof KINDS;

export const STATES = {
  received: 'received',
  acknowledged: 'acknowledged',
  looking_into: 'being looked into',
  concluded: 'concluded',
  remedy_agreed: 'remedy agreed',
  closed: 'closed',
} as const;
export type State = keyof typeof STATES;

/** What a callback is traced to. The first four blame a step of the procedures, never a person. */
export const CAUSES = {
  skipped: 'step skipped',
  done_wrongly: 'step done wrongly',
  not_in_procedure: 'not in the procedure',
  unclear: 'procedure unclear',
  not_accessible: 'not accessible then',
  arose_later: 'arose later',
  was_reported: 'was reported',
  out_of_scope: 'out of scope',
  damaged_on_visit: 'damaged during the visit',
  service_or_conduct: 'service or conduct',
  nothing_shown: 'nothing shown',
} as const;
export type Cause = keyof typeof CAUSES;

/** Causes that count as a failure of the step that the conclusion names. */
export const STEP_CAUSES = ['skipped', 'done_wrongly', 'not_in_procedure', 'unclear'] as const satisfies readonly Cause[];
/** Causes that cannot be concluded without naming a step and its revision. */
export const NAMES_STEP = ['skipped', 'done_wrongly', 'unclear'] as const satisfies readonly Cause[];

export const REMEDIES = {
  revisit: 're-visit',
  supplement: 'written supplement to the report',
  fee_refund: 'fee refund',
  goodwill_payment: 'goodwill payment',
  independent_contractor: 'paying an independent contractor',
  own_repair: 'repair by the firm itself',
  declined: 'declined, with reasons',
  insurer_notice: 'notice to the insurer',
} as const;
export type RemedyKind = keyof typeof REMEDIES;
/** Remedies by which money leaves the firm. */
export const MONEY_REMEDIES = ['fee_refund', 'goodwill_payment', 'independent_contractor'] as const satisfies readonly RemedyKind[];

export const REMEDY_STATES = { proposed: 'waiting for approval', approved: 'approved', refused: 'refused', done: 'done' } as const;
export type RemedyState = keyof typeof REMEDY_STATES;

export const CLEARANCES = { insurer_consent: "insurer's consent", owner_reason: "owner's reason why none is needed" } as const;
export type ClearanceKind = keyof typeof CLEARANCES;

export const ACTION_KINDS = {
  revision: 'revision of a procedure',
  training: 'training',
  kit: 'kit',
  none: 'nothing, with the reason',
} as const;
export type ActionKind = keyof typeof ACTION_KINDS;

/** What a record may lack at a step, in words that say what was recorded. */
export const GAPS = {
  no_entry: 'nothing was recorded at the step',
  could_not: 'the step was not done: could not be inspected, or the visit ended',
  differs: 'the counts did not match',
  not_followed: 'done as written, and nothing recorded later checks the result',
  outside: 'a reading outside the usual range, without a note',
  partner_differs: 'the two of the pair recorded different results',
  extra_not_done: 'our own extra was not done',
} as const;
export type Gap = keyof typeof GAPS;

export const VERDICTS = { same_gap: 'the same gap', fine: 'fine', cannot_tell: 'cannot tell from the record' } as const;
export type Verdict = keyof typeof VERDICTS;

export const REVIEW_RESULTS = { worked: 'it worked', did_not: 'it did not work', too_early: 'too early to tell' } as const;
export type ReviewResult = keyof typeof REVIEW_RESULTS;

/** Kinds that come on paper, with a day of service and a deadline that the law sets. */
export const LEGAL_KINDS = ['board_complaint', 'demand_or_suit', 'records_request'] as const satisfies readonly Kind[];
/** Kinds that are answered, not judged: they are closed without a conclusion. */
const ANSWERED = ['question', 'records_request'] as const satisfies readonly Kind[];

/** Kinds about something that the firm did at the house. */
const AFTER_A_VISIT = ['missed', 'damage_or_injury', 'near_miss', 'question'] as const satisfies readonly Kind[];

const has = <T extends string>(list: readonly T[], one: string): boolean => (list as readonly string[]).includes(one);
export const isLegal = (kind: Kind): boolean => has(LEGAL_KINDS, kind);
/** Whether it can be brought only after somebody was at the house. */
export const needsVisit = (kind: Kind): boolean => has(AFTER_A_VISIT, kind);
export const needsConclusion = (kind: Kind): boolean => !has(ANSWERED, kind);
export const blamesStep = (cause: Cause): boolean => has(STEP_CAUSES, cause);
export const mustNameStep = (cause: Cause): boolean => has(NAMES_STEP, cause);
export const paysMoney = (kind: RemedyKind): boolean => has(MONEY_REMEDIES, kind);

/** A question is no callback, and a near-miss was caught before anybody relied on it: neither counts in a rate of callbacks. */
export const countsAsCallback = (kind: Kind): boolean => kind !== 'question' && kind !== 'near_miss';
