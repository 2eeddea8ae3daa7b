// The closed lists of the job area, with the words that people read.
export const JOB_KINDS = { inspection: 'inspection', reinspection: 're-inspection', callback_visit: 'callback visit' } as const;
export const JOB_STATES = {
  held: 'held',
  booked: 'booked',
  on_site: 'on site',
  visited: 'visited',
  ended: 'ended early',
  reported: 'reported',
  cancelled: 'cancelled',
  lapsed: 'lapsed',
} as const;
export const TERMS = {
  due_at_booking: 'due at booking',
  due_at_visit: 'due on the day of the visit',
  deposit: 'deposit before the visit, the rest on its day',
  billed_to_closing: 'billed to the closing',
} as const;
export const PARTY_ROLES = {
  client: 'client',
  buyers_agent: "buyer's agent",
  listing_agent: 'listing agent',
  seller: 'seller',
  occupant: 'occupant',
  opener: 'person who opens',
  attorney: 'attorney',
  payer: 'payer',
} as const;
export const NEED_KINDS = {
  access: 'access agreed',
  utilities: 'utilities on',
  signature: 'agreement signed',
  payer: 'who pays',
  payment: 'payment',
  tenant_notice: 'notice to the tenant',
  client_address: "client's e-mail address",
  results: 'results awaited',
  provider_document: 'document of the outside provider',
  same_pair: 'whether the same people may go',
  closed_house: 'house closed before the test',
  ending_fee: 'fee after the ending',
  report_owed: 'whether a report is owed',
  walk_through: 'walk-through by phone',
} as const;
export const NEED_STATES = { open: 'open', asked: 'asked', settled: 'settled', refused: 'refused', not_needed: 'not needed' } as const;
/** Where the client heard of the firm; counted, never rewarded. */
export const SOURCES = {
  '': 'not asked',
  agent: 'an agent',
  past_client: 'a past client',
  friend: 'a friend',
  search: 'a search',
  sign: 'a sign or vehicle',
  other: 'something else',
} as const;

/** When the client's side is to be at the house. */
export const ARRIVES = { start: 'from the start', walk_through: 'for the walk-through', not_at_all: 'not at all' } as const;

export type Arrives = keyof typeof ARRIVES;
export type JobKind = keyof typeof JOB_KINDS;
export type JobState = keyof typeof JOB_STATES;
export type Terms = keyof typeof TERMS;
export type PartyRole = keyof typeof PARTY_ROLES;
export type NeedKind = keyof typeof NEED_KINDS;
export type NeedState = keyof typeof NEED_STATES;
export type Source = keyof typeof SOURCES;

const FOLLOWS: Partial<Record<NeedKind, readonly NeedState[]>> = {
  signature: ['open', 'asked', 'refused'],
  payment: ['open', 'asked', 'refused', 'not_needed'],
  results: ['open', 'asked', 'refused', 'not_needed'],
  ending_fee: [],
  report_owed: [],
};

/** How far somebody may say that a thing is: signatures, payments and results settle themselves, and decisions are taken where they are asked. */
export const statesByHand = (kind: NeedKind): readonly NeedState[] => FOLLOWS[kind] ?? (Object.keys(NEED_STATES) as NeedState[]);
