// Events of a callback that not everybody at the desk sees.

/** About the health of the firm's own people: the owner's alone. */
export const OWNERS_ALONE: readonly string[] = ['work_injury', 'work_injury_reported'];

/** Whose words and details are opinions or money, or the owner's alone. */
export const CONFIDENTIAL: readonly string[] = [
  'concluded',
  'conclusion_confirmed',
  'account_asked',
  'account_given',
  'counsel_marked',
  'reserve_changed',
  'cleared',
  'recovered',
  'paid',
  'payment_reversed',
  'recovery_reversed',
  'remedy_amended',
  'policy_named',
  'court_filed',
  'court_decided',
  ...OWNERS_ALONE,
];
